//! The views.

pub mod aim;
pub mod batches;
pub mod beside;
mod bin;
pub mod card;
pub mod class;
pub mod mishap;
mod paint;
pub mod pantry;
pub mod recipes;
