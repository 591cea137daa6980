//! The views.

pub mod bench;
pub mod beside;
pub mod pantry;
pub mod sheet;
