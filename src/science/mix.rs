//! A pot mix: everything the model needs, complete, checked and in model units.

use std::sync::Arc;

use super::acid_base::{Balance, sites, titration};
use super::kinetics::Organism;
use super::params::Laws;
use super::texture::TextureInputs;
use super::thermal::Course;

/// Count of an organism that is not there, cfu/g: it keeps the logarithm finite, and nothing grows from it.
pub const ABSENT: f64 = 1e-9;

/// Something put in during the hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Addition {
    pub at_h: f64,
    /// mmol per kg of pot mix of each sugar.
    pub sugars: [f64; 8],
    /// cfu/g of each organism of the pot.
    pub counts: Vec<f64>,
}

/// The chill after the hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chill {
    /// Temperature of the cold place, °C.
    pub around_c: f64,
    pub tau_h: f64,
    pub to_c: f64,
    /// How long the pot is left, h.
    pub hours: f64,
}

/// What is done to the pot after the hold.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct After {
    /// Share that runs off as whey when it is strained, 0 to 1.
    pub strained: f64,
    /// Share of the finished pot that was stirred in after the hold, 0 to 1.
    pub stirred_in: f64,
    /// Sugars stirred in, g per kg of the finished pot.
    pub sugars: [f64; 8],
    /// Acids stirred in, mmol per kg of the finished pot: all of it titrates.
    pub acid: f64,
    /// Keeping: days and °C; no days if the pot is eaten fresh.
    pub days: f64,
    pub kept_c: f64,
}

/// A pot mix. Basis: 1 kg of finished mix; h, °C, mmol/kg, cfu/g.
#[derive(Clone, Debug, PartialEq)]
pub struct Mix {
    pub organisms: Vec<Organism>,
    /// mmol/kg of each sugar at the start.
    pub sugars: [f64; 8],
    /// g/L of sugar that was added for the culture.
    pub added_g_l: f64,
    pub balance: Balance,
    /// Lactic and acetic acid at the start, carried in by the culture or put in, mmol/kg.
    pub carried: [f64; 2],
    /// Sites that give off carbon dioxide as they take up acid, mmol/kg: that acid no longer titrates.
    pub gassing: Vec<super::acid_base::Site>,
    /// Share of water, 0 to 1.
    pub water: f64,
    /// Lactase, units per kg.
    pub lactase: f64,
    /// % lactic before the culture.
    pub start_acidity: f64,
    /// kg/L.
    pub density: f64,
    /// The hold as if it went on and on: from the culture (0 h) to the horizon.
    pub course: Course,
    pub additions: Vec<Addition>,
    pub texture: TextureInputs,
    pub chill: Chill,
    pub after: After,
    /// Planned end of the hold, h.
    pub stop_h: f64,
    /// How far the forecast looks, h.
    pub horizon_h: f64,
    pub laws: Arc<Laws>,
}

/// What is eaten, per kg of the finished pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Served {
    /// g/kg of each sugar.
    pub sugars: [f64; 8],
    /// mmol/kg; acid that was stirred in counts as lactic.
    pub lactic: f64,
    pub acetic: f64,
}

impl Mix {
    /// Of what is dissolved in 1 kg of the mix, the share that is in 1 kg of what is eaten.
    pub fn dissolved_left(&self) -> f64 {
        let w = self.after.strained;
        let kept = if w > 0.0 { (1.0 - w / self.water.max(w)) / (1.0 - w) } else { 1.0 };
        kept * (1.0 - self.after.stirred_in)
    }

    /// Titratable acidity where the mix stands at a pH, % lactic acid, all of the acid lactic.
    ///
    /// Acid that chalk has given off as gas no longer titrates. Above the start pH it is that of the start.
    pub fn acidity_at(&self, ph: f64) -> f64 {
        let gone = if self.gassing.is_empty() { 0.0 } else { sites::bound(&self.gassing, ph) };
        let acid = self.balance.lactic_to(ph).max(0.0);
        titration::percent(self.start_acidity, if acid > 0.0 { acid - gone } else { 0.0 }, 0.0)
    }

    /// What is eaten of a pot with these sugars, g/kg, and acids, mmol/kg.
    ///
    /// Whey takes the small molecules away in the water; what is stirred in thins them.
    pub fn served(&self, sugars: &[f64; 8], lactic: f64, acetic: f64) -> Served {
        let factor = self.dissolved_left();
        Served {
            sugars: std::array::from_fn(|s| sugars[s] * factor + self.after.sugars[s]),
            lactic: lactic * factor + self.after.acid,
            acetic: acetic * factor,
        }
    }
}
