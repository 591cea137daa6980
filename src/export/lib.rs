//! Bytes out: tables and, later, cards and pictures. No file is opened here.

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

pub mod aim;
pub mod beside;
pub mod beside_file;
pub mod beside_picture;
pub mod csv;
pub mod evidence;
pub mod label;
pub mod layout;
pub mod pantry;
pub mod svg;
pub mod verdict;
