//! How a run stands to what is wanted: how far it is inside each bound, in steps that a person would notice.

mod told;

pub use told::{GoalResult, Is, Why, standings};

use super::want::{Bounds, Want};
use potset_base::words::TextureWord;
use potset_doubt::kept::{Chance, Draw, Pots};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::hygiene;
use potset_judge::nutrition::nutrition;
use potset_judge::outcomes::Outcomes;
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
    AsNow(Want),
}

impl Demand {
    const fn want(&self) -> Option<&Want> {
        match self {
            Self::Want(want) | Self::AsNow(want) => Some(want),
            Self::Done | Self::DoneAsNow(_) | Self::InTime => None,
        }
    }
}

/// The demands that are counted in the possible pots.
fn counted(demands: &[Demand]) -> &[Demand] {
    match demands {
        [all @ .., Demand::AsNow(_)] => all,
        all => all,
    }
}

/// The span of texture words that a demand asks for.
const fn texture_words(demand: &Demand) -> Option<(TextureWord, TextureWord)> {
    match demand.want() {
        Some(Want::Called(Observable::Texture, low, high)) => {
            Some((TextureWord::ALL[*low], TextureWord::ALL[*high]))
        }
        _ => None,
    }
}

/// Margin of what is not known, steps; of a pot without a forecast too.
pub const UNKNOWN: f64 = -200.0;
/// Margins are not counted beyond this, steps: farther inside is no better.
const MOST: f64 = 10.0;
/// What of a run is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Observed {
    outcomes: Outcomes,
    stop_h: f64,
    release_ph: f64,
    late: Option<Late>,
}

/// Whether it was sour by the time of throwing away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Late {
    pub by_h: f64,
    /// pH at that time, and the line that it must be under by then.
    pub ph: f64,
    pub line: f64,
    /// When it goes under the line.
    pub after_h: Option<f64>,
}

impl Observed {
    fn of(scenario: &Scenario<'_>, run: &Run, demands: &[Demand]) -> Self {
        let (f, stop_h) = (&run.forecast, run.mix.stop_h);
        // No goals: when it is ready is said by the stop line, at which all that is wanted is judged.
        let mut outcomes = Outcomes::of_curves(run, &[]);
        let eaten = |d: &Demand| matches!(d, Demand::Want(Want::Within(o, _)) if o.on_paper().is_some());
        if demands.iter().any(eaten) {
            outcomes.eaten(&nutrition(&run.facts.content, &run.mix, f, scenario.design.pots.serving_g));
        }
        Self {
            outcomes,
            stop_h,
            release_ph: release_ph_of(scenario, run),
            late: hygiene::deadline(run).filter(|(by_h, _)| *by_h <= stop_h).map(|(by_h, line)| Late {
                by_h,
                ph: curve(&f.t, &f.ph, by_h),
                line,
                after_h: f.time_to_ph(line),
            }),
        }
    }

    fn value(&self, outcome: Observable) -> Option<f64> {
        if outcome == Observable::ReadyFrom { Some(self.stop_h) } else { self.outcomes.get(outcome) }
    }
}

/// How far a run is inside each bound of the demands, in steps that a person notices: 0 or more, it holds. As many and in
/// the same order for every run of the same demands; a range has one for each of its ends.
pub fn margins(scenario: &Scenario<'_>, run: &Run, demands: &[Demand]) -> Vec<f64> {
    let seen = Observed::of(scenario, run, demands);
    demands.iter().flat_map(|d| sides(d, &seen, &run.mix.laws)).collect()
}

/// How many possible pots keep what is counted of the demands.
pub fn chance(scenario: &Scenario<'_>, demands: &[Demand], pots: Pots, draw: Draw) -> Chance {
    let demands = counted(demands);
    let places: Vec<_> = (0..demands.len()).map(|d| places(demands, d)).collect();
    Chance::of(&pots(scenario, draw, &|scenario, run| margins(scenario, run, demands)), &places)
}

