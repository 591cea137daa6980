//! Thin face of the chosen numerical methods: integrator, roots, interpolation, least squares, samples,
//! quantiles. Knows no food.

#![cfg_attr(
    test,
    allow(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::float_cmp,
        clippy::disallowed_methods,
        reason = "a test may stop at the first fault and compare exactly"
    )
)]

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
