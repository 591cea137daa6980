//! Keeping in words: what the pot will be after days in the fridge, and what changes first.

use super::ask::Run;
use crate::base::words::{TangWord, TextureWord};
use crate::science::keep::{self, Keeping};
use crate::science::sensory;

/// Days that are told.
pub const TOLD: [f64; 5] = [1.0, 3.0, 7.0, 14.0, 28.0];

/// Days that a forecast of keeping reaches.
pub const REACH: f64 = 28.0;

/// The pot on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    pub days: f64,
    pub ph: f64,
    pub titratable: f64,
    pub sugar_g_kg: f64,
    pub tang: TangWord,
    pub texture: TextureWord,
    /// Pa·s at 50 1/s.
    pub viscosity: f64,
    pub whey_standing: f64,
    /// Thin layer below, % of the pot.
    pub thin_layer: f64,
}

/// Keeping of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepingReading {
    pub kept_c: f64,
    pub curves: Keeping,
    pub days: Vec<Day>,
    /// First day on which the tang word is stronger than on the first, and that word.
    pub sharper: Option<(f64, TangWord)>,
}

/// Keeps the pot of a run in the cold.
///
/// - `fridge_c` — °C where the design does not say.
#[must_use]
pub fn keeping(run: &Run, stop_h: f64, fridge_c: f64) -> Option<KeepingReading> {
    let kept_c = if run.mix.after.days > 0.0 { run.mix.after.kept_c } else { fridge_c };
    let curves = keep::keep(&run.mix, stop_h, REACH, kept_c).ok()?;
    let words = &run.mix.laws.words;
    let tang = |i: usize| sensory::tang(curves.undissociated[i], words);
    let days = TOLD
        .iter()
        .filter_map(|d| curves.days.iter().position(|day| (day - d).abs() < 1e-6))
        .filter_map(|i| {
            let texture = curves.texture.get(i)?;
            Some(Day {
                days: curves.days[i],
                ph: curves.ph[i],
                titratable: curves.titratable[i],
                sugar_g_kg: curves.sugar_total[i],
                tang: tang(i),
                texture: texture.word,
                viscosity: texture.viscosity50,
                whey_standing: texture.whey.standing,
                thin_layer: texture.thin_layer,
            })
        })
        .collect();
    let first = curves.days.first().map(|_| tang(0))?;
    let sharper = (1..curves.days.len()).find(|i| tang(*i) > first).map(|i| (curves.days[i], tang(i)));
    Some(KeepingReading { kept_c, curves, days, sharper })
}
