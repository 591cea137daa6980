//! The window: the shell, and every view but the bench, which is a crate of its own as dialogs, chart and kit are.
//!
//! Invariant: a view reads state and pushes commands; it never writes, computes a forecast or touches the disk.

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

pub mod shell;
pub mod top_bar;
mod tour;
pub mod views;
