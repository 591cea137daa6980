//! Nutrition: energy by factors, rounding by the customs of labels.

pub mod energy;
pub mod rounding;

pub use energy::Macros;
