//! How a run stands to what is wanted: how far it is inside each bound, in steps that a person would notice.

mod told;

pub use told::{Standing, standings};

use super::want::{Quantity, Want};
use potset_base::words::TextureWord;
use potset_doc::steps::Step;
use potset_forecast::outcome::{FAT_STEP, Outcome};
use potset_forecast::scenario::{Ask, Run};
use potset_judge::hygiene;
use potset_judge::nutrition::nutrition;
use potset_judge::readiness::release_ph_of;
use potset_numerics::interpolate::curve;
use potset_science::params::{Laws, WordLaw};
use potset_science::sensory::texture_bounds;
use potset_science::texture::sensory as touch;

/// What a proposal has to keep: the maker's wants, and what every pot has to keep whatever is wanted.
#[derive(Clone, Debug, PartialEq)]
pub enum Demand {
    Want(Want),
    /// Sour enough to be called done, by the design's own goal or the usual one.
    Done,
    /// The same, but at no higher pH than the design that was asked about: what does it already is not made surer by a change
    /// that only lets it be called done sooner, as leaving starch out does.
    DoneAsNow(f64),
    /// Sour in time, so that the caution on slow souring does not tell to throw it away.
    InTime,
    /// Called by the same texture word as the design, where nothing is wanted of it. The search keeps to it as long as that goes;
    /// it is no goal, so it is not counted in the chances. Always the last.
    TextureAsNow(TextureWord),
}

/// The demands that are counted in the possible pots.
#[must_use]
pub fn counted(demands: &[Demand]) -> &[Demand] {
    match demands {
        [all @ .., Demand::TextureAsNow(_)] => all,
        all => all,
    }
}

/// The span of texture words that a demand asks for.
const fn texture_words(demand: &Demand) -> Option<(TextureWord, TextureWord)> {
    match demand {
        Demand::Want(Want::Texture(low, high)) => Some((*low, *high)),
        Demand::TextureAsNow(word) => Some((*word, *word)),
        _ => None,
    }
}

/// Margin of what is not known, steps; of a pot without a forecast too.
pub const UNKNOWN: f64 = -200.0;
/// Margins are not counted beyond this, steps: farther inside is no better.
const MOST: f64 = 10.0;
/// Above this a step counts as cooking, °C. Source: assumed; a hot-water bath and a culture's warmth stay under it.
pub const COOKING_C: f64 = 60.0;

/// What of a run is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seen {
    /// By [`Quantity::ALL`]; nothing where it is not known.
    values: [Option<f64>; Quantity::ALL.len()],
    cut: bool,
    stiffness_pa: f64,
    release_ph: f64,
    late: Option<Late>,
}

/// Whether it was sour by the time of throwing away.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Late {
    by_h: f64,
    /// pH at that time, and the line that it must be under by then.
    ph: f64,
    line: f64,
    /// When it goes under the line.
    after_h: Option<f64>,
}

impl Seen {
    fn of(ask: &Ask<'_>, run: &Run, demands: &[Demand]) -> Self {
        let f = &run.forecast;
        let stop_h = run.mix.stop_h;
        let at = |ys: &[f64]| f.value(ys, stop_h);
        let chilled = f.textures(stop_h).map(|(_, chilled)| chilled);
        let eaten = demands.iter().any(
            |d| matches!(d, Demand::Want(Want::Within(q, _)) if matches!(q, Quantity::Cost | Quantity::Fat)),
        );
        let table = eaten.then(|| nutrition(&run.facts.content, &run.mix, f, ask.design.pots.serving_g));
        let deadline = hygiene::deadline(run);
        let value = |q: Quantity| match q {
            Quantity::Texture => Some(at(&f.chilled.viscosity50)),
            Quantity::Tang => Some(at(&f.undissociated)),
            Quantity::Ph => Some(at(&f.ph)),
            Quantity::Sugar => Some(f.sugars_at(stop_h).map(|g| g * f.density).iter().sum()),
            Quantity::Ready => Some(stop_h),
            Quantity::Cost => table.as_ref().filter(|t| t.cost.whole()).map(|t| t.cost.per_kg),
            Quantity::Fat => table.as_ref().map(|t| t.after.fat),
            Quantity::Whey => chilled.map(|c| c.whey.standing),
            Quantity::ThinLayer => chilled.map(|c| c.thin_layer),
        };
        Self {
            values: Quantity::ALL.map(value),
            cut: chilled.is_some_and(|c| c.cut),
            stiffness_pa: at(&f.chilled.stiffness_pa),
            release_ph: release_ph_of(ask, run),
            late: deadline.filter(|(by_h, _)| *by_h <= stop_h).map(|(by_h, line)| Late {
                by_h,
                ph: curve(&f.t, &f.ph, by_h),
                line,
                after_h: f.time_to_ph(line),
            }),
        }
    }

    fn value(&self, q: Quantity) -> Option<f64> {
        self.values[q as usize]
    }
}

/// Difference of two values of a quantity in steps that a person notices; more than nothing where `to` is the larger.
#[must_use]
pub fn steps(q: Quantity, from: f64, to: f64) -> f64 {
    let outcome = match q {
        Quantity::Texture => Outcome::Texture,
        Quantity::Tang => Outcome::Tang,
        Quantity::Ph => Outcome::Ph,
        Quantity::Sugar => Outcome::SugarLeft,
        Quantity::Ready => Outcome::ReadyFrom,
        Quantity::Cost => Outcome::Cost,
        Quantity::Whey => Outcome::Whey,
        Quantity::ThinLayer => Outcome::ThinLayer,
        Quantity::Fat => return (to - from) / FAT_STEP,
    };
    outcome.steps(outcome.scaled(to) - outcome.scaled(from))
}

