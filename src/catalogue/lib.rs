//! The pantry read: labels, pages, checks, making a base, the mixing square.

#![cfg_attr(
    test,
    allow(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::float_cmp,
        clippy::disallowed_methods,
        reason = "a test may stop at the first fault and compare exactly"
    )
)]

pub mod label;
pub mod making;
pub mod mixing_square;
pub mod my_pot;
pub mod pantry_check;
pub mod pantry_page;
pub mod pantry_table;
