//! Starch by swollen volume: packing, and the paste of granules that touch.

use crate::params::StarchLaw;

/// All starches of the pot together.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Packing {
    /// Swollen volume over water volume, `cQ`, c in g dry per mL of water phase.
    pub volume: f64,
    /// Consistency at full packing, weighted by volume, Pa·s^n.
    pub consistency: f64,
    /// Stiffness at full packing, weighted by volume, Pa.
    pub stiffness: f64,
}

impl Packing {
    /// Adds a starch: swollen volume and its constants.
    pub fn add(&mut self, volume: f64, consistency: f64, stiffness: f64) {
        let total = self.volume + volume;
        if total > 0.0 {
            let share = volume / total;
            self.consistency += (consistency - self.consistency) * share;
            self.stiffness += (stiffness - self.stiffness) * share;
            self.volume = total;
        }
    }

    /// Effective packing: `x = cQ` up to 1, half as steep above.
    ///
    /// Source: published collapse on cQ, Christianson and Bagley 1983; the bend at 1 assumed.
    pub fn effective(&self) -> f64 {
        if self.volume <= 1.0 { self.volume } else { 1.0 + 0.5 * (self.volume - 1.0) }
    }

    /// What granules that touch carry at a temperature, °C.
    ///
    /// - Stiffness, Pa: `G1 x^4.8 e^(0.02 (25 − T))`.
    /// - Stress at a shear rate, Pa: `K1 x^3.6 e^(0.02 (25 − T)) γ^0.4`; all but the shear rate is [`Paste::consistency`].
    /// - Source: form and K1 assumed; the exponent derived from doses of rice starch in water, 3.75 and 5.57 g/100 g for 300
    ///   and 1500 mPa·s at 30 1/s (Vickers et al., Dysphagia, hydrocolloid doses).
    pub fn paste(&self, c: f64, law: &StarchLaw) -> Paste {
        if self.volume <= 0.0 {
            return Paste::default();
        }
        let (ln_x, cooling) = (self.effective().ln(), law.temperature_slope * (law.reference_c - c));
        Paste {
            stiffness: self.stiffness * (law.stiffness_exponent * ln_x + cooling).exp(),
            consistency: self.consistency * (law.consistency_exponent * ln_x + cooling).exp(),
        }
    }
}

/// Granules that touch.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Paste {
    /// Pa.
    pub stiffness: f64,
    /// Stress at 1 1/s, Pa.
    pub consistency: f64,
}
