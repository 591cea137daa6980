//! What a small turn of each lever does, and what putting it back to usual does.

use std::cmp::Ordering;

use super::usual::{self, Usual};
use potset_doc::{Design, Edit, edit};
use potset_forecast::lever::{self, Lever, LeverId, levers};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::hygiene::{self, Phase};
use potset_judge::outcomes::Outcomes;

/// Share of its usual span over which a lever is ranked among the others. Source: assumed.
const RANKED: f64 = 0.1;

/// A lever that over that share of its span moves nothing by so many noticeable steps is only named. Source: assumed.
const LEAST: f64 = 0.05;

/// A lever that moves nothing by so many noticeable steps all the way back to usual is not told so. Source: derived, the step
/// that a person notices.
const LEAST_BACK: f64 = 1.0;

/// How a lever is turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// By a step that is handy.
    Little,
    /// To what is usual, all else as it is.
    BackToUsual,
    /// To what is usual, as the last of all that stand off it: where several do, one alone may change little.
    BackWithTheRest,
}

/// One lever, turned.
#[derive(Clone, Debug, PartialEq)]
pub struct LeverEffect {
    pub lever: Lever,
    pub way: Way,
    /// By how much, in the lever's unit.
    pub by: f64,
    /// How many such steps it is ranked by: those that make a like share of every lever's usual span; one back to usual.
    pub ranked_over: f64,
    /// What that does to each watched outcome.
    pub effects: Vec<(Observable, Effect)>,
    /// Each of them in steps that a person would notice, by what leads.
    felt: Vec<f64>,
    /// What it betters of the verdict.
    pub verdict: Option<Better>,
}

/// What a turn does to an outcome.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Effect {
    /// A difference, on the scale on which differences add up.
    By(f64),
    /// The pot comes there only with the turn.
    OnlyThen,
    /// With the turn it does not come there any more.
    NoLonger,
}

/// How a pot stands at its stop, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum StopState {
    /// So slow that the caution says to throw it away.
    TooSlow,
    NeverSour,
    /// It comes to pH 4.6 after the stop.
    StoppedTooEarly,
    Sour,
}

impl StopState {
    fn of(run: &Run) -> Self {
        let (f, mix) = (&run.forecast, &run.mix);
        let slow = hygiene::judge(run).discard().is_some_and(|found| found.row.phase() == Phase::Hold);
        let line = mix.laws.ready.acid_line_ph;
        match f.time_to_ph(line) {
            _ if slow => Self::TooSlow,
            None => Self::NeverSour,
            Some(h) if h > mix.stop_h => Self::StoppedTooEarly,
            Some(_) => Self::Sour,
        }
    }
}

/// What a turn betters of the verdict, the most first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Better {
    /// Sour by the stop, where it was not.
    ThenSour,
    /// No longer so slow that the caution says to throw it away.
    SoonEnough,
    /// It comes to pH 4.6, if after the stop.
    SoursAtLast,
}

impl Better {
    fn of(before: StopState, after: StopState) -> Option<Self> {
        match (before, after) {
            (a, b) if b <= a => None,
            (_, StopState::Sour) => Some(Self::ThenSour),
            (StopState::TooSlow, _) => Some(Self::SoonEnough),
            _ => Some(Self::SoursAtLast),
        }
    }
}

/// A pot that comes there only one way counts as so many noticeable steps. Source: assumed.
const ONE_WAY: f64 = 10.0;

impl LeverEffect {
    /// Effect of the turn in steps that a person would notice.
    pub fn steps(&self, i: usize) -> f64 {
        self.felt.get(i).copied().unwrap_or_default()
    }

    /// The strongest of its effects in steps that a person would notice: of a small turn over a like share of every lever's
    /// usual span, the told effect in proportion; of one back to usual as it is.
    pub fn strength(&self) -> f64 {
        let over = |i: usize| match self.effects.get(i) {
            // What comes there only one way is no more so for a larger turn.
            Some((_, Effect::OnlyThen | Effect::NoLonger)) => self.steps(i),
            _ => self.steps(i) * self.ranked_over,
        };
        (0..self.effects.len()).map(over).fold(0.0, f64::max)
    }

