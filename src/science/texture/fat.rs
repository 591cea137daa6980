//! Solid fat: how much of it is solid, and the network that it builds when it is cold.

use crate::numerics::interpolate::linear;
use crate::science::params::{FatLaw, Laws};

/// Solid share of the fat at a temperature, 0 to 1.
#[must_use]
pub fn solid(plant_fat: f64, c: f64, laws: &Laws) -> f64 {
    plant_fat * linear(&laws.coconut_solid, c) + (1.0 - plant_fat) * linear(&laws.milk_solid, c)
}

/// Stiffness of the solid-fat network, Pa: `f_net · 10^6 (φ · SFC)^3`.
///
/// - `phi` — volume share of fat in what the starch leaves, `homogenised` — share of it that is finely broken up.
/// - Source: assumed form (fractal law of fat crystals), texture notes 3.3.
#[must_use]
pub fn network(phi: f64, solid: f64, homogenised: f64, law: &FatLaw) -> f64 {
    let share = homogenised * law.network_homogenised + (1.0 - homogenised) * law.network_home;
    share * law.network_pa * (phi * solid).max(0.0).powf(law.network_exponent)
}
