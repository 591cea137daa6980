//! What laboratories report of a texture: a power law of its flow, and a force on a probe.

/// Radius of the cylinder that is pressed in, and how deep, m: 25 mm across, 2 mm. Source: assumed, a probe and a depth that
/// are common and still small against the pot.
const PROBE_RADIUS_M: f64 = 0.0125;
const PROBE_DEPTH_M: f64 = 0.002;

/// A flow as a power law: stress `K γ^n`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerLaw {
    /// Consistency K, Pa·s^n.
    pub k: f64,
    /// Flow index n; 1 for a liquid that does not thin, less for one that thins when stirred faster.
    pub n: f64,
}

/// The power law through the apparent viscosities at 10 and 50 1/s, Pa·s.
///
/// `η = K γ^(n − 1)`
///
/// - Source: derived, Ostwald-de Waele law through two points of the forecast.
/// - Limitations: between 10 and 50 1/s; a yield stress bends the curve below.
pub fn power_law(viscosity10: f64, viscosity50: f64) -> PowerLaw {
    let n = 1.0 + (viscosity50 / viscosity10).ln() / 5.0_f64.ln();
    PowerLaw { k: viscosity10 * 10.0_f64.powf(1.0 - n), n }
}

/// Force on a flat cylinder of 25 mm, pressed 2 mm into the pot as it set, N.
///
/// `F = 8 G' a d`
///
/// - `stiffness_pa` — G' of the undisturbed pot, Pa.
/// - Source: derived, rigid flat cylinder on an elastic half-space (Sneddon 1965), `F = 2 a d E/(1 − ν²)`, with E = 3 G'
///   and ν = 1/2 for what is mostly water.
/// - Limitations: a wide and deep pot that has not broken; a probe that goes on until the gel breaks reads more, and one
///   pressed through a narrow pot too.
pub fn firmness_n(stiffness_pa: f64) -> f64 {
    8.0 * stiffness_pa * PROBE_RADIUS_M * PROBE_DEPTH_M
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_power_law_goes_through_both_points() {
        let law = power_law(2.0, 0.7);
        for (shear, viscosity) in [(10.0_f64, 2.0), (50.0, 0.7)] {
            assert!((law.k * shear.powf(law.n - 1.0) - viscosity).abs() < 1e-12);
        }
        assert!(law.n > 0.0 && law.n < 1.0);
        let water = power_law(1e-3, 1e-3);
        assert!((water.n - 1.0).abs() < 1e-12 && (water.k - 1e-3).abs() < 1e-15);
    }

    #[test]
    fn firmness_of_a_gel_of_500_pa() {
        // 8 · 500 Pa · 12.5 mm · 2 mm.
        assert!((firmness_n(500.0) - 0.1).abs() < 1e-12);
    }
}
