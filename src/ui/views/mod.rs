//! The views.

pub mod bench;
pub mod pantry;
pub mod sheet;
