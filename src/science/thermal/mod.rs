//! Heat: the temperature of the pot against time, from pieces of Newton's law or from readings.

pub mod bath;
pub mod choi_okos;
pub mod conduction;
pub mod course;
pub mod flask;

pub use course::{Course, Piece};
