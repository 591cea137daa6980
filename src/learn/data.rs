//! A reading as a value with its scatter, and where it is read off a forecast.

use potset_base::words::{SweetWord, TextureWord};
use potset_doc::batch::{Batch, Observed};
use potset_science::Forecast;
use potset_science::params::{LearningLaw, WordLaw};
use potset_science::sensory;
use potset_science::texture::sensory::line_spread_cm;

use potset_base::constants::{ACETIC_G_MOL, LACTIC_G_MOL};

/// What of a forecast a reading is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Seen {
    Ph,
    /// % lactic acid.
    Acidity,
    /// °C.
    Warmth,
    /// Logarithm of undissociated lactic acid, mmol/kg.
    Tang,
    /// Logarithm of sucrose equivalents over acid, by weight.
    Sweetness,
    /// Logarithms of the viscosity at 50 1/s, Pa·s: chilled, and in the pot.
    Chilled,
    InPot,
    /// cm, chilled.
    LineSpread,
}

impl Seen {
    /// All, in the order of their places.
    pub const ALL: [Self; 8] = [
        Self::Ph,
        Self::Acidity,
        Self::Warmth,
        Self::Tang,
        Self::Sweetness,
        Self::Chilled,
        Self::InPot,
        Self::LineSpread,
    ];

    /// The value of a forecast at one of its times, by its place.
    pub fn at(self, f: &Forecast, i: usize, law: &WordLaw) -> f64 {
        let value = |ys: &[f64]| ys.get(i).copied().unwrap_or(f64::NAN);
        match self {
            Self::Ph => value(&f.ph),
            Self::Acidity => value(&f.titratable),
            Self::Warmth => value(&f.temperature),
            Self::Tang => value(&f.undissociated).max(LEAST).ln(),
            Self::Sweetness => {
                let sugars = std::array::from_fn(|s| value(&f.sugars[s]));
                let acid = (value(&f.lactic) * LACTIC_G_MOL + value(&f.acetic) * ACETIC_G_MOL) * 1e-3;
                (sensory::sucrose_equivalents(&sugars, law).max(LEAST) / acid.max(LEAST)).ln()
            }
            Self::Chilled => value(&f.chilled.viscosity50).max(1e-4).ln(),
            Self::InPot => value(&f.warm.viscosity50).max(1e-4).ln(),
            Self::LineSpread => line_spread_cm(value(&f.chilled.viscosity50)),
        }
    }
}

/// Least amount whose logarithm is taken, mmol/kg or g/kg: far under what anybody tastes.
const LEAST: f64 = 0.05;

/// How far the words at the ends of a scale reach beyond it, as a factor. Source: assumed.
const BEYOND: f64 = 3.0;

/// How much a pH drifts in the cold a day before it is read, one sigma. Source: assumed, within what published stores lose.
const COLD_A_DAY: f64 = 0.05;

/// One reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Datum {
    /// When it is read off the forecast, h: what was read in the cold is held against the stop.
    pub at_h: f64,
    pub seen: Seen,
    pub value: f64,
    /// One sigma, in the unit of the value.
    pub sigma: f64,
    /// Its place among the batch's readings.
    pub reading: usize,
}

/// The readings of a batch that a forecast can be held against, by time.
///
/// - `stop_h` — when it was taken out of the warmth, or is to be.
pub fn data(batch: &Batch, stop_h: f64, law: &LearningLaw, words: &WordLaw) -> Vec<Datum> {
    let mut all = Vec::new();
    for (place, reading) in batch.readings.iter().enumerate() {
        let days = ((reading.at_h - stop_h) / 24.0).max(0.0);
        let cold = reading.at_h > stop_h + 1e-9;
        let Some((seen, value, sigma)) = value(reading.what, cold, law, words) else { continue };
        // A warmth in the fridge tells nothing about the hold.
        if seen == Seen::Warmth && (cold || reading.at_h < 0.0) {
            continue;
        }
        let sigma = match seen {
            Seen::Ph => sigma.hypot(law.law_ph).hypot(COLD_A_DAY * days),
            _ => sigma,
        };
        let at_h = reading.at_h.clamp(0.0, stop_h.max(0.0));
        all.push(Datum { at_h, seen, value, sigma, reading: place });
    }
    all
}

fn value(what: Observed, cold: bool, law: &LearningLaw, words: &WordLaw) -> Option<(Seen, f64, f64)> {
    let word = law.word.ln();
    let band = |seen, low: f64, high: f64| {
        // The mean and the scatter of anything between the two, evenly by its logarithm.
        let (low, high) = (low.ln(), high.ln());
        Some((seen, 0.5 * (low + high), ((high - low) / 12.0_f64.sqrt()).hypot(word)))
    };
    match what {
        Observed::Ph(v) => Some((Seen::Ph, v, law.meter_ph)),
        Observed::Strip(v) => Some((Seen::Ph, v, law.strip_ph)),
        Observed::Acidity(v) => Some((Seen::Acidity, v, law.acidity)),
        Observed::Warmth(v) => Some((Seen::Warmth, v, law.warmth_c)),
        Observed::LineSpread(v) => Some((Seen::LineSpread, v, law.line_spread_cm)),
        Observed::Tang(tang) => {
            let (low, high) = sensory::tang_bounds(tang, words);
            let high = if high.is_finite() { high } else { low * BEYOND };
            band(Seen::Tang, low.max(high / BEYOND), high)
        }
        Observed::Sweetness(sweet) => {
            let (low, high) = match sweet {
                SweetWord::AcidLeads => (words.acid_leads_below / BEYOND, words.acid_leads_below),
                SweetWord::Balanced => (words.acid_leads_below, words.balanced_below),
                SweetWord::SweetnessLeads => (words.balanced_below, words.balanced_below * BEYOND),
            };
            band(Seen::Sweetness, low, high)
        }
        Observed::Texture(texture) => {
            let (low, high) = match texture {
                TextureWord::Pours => (words.pours_below / BEYOND, words.pours_below),
                TextureWord::Ribbons => (words.pours_below, words.ribbons_below),
                TextureWord::Dollops => (words.ribbons_below, words.dollops_below),
                TextureWord::Stands | TextureWord::Cuts => {
                    (words.dollops_below, words.dollops_below * BEYOND)
                }
            };
            band(if cold { Seen::Chilled } else { Seen::InPot }, low, high)
        }
        Observed::ThinLayer(_) | Observed::Whey(_) | Observed::Remark => None,
    }
}
