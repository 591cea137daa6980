//! Solid fat: how much of it is solid, and the network of droplets that stick when it is cold.

use crate::params::{FatLaw, Laws};
use potset_numerics::interpolate::linear;

/// Solid share of the plant fat at a temperature, and of all the fat, 0 to 1. Oils of soy, oats and nuts stay liquid.
///
/// - `plant_fat`, `coconut_fat` — share of the fat that is of plants, and that is of coconut, 0 to 1.
pub fn solid(plant_fat: f64, coconut_fat: f64, c: f64, laws: &Laws) -> (f64, f64) {
    let coconut = coconut_fat * linear(&laws.coconut_solid, c);
    let of_plants = if plant_fat > 0.0 { coconut / plant_fat } else { 0.0 };
    (of_plants, coconut + (1.0 - plant_fat) * linear(&laws.milk_solid, c))
}

/// Stiffness of the network of solid droplets, Pa: `f_net · 3·10^5 (φ · SFC)^3 (1 + k_sour s)`.
///
/// It gives the cold pot a yield stress. How it flows once broken is the clusters' thickening of the serum
/// ([`super::emulsion`]): what thickens the serum thickens the cold pot too.
///
/// - `phi` — volume share of fat in what the starch leaves, `homogenised` — share of it that is finely broken up.
/// - `clustered` — what souring adds to the clusters, `k_sour s`.
/// - Source: assumed form (fractal law of fat crystals); size so that three creams at 5 °C lie near their readings.
pub fn network(phi: f64, solid: f64, homogenised: f64, clustered: f64, law: &FatLaw) -> f64 {
    if solid <= 0.0 {
        return 0.0;
    }
    let share = homogenised * law.network_homogenised + (1.0 - homogenised) * law.network_home;
    share * law.network_pa * (phi * solid).powf(law.network_exponent) * (1.0 + clustered)
}
