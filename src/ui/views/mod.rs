//! The views.

pub mod aim;
pub mod bench;
pub mod beside;
pub mod pantry;