/// The least of all.
pub fn least(margins: &[f64]) -> f64 {
    margins.iter().copied().fold(f64::INFINITY, f64::min)
}

/// How many margins the demands have.
pub fn count(demands: &[Demand]) -> usize {
    demands.iter().map(sides_of).sum()
}

/// Places of the margins of one demand among all.
pub fn places(demands: &[Demand], of: usize) -> std::ops::Range<usize> {
    let first = count(&demands[..of]);
    first..first + demands.get(of).map_or(0, sides_of)
}

fn sides_of(demand: &Demand) -> usize {
    match demand.want() {
        None => 1,
        Some(Want::Called(..)) => 2,
        Some(Want::Within(_, b)) => usize::from(b.low.is_some()) + usize::from(b.high.is_some()),
        Some(Want::Vegan | Want::GlutenFree | Want::NoCooking | Want::Only(_)) => 0,
    }
}

/// What a demand lets an outcome be; nothing for rules and for being in time.
fn span(demand: &Demand, seen: &Observed, words: &WordLaw) -> Option<(Observable, Bounds)> {
    let sour = |high: f64| Want::at_most(Observable::Ph, high).span(words);
    match demand {
        Demand::Done => sour(seen.release_ph),
        Demand::DoneAsNow(now) => sour(seen.release_ph.min(*now)),
        _ => demand.want()?.span(words),
    }
}

fn sides(demand: &Demand, seen: &Observed, laws: &Laws) -> Vec<f64> {
    let mut sides = match (demand, texture_words(demand), span(demand, seen, &laws.words)) {
        (_, Some((low, high)), _) => texture(seen, low, high, &laws.words).to_vec(),
        (_, _, Some((o, Bounds { low, high }))) => {
            let value = seen.value(o).unwrap_or(f64::NAN);
            // What no pot is under is never missed.
            let above = low.map(|low| if low > 0.0 { o.steps_between(low, value) } else { MOST });
            above.into_iter().chain(high.map(|high| o.steps_between(value, high))).collect()
        }
        (Demand::InTime, ..) => {
            vec![seen.late.map_or(MOST, |late| Observable::Ph.steps_between(late.ph, late.line))]
        }
        _ => Vec::new(),
    };
    for side in &mut sides {
        *side = if side.is_nan() { UNKNOWN } else { side.clamp(UNKNOWN, MOST) };
    }
    sides
}

/// Inside of its low and of its high word. A pot that is cut is thicker than every other word.
fn texture(seen: &Observed, low: TextureWord, high: TextureWord, law: &WordLaw) -> [f64; 2] {
    let (begins, ends) = texture_bounds(low, high, law);
    let read = |outcome: Observable| seen.value(outcome).unwrap_or(f64::NAN);
    let (viscosity, stiffness, cut) =
        (read(Observable::Texture), read(Observable::Stiffness), seen.outcomes.cuts());
    // How far it is past being cut. What is stiff enough and still not cut lacks something else: half a step stands for that.
    let past = Observable::Stiffness.steps_between(law.cuts_above_pa, stiffness);
    let cuts = if cut { past.max(0.0) } else { past.min(-0.5) };
    let thicker = match (low, cut) {
        (TextureWord::Cuts, _) => cuts,
        (TextureWord::Pours, _) | (_, true) => MOST,
        _ => Observable::Texture.steps_between(begins, viscosity),
    };
    let thinner = match (high, cut) {
        (TextureWord::Cuts, _) => MOST,
        (_, true) => -cuts.max(0.5),
        (_, false) => ends.map_or(MOST, |ends| Observable::Texture.steps_between(viscosity, ends)),
    };
    [thicker, thinner]
}

/// What the chilled texture of a run is called at its stop line.
pub fn texture_word(run: &Run) -> Option<TextureWord> {
    let (f, stop_h) = (&run.forecast, run.mix.stop_h);
    let (_, chilled) = f.textures(stop_h)?;
    Some(touch::word(f.value(&f.chilled.viscosity50, stop_h), chilled.cut, &run.mix.laws.words))
}
