//! Thin face of the chosen numerical methods: integrator, roots, interpolation, least squares, samples,
//! quantiles. Knows no food.

pub mod cholesky;
pub mod error;
pub mod interpolate;
pub mod least_squares;
pub mod moments;
pub mod normal;
pub mod ode;
pub mod pattern;
pub mod quantile;
pub mod root;
pub mod samples;

pub use error::Error;