    /// In which order they are told: what betters the verdict, then the strongest.
    fn order(a: &Self, b: &Self) -> Ordering {
        let first = |t: &Self| t.verdict.map_or((1, None), |better| (0, Some(better)));
        let strength = b.strength().total_cmp(&a.strength());
        first(a).cmp(&first(b)).then(strength).then_with(|| a.lever.name.cmp(&b.lever.name))
    }
}

/// How far a lever is turned: what a maker would try first. Source: assumed; of doses about a tenth of the usual span, in
/// round figures.
fn handy(lever: &Lever) -> f64 {
    let natural: f64 = match lever.lever_id {
        LeverId::BaseShare(_) | LeverId::HeatFor | LeverId::StrainOff => 5.0,
        LeverId::CultureAge(_) => 30.0,
        LeverId::CultureRate(_) => 0.5,
        LeverId::BaseLitres(_)
        | LeverId::SugarDose(_)
        | LeverId::ThickenerDose(_)
        | LeverId::AdditiveDose(_) => {
            let (from, to) = lever.usual.unwrap_or(lever.range);
            let tenth = ((to - from) * 0.1).max(lever.step);
            let decade = 10.0_f64.powf(tenth.log10().floor());
            [1.0, 2.0, 5.0, 10.0]
                .into_iter()
                .map(|k| k * decade)
                .find(|v| *v >= 0.99 * tenth)
                .unwrap_or(tenth)
        }
        // Degrees, hours, grams of fat.
        _ => 1.0,
    };
    natural.max(lever.step)
}

/// How many handy steps make the share of its usual span over which a lever is ranked. What has no usual span is ranked by
/// its handy step (assumed).
fn ranked_over(lever: &Lever) -> f64 {
    lever.usual.filter(|(from, to)| from < to).map_or(1.0, |(from, to)| RANKED * (to - from) / handy(lever))
}

/// A pot as far as turns look at it.
#[derive(Clone, Copy)]
struct Observed {
    outcomes: Outcomes,
    standing: StopState,
}

impl Observed {
    fn of(scenario: &Scenario<'_>, run: &Run) -> Self {
        Self { outcomes: Outcomes::of(scenario, run), standing: StopState::of(run) }
    }
}

/// The design that is asked about, as its turns are held against it.
struct AsItIs<'a> {
    scenario: &'a Scenario<'a>,
    watched: &'a [Observable],
    far_h: f64,
    seen: Observed,
}

