//! Starch by swollen volume: packing, paste and suspension.

use crate::numerics::interpolate::smooth_step;
use crate::science::params::StarchLaw;

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
    /// Source: published collapse on cQ, Christianson and Bagley 1983; the bend at 1 assumed, texture notes 6.3.
    #[must_use]
    pub fn effective(&self) -> f64 {
        if self.volume <= 1.0 { self.volume } else { 1.0 + 0.5 * (self.volume - 1.0) }
    }

    /// Stiffness of the starch, Pa: `G1 x^4.8 e^(0.02 (25 − T))`.
    #[must_use]
    pub fn stiffness_at(&self, c: f64, law: &StarchLaw) -> f64 {
        self.stiffness * self.effective().powf(law.stiffness_exponent) * cooling(c, law)
    }

    /// Stress of the paste at a shear rate, Pa: `K1 x³ e^(0.02 (25 − T)) γ^0.4`, faded in as granules begin to touch.
    ///
    /// Source: assumed form; consistency rises with granule size, Okechukwu and Rao 1995.
    #[must_use]
    pub fn paste(&self, shear: f64, c: f64, law: &StarchLaw) -> f64 {
        let x = self.effective();
        let weight = smooth_step(law.blend_from, law.blend_to, x);
        weight
            * self.consistency
            * x.powf(law.consistency_exponent)
            * cooling(c, law)
            * shear.powf(law.flow_index)
    }

    /// Factor by which loose granules thicken the serum: `(1 − x/0.7)^−1.75`, held at its value where the paste law
    /// has taken over.
    ///
    /// Source: published form, Krieger and Dougherty 1959.
    #[must_use]
    pub fn suspension(&self, law: &StarchLaw) -> f64 {
        let x = self.effective().min(law.blend_to);
        (1.0 - x / law.packing_most).powf(-law.packing_exponent)
    }
}

fn cooling(c: f64, law: &StarchLaw) -> f64 {
    (law.temperature_slope * (law.reference_c - c)).exp()
}
