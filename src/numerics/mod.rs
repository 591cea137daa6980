//! Thin face of the chosen numerical methods: integrator, roots, interpolation, least squares. Knows no food.

pub mod error;
pub mod interpolate;
pub mod least_squares;
pub mod ode;
pub mod root;
pub mod samples;

pub use error::Error;
