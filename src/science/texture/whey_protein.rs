//! Whey-protein denaturation by heat.

use crate::params::WheyLaw;
use crate::thermal::Course;
use potset_base::constants::{GAS_CONSTANT, ZERO_CELSIUS_K};

/// Rate constant of beta-lactoglobulin denaturation, 1/s, at a temperature, °C.
///
/// `k = min(k_low, k_high)`, `k_i = exp(ln k0_i − Ea_i/(R T))`
///
/// - Valid 70-150 °C; below 60 °C it is nothing that matters.
/// - Source: from memory, table of Dannenberg and Kessler 1988; checked against Larson and Rolleri 1955.
pub fn rate(c: f64, law: &WheyLaw) -> f64 {
    let over = 1e3 / (GAS_CONSTANT * (c + ZERO_CELSIUS_K));
    let low = (law.low_ln_k0 - law.low_energy * over).exp();
    let high = (law.high_ln_k0 - law.high_energy * over).exp();
    low.min(high)
}

/// Degree of denaturation, 0 to 1, from `∫ k dt`: order 1.5, `D = 1 − (1 + ½ ∫k dt)^−2`.
///
/// Source: published, order 1.5 by Dannenberg and Kessler 1988.
pub fn degree(integral: f64) -> f64 {
    1.0 - (1.0 + 0.5 * integral).powi(-2)
}

/// The integral that gives a degree of denaturation below 1.
pub fn integral_for(degree: f64) -> f64 {
    2.0 * ((1.0 - degree.clamp(0.0, 0.9999)).powf(-0.5) - 1.0)
}

/// `∫ k dt` over a course, by the midpoint rule with so many parts a piece.
pub fn integral(course: &Course, law: &WheyLaw) -> f64 {
    const PARTS: u32 = 48;
    course
        .spans()
        .enumerate()
        .map(|(i, (start, end))| {
            let width = (end - start) / f64::from(PARTS);
            let sum: f64 =
                (0..PARTS).map(|k| rate(course.in_piece(i, start + (f64::from(k) + 0.5) * width), law)).sum();
            sum * width * 3600.0
        })
        .sum()
}
