//! The views.

pub mod aim;
pub mod beside;
pub mod pantry;
pub mod recipes;