/// How far a run is inside each bound of the demands, in steps that a person notices: 0 or more, it holds. As many and in
/// the same order for every run of the same demands; a range has one for each of its ends.
#[must_use]
pub fn margins(ask: &Ask<'_>, run: &Run, demands: &[Demand]) -> Vec<f64> {
    let seen = Seen::of(ask, run, demands);
    demands.iter().flat_map(|d| sides(d, &seen, &run.mix.laws)).collect()
}

/// The least of all.
#[must_use]
pub fn least(margins: &[f64]) -> f64 {
    margins.iter().copied().fold(f64::INFINITY, f64::min)
}

/// How many margins the demands have.
#[must_use]
pub fn count(demands: &[Demand]) -> usize {
    demands.iter().map(sides_of).sum()
}

/// Places of the margins of one demand among all.
#[must_use]
pub fn places(demands: &[Demand], of: usize) -> std::ops::Range<usize> {
    let first = count(&demands[..of]);
    first..first + demands.get(of).map_or(0, sides_of)
}

fn sides_of(demand: &Demand) -> usize {
    match demand {
        Demand::Done | Demand::DoneAsNow(_) | Demand::InTime => 1,
        Demand::Want(Want::Texture(..) | Want::Tang(..)) | Demand::TextureAsNow(_) => 2,
        Demand::Want(Want::Within(_, b)) => usize::from(b.low.is_some()) + usize::from(b.high.is_some()),
        Demand::Want(Want::Vegan | Want::GlutenFree | Want::NoCooking | Want::Only(_)) => 0,
    }
}

/// What a demand lets a number be; nothing for rules and for being in time.
fn span(demand: &Demand, seen: &Seen, words: &WordLaw) -> Option<(Quantity, Option<f64>, Option<f64>)> {
    match demand {
        Demand::Done => Some((Quantity::Ph, None, Some(seen.release_ph))),
        Demand::DoneAsNow(now) => Some((Quantity::Ph, None, Some(seen.release_ph.min(*now)))),
        Demand::InTime => None,
        Demand::TextureAsNow(word) => Want::Texture(*word, *word).span(words),
        Demand::Want(want) => want.span(words),
    }
}

fn sides(demand: &Demand, seen: &Seen, laws: &Laws) -> Vec<f64> {
    let mut sides = match (demand, texture_words(demand), span(demand, seen, &laws.words)) {
        (_, Some((low, high)), _) => texture(seen, low, high, &laws.words).to_vec(),
        (_, _, Some((q, low, high))) => {
            let value = seen.value(q).unwrap_or(f64::NAN);
            // What no pot is under is never missed.
            let above = low.map(|low| if low > 0.0 { steps(q, low, value) } else { MOST });
            above.into_iter().chain(high.map(|high| steps(q, value, high))).collect()
        }
        (Demand::InTime, ..) => vec![seen.late.map_or(MOST, |late| steps(Quantity::Ph, late.ph, late.line))],
        _ => Vec::new(),
    };
    for side in &mut sides {
        *side = if side.is_nan() { UNKNOWN } else { side.clamp(UNKNOWN, MOST) };
    }
    sides
}

/// Inside of its low and of its high word. A pot that is cut is thicker than every other word.
fn texture(seen: &Seen, low: TextureWord, high: TextureWord, law: &WordLaw) -> [f64; 2] {
    let (begins, ends) = texture_bounds(low, high, law);
    let viscosity = seen.value(Quantity::Texture).unwrap_or(f64::NAN);
    // How far it is past being cut. What is stiff enough and still not cut lacks something else: half a step stands for that.
    let stiff = Outcome::Stiffness;
    let past = stiff.steps(stiff.scaled(seen.stiffness_pa) - stiff.scaled(law.cuts_above_pa));
    let cuts = if seen.cut { past.max(0.0) } else { past.min(-0.5) };
    let thicker = match (low, seen.cut) {
        (TextureWord::Cuts, _) => cuts,
        (TextureWord::Pours, _) | (_, true) => MOST,
        _ => steps(Quantity::Texture, begins, viscosity),
    };
    let thinner = match (high, seen.cut) {
        (TextureWord::Cuts, _) => MOST,
        (_, true) => -cuts.max(0.5),
        (_, false) => ends.map_or(MOST, |ends| steps(Quantity::Texture, viscosity, ends)),
    };
    [thicker, thinner]
}

/// What the chilled texture of a run is called at its stop line.
#[must_use]
pub fn texture_word(run: &Run) -> Option<TextureWord> {
    let (f, stop_h) = (&run.forecast, run.mix.stop_h);
    let (_, chilled) = f.textures(stop_h)?;
    Some(touch::word(f.value(&f.chilled.viscosity50, stop_h), chilled.cut, &run.mix.laws.words))
}

/// Whether a step is cooking.
#[must_use]
pub fn cooks(step: &Step) -> bool {
    match step {
        Step::HeatTreat { .. } | Step::CookPart { .. } => true,
        Step::Warm { to_c, .. } => *to_c > COOKING_C,
        _ => false,
    }
}
