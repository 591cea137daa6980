//! What a caller would see of a pot: how likely each symptom is there, read off its forecast.

use crate::data::{Cause, SYMPTOMS, Symptom};
use potset_base::constants::{ACETIC_G_MOL, LACTIC_G_MOL};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Run;
use potset_judge::outcomes::Outcomes;
use potset_science::sensory::texture_bounds;

/// Where a person begins to say so, and over which width people differ. Source of all: assumed, beside the thresholds of the
/// program's own words and the least differences that a person notices.
const THIN_OF_PLANNED: f64 = 0.55;
const THIN_WIDTH: f64 = 0.3;
/// How many judge it before it is cold.
const JUDGED_WARM: f64 = 0.5;
const SPLIT_PERCENT: (f64, f64) = (9.0, 3.0);
const WHEY_PERCENT: (f64, f64) = (4.0, 1.5);
const TANG_WIDTH: f64 = 0.35;
const SOUR_WIDTH: f64 = 0.25;
const SWEET_WIDTH: f64 = 0.35;
/// Less sugar than this is not sweet, whatever the acid: g sucrose per kg.
const SWEET_G_KG: (f64, f64) = (9.0, 3.0);

/// What the planned pot is like, to which a caller holds the one that came out.
#[derive(Clone, Copy, Debug)]
pub struct Planned {
    /// Chilled thickness, Pa·s at 50 1/s, under which a person begins to call it thin.
    pub thin_below: f64,
    /// The same of the warm pot.
    pub thin_warm_below: f64,
    /// Undissociated acid of the plan, mmol/kg.
    pub tang: f64,
}

impl Planned {
    /// Of the likely run of a plan, of the same plan with each of its flaws mended, and the word that its texture goal begins
    /// with, if it has one.
    pub fn of(run: &Run, better: &[Run], goal: Option<potset_base::words::TextureWord>) -> Self {
        let all = || std::iter::once(run).chain(better);
        let most = |of: Observable| {
            all().filter_map(|run| Outcomes::of_curves(run, &[]).get(of)).fold(0.0, f64::max)
        };
        let warm = all().map(warm).fold(0.0, f64::max);
        let words = &run.mix.laws.words;
        let asked = goal.map_or(0.0, |word| texture_bounds(word, word, words).0);
        Self {
            thin_below: asked.max(THIN_OF_PLANNED * most(Observable::Texture)).max(1e-4),
            thin_warm_below: (THIN_OF_PLANNED * warm).max(1e-4),
            tang: most(Observable::Tang),
        }
    }
}

/// Thickness of the pot as it stands in the warmth, Pa·s at 50 1/s.
fn warm(run: &Run) -> f64 {
    run.forecast.value(&run.forecast.warm.viscosity50, run.mix.stop_h)
}

/// 0 to 1 as a value rises past a place.
fn past(value: f64, at: f64, width: f64) -> f64 {
    1.0 / (1.0 + (-(value - at) / width).exp())
}

fn past_log(value: f64, at: f64, width: f64) -> f64 {
    past(value.max(1e-6).ln(), at.max(1e-6).ln(), width)
}

/// Chance that each symptom is there, in a pot that came out as this run has it.
pub fn there(run: &Run, planned: &Planned, causes: &[&Cause]) -> [f64; SYMPTOMS] {
    let seen = Outcomes::of_curves(run, &[]);
    let value = |of: Observable| seen.get(of).unwrap_or(0.0);
    let words = &run.mix.laws.words;
    let f = &run.forecast;
    let at = |ys: &[f64]| f.value(ys, run.mix.stop_h);
    let acid = (at(&f.lactic) * LACTIC_G_MOL + at(&f.acetic) * ACETIC_G_MOL) * 1e-3;
    let (tang, sweet) = (value(Observable::Tang), value(Observable::Sweetness));
    let mut all = [0.0; SYMPTOMS];
    let mut put = |symptom: Symptom, chance: f64| all[symptom as usize] = chance;
    let chilled = 1.0 - past_log(value(Observable::Texture), planned.thin_below, THIN_WIDTH);
    let in_pot = 1.0 - past_log(warm(run), planned.thin_warm_below, THIN_WIDTH);
    put(Symptom::Thin, chilled.max(JUDGED_WARM * in_pot));
    put(Symptom::Split, past(value(Observable::ThinLayer), SPLIT_PERCENT.0, SPLIT_PERCENT.1));
    put(Symptom::Whey, past(value(Observable::Whey), WHEY_PERCENT.0, WHEY_PERCENT.1));
    put(
        Symptom::NoTang,
        1.0 - past_log(tang, words.mild_below.min(planned.tang.max(words.flat_below)), TANG_WIDTH),
    );
    put(
        Symptom::TooSour,
        past_log(tang, words.sharp_below.min(1.5 * planned.tang.max(words.bright_below)), SOUR_WIDTH),
    );
    let leads = past_log(sweet, words.balanced_below * acid, SWEET_WIDTH);
    put(Symptom::Sweet, leads * past(sweet, SWEET_G_KG.0, SWEET_G_KG.1));
    for (symptom, chance) in causes.iter().flat_map(|cause| &cause.shows) {
        let own = &mut all[*symptom as usize];
        *own = own.max(*chance);
    }
    all
}
