//! Thin face of the chosen numerical methods: integrator, roots, interpolation. Knows no food.

pub mod error;
pub mod interpolate;
pub mod ode;
pub mod root;

pub use error::Error;
