//! Thin face of the chosen numerical methods: integrator, roots, interpolation, least squares, bounded search. Knows no food.

pub mod error;
pub mod interpolate;
pub mod least_squares;
pub mod minimise;
pub mod ode;
pub mod root;
pub mod samples;

pub use error::Error;
