//! Where every value on the screen comes from.

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

pub mod acidity;
pub mod explain;
pub mod laboratory;
