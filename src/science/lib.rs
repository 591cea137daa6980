//! The model: pure functions, no document, no file, no screen. The same mix gives the same bits.

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

pub mod acid_base;
pub mod forecast;
pub mod keep;
pub mod kinetics;
pub mod mix;
pub mod nutrition;
pub mod params;
pub mod sensory;
pub mod simulate;
pub mod system;
pub mod texture;
pub mod thermal;

pub use forecast::Forecast;
pub use mix::Mix;
pub use simulate::{simulate, simulate_at, simulate_coarse};
