//! The views.

pub mod bench;
pub mod sheet;
