//! Acid made by growing and by resting cells, and how warmth drives the resting part.

use super::cardinal;
use potset_base::constants::{GAS_CONSTANT, ZERO_CELSIUS_K};
use potset_numerics::interpolate::smooth_step;

/// Constants of the resting cells' acid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resting {
    /// How much warmer than growth's the optimum of acid making lies, °C.
    pub shift_c: f64,
    /// Activation energy in the cold, kJ/mol.
    pub energy_kj_mol: f64,
    /// Temperature at which the rate per cell is stated, °C.
    pub reference_c: f64,
    /// Below this the cold law may carry, °C.
    pub cold_from_c: f64,
    /// Above this it no longer does, °C.
    pub cold_to_c: f64,
}

/// Warmth factor of acid making by resting cells, about 1 near 42 °C.
///
/// Growth's cardinal curve with its optimum moved up by a shift; in the cold the larger of that and
/// `exp(−Ea/R (1/T − 1/Tref))`; nothing above Tmax. The two are blended between `cold_from_c` and `cold_to_c`
/// (in the source the cold law ends at 30 °C with a jump; the blend keeps every curve continuous).
///
/// - `t` — °C; `cold_factor` scales the cold law: mild, medium or sharp cultures.
/// - Source: derived, seven published cold-storage series (Ea 80-90 kJ/mol), among them Food Sci Nutr 2017, 5:525 and
///   5:875; shift published, Beal et al. 1989.
pub fn warmth(t: f64, temperature: [f64; 3], cold_factor: f64, law: &Resting) -> f64 {
    let [min, opt, max] = temperature;
    if t >= max {
        return 0.0;
    }
    let curve = cardinal::temperature(t, [min, opt + law.shift_c, max]);
    if t >= law.cold_to_c {
        return curve;
    }
    let kelvin = t + ZERO_CELSIUS_K;
    let reference = law.reference_c + ZERO_CELSIUS_K;
    let cold =
        cold_factor * (-law.energy_kj_mol * 1e3 / GAS_CONSTANT * (1.0 / kelvin - 1.0 / reference)).exp();
    let weight = 1.0 - smooth_step(law.cold_from_c, law.cold_to_c, t);
    curve + weight * (cold - curve).max(0.0)
}

/// Acid made, mmol/(kg h), by `count` cells (cfu/g) growing at `growth` (1/h) with `resting` pmol/(cfu h).
///
/// `1e-6 N (α μ + β)`: 1 pmol/cfu × 1 cfu/g = 1e-6 mmol/kg
///
/// Source: published, Luedeking and Piret 1959, J Biochem Microbiol Technol Eng 1:393.
pub fn rate(count: f64, growth: f64, per_cell: f64, resting: f64) -> f64 {
    1e-6 * count * (per_cell * growth + resting)
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAW: Resting =
        Resting { shift_c: 2.0, energy_kj_mol: 85.0, reference_c: 42.0, cold_from_c: 26.0, cold_to_c: 34.0 };

    #[test]
    fn continuous_in_temperature() {
        for cardinals in [[19.0, 42.0, 50.5], [21.0, 44.0, 52.0], [25.0, 39.0, 46.0]] {
            let mut last = warmth(0.0, cardinals, 1.0, &LAW);
            for i in 1..=60_000 {
                let now = warmth(f64::from(i) * 1e-3, cardinals, 1.0, &LAW);
                assert!((now - last).abs() < 2e-3, "{cardinals:?} at {}", f64::from(i) * 1e-3);
                last = now;
            }
        }
    }

    #[test]
    fn about_one_at_the_reference_and_little_in_the_fridge() {
        assert!((warmth(42.0, [19.0, 42.0, 50.5], 1.0, &LAW) - 1.0).abs() < 0.05);
        let cold = warmth(4.0, [21.0, 44.0, 52.0], 1.0, &LAW);
        assert!(cold > 0.008 && cold < 0.02, "{cold}");
    }
}