impl AsItIs<'_> {
    /// Another design in its place; nothing where that is no pot.
    fn look(&self, design: &Design) -> Option<Observed> {
        let there = Scenario { design, ..*self.scenario };
        there.run_coarse(self.far_h).ok().map(|run| Observed::of(&there, &run))
    }

    /// A design with a lever turned to a value; nothing where it cannot go so far, or where that is no pot.
    fn turned(&self, design: &Design, lever: &Lever, to: f64) -> Option<Observed> {
        if to < lever.range.0 || to > lever.range.1 {
            return None;
        }
        self.look(&edit::apply(design, &lever.lever_id.edit(design, to), self.scenario.pantry).ok()?)
    }

    /// What lies between two pots, as a turn of a lever by so much.
    fn turn(&self, lever: &Lever, (way, by): (Way, f64), before: &Observed, after: &Observed) -> LeverEffect {
        let (a, b) = (&before.outcomes, &after.outcomes);
        let effect = |outcome: &Observable| {
            let difference = match (a.get(*outcome), b.get(*outcome)) {
                (Some(a), Some(b)) => Effect::By(outcome.scaled(b) - outcome.scaled(a)),
                (None, None) => Effect::By(0.0),
                (None, Some(_)) => Effect::OnlyThen,
                (Some(_), None) => Effect::NoLonger,
            };
            (*outcome, difference)
        };
        let felt = |outcome: &Observable| match a.steps_to(b, *outcome) {
            steps if steps.is_finite() => steps,
            _ => ONE_WAY,
        };
        LeverEffect {
            way,
            by,
            ranked_over: if way == Way::Little { ranked_over(lever) } else { 1.0 },
            effects: self.watched.iter().map(effect).collect(),
            felt: self.watched.iter().map(felt).collect(),
            verdict: Better::of(before.standing, after.standing),
            lever: lever.clone(),
        }
    }

    /// A small turn; the other way where it cannot go farther, or where that is no pot.
    fn little(&self, lever: &Lever) -> Option<LeverEffect> {
        let step = handy(lever);
        let found = [step, -step]
            .into_iter()
            .find_map(|by| Some((by, self.turned(self.scenario.design, lever, lever.value + by)?)));
        found.map(|(by, after)| self.turn(lever, (Way::Little, by), &self.seen, &after))
    }

    /// Back to usual, where that is noticed: alone, or as the last of all that are off.
    fn back(&self, lever: &Lever, usual: Usual, all: Option<&(Design, Observed)>) -> Option<LeverEffect> {
        let by = usual.to - lever.value;
        let alone = self
            .turned(self.scenario.design, lever, usual.to)
            .map(|after| self.turn(lever, (Way::BackToUsual, by), &self.seen, &after));
        let last = all.filter(|_| !usual.inside).and_then(|(design, after)| {
            let before = self.turned(design, lever, lever.value)?;
            Some(self.turn(lever, (Way::BackWithTheRest, by), &before, after))
        });
        // What stands inside of its usual span is no fault, unless it makes the verdict.
        let told = |t: &LeverEffect| t.verdict.is_some() || !usual.inside && t.strength() >= LEAST_BACK;
        alone.into_iter().chain(last).filter(told).min_by(LeverEffect::order)
    }

    /// The design with all that is off put back to usual; nothing where that is one lever or none.
    fn all_back(&self, all: &[(Lever, Usual)]) -> Option<(Design, Observed)> {
        let off: Vec<(LeverId, f64)> = all
            .iter()
            .filter(|(_, usual)| !usual.inside)
            .map(|(lever, usual)| (lever.lever_id, usual.to))
            .collect();
        if off.len() < 2 {
            return None;
        }
        let edits = lever::turned(self.scenario, &off).ok()?;
        let design =
            edit::apply(self.scenario.design, &Edit::Together(String::new(), edits), self.scenario.pantry)
                .ok()?;
        let seen = self.look(&design)?;
        Some((design, seen))
    }
}

/// Turns every lever: those that do something, first what betters the verdict and then the strongest, and the names of those
/// of which nobody notices anything.
pub fn turns(scenario: &Scenario<'_>, watched: &[Observable]) -> (Vec<LeverEffect>, Vec<String>) {
    let Ok(likely) = scenario.run_coarse(0.0) else { return Default::default() };
    let of = AsItIs { scenario, watched, far_h: likely.mix.horizon_h, seen: Observed::of(scenario, &likely) };
    let levers = levers(scenario.design, scenario.pantry);
    let off: Vec<(Lever, Usual)> = levers.iter().filter_map(|l| Some((l.clone(), usual::of(l)?))).collect();
    let all_back = of.all_back(&off);
    let (mut all, mut unnoticed) = (Vec::new(), Vec::new());
    for lever in levers {
        let usual = off.iter().find(|(l, _)| l.lever_id == lever.lever_id).map(|(_, usual)| *usual);
        let back = usual.and_then(|usual| of.back(&lever, usual, all_back.as_ref()));
        match of.little(&lever) {
            Some(turn) if turn.strength() >= LEAST || turn.verdict.is_some() => all.push(turn),
            Some(_) if back.is_none() => unnoticed.push(lever.name),
            _ => {}
        }
        all.extend(back);
    }
    all.sort_by(LeverEffect::order);
    (all, unnoticed)
}
