//! The only egui: shell, tokens, theme, widgets, painter, one folder a view.
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

pub mod dialogs;
pub mod shell;
pub mod top_bar;
mod tour;
pub mod tracer;
pub mod views;
