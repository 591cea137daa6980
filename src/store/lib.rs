//! The only module on the disk: read, atomic write, last good copy, recovery, folders.

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
#![allow(clippy::disallowed_methods, reason = "this is the layer that may touch the disk")]

pub mod files;
pub mod folders;
pub mod memory;
pub mod opened;
pub mod out;
pub mod recovery;
