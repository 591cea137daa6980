//! The views.

pub mod aim;
pub mod beside;
pub mod card;
pub mod pantry;
pub mod recipes;
