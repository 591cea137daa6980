//! The window: the shell, and every view but the bench, which is a crate of its own as dialogs, chart and kit are.
//!
//! Invariant: a view reads state and pushes commands; it never writes, computes a forecast or touches the disk.

pub mod shell;
pub mod top_bar;
mod tour;
pub mod views;
