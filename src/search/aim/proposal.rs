//! A proposal: a setting that reaches what is wanted, by the precise forecast, with what it changes and what it costs.

use super::change::Change;
use super::discard::{self, Discard};
use super::gives::Gives;
use super::make::Said;
use super::problem::SearchProblem;
use super::stand::{self, Demand, GoalResult};
use super::turn::SearchLever;
use super::turned::LeverChange;
use potset_base::words::TextureWord;
use potset_doc::edit::LineKind;
use potset_doc::{Design, Edit, edit};
use potset_doubt::kept::{Chance, Draw, Pots};
use potset_forecast::lever::LeverId;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};

/// Share of a lever's width that makes two settings of it clearly different. Source: assumed.
const CLEARLY: f64 = 0.2;
/// Share of pots that are stopped too mild above which that is said. Source: assumed.
const TOO_MILD: f64 = 0.1;
/// A setting that can be taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// One step of undo.
    pub edits: Vec<Edit>,
    /// What is swapped and mended.
    pub said: Vec<Said>,
    pub turned: Vec<LeverChange>,
    /// By the precise forecast, as is what follows.
    pub gives: Gives,
    pub standings: Vec<GoalResult>,
    /// The stop line, h.
    pub stop_h: f64,
    /// Among the possible pots, or of the likely one alone.
    pub chance: Chance,
    /// What it is best at among those found.
    pub best_at: Vec<Best>,
    pub watch: Watch,
    /// The design with it taken.
    pub design: Design,
    /// How much of the design it changes.
    pub change: Change,
    /// Levers with what they are set to, turned or not.
    pub settings: Vec<(SearchLever, f64)>,
    pub(super) combo: Vec<usize>,
}

/// What a proposal is best at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Best {
    Surest,
    ChangesLeast,
    ShortestHold,
    Cheapest,
}

/// What is new in a proposal and worth a look.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watch {
    /// Allergens that are new to the pot.
    pub allergens: Vec<String>,
    /// Pots that are stopped before they are sour enough to be called done, where those are more than a few.
    pub too_mild: Option<potset_base::chance::Chance>,
    /// What the texture is called now and then, where that is another word and nothing was wanted of it.
    pub texture: Option<(TextureWord, TextureWord)>,
}

impl Proposal {
    /// Whether every demand holds.
    pub fn holds(&self) -> bool {
        self.standings.iter().all(GoalResult::holds)
    }

    /// How many things are otherwise.
    pub fn changes(&self) -> usize {
        self.said.len() + self.turned.len()
    }

    /// Whether two are clearly different: in what goes in, or in how a lever is set.
    pub fn differs(&self, other: &Self) -> bool {
        self.combo != other.combo
            || self.settings.iter().any(|(t, v)| {
                let far = |(o, w): &(SearchLever, f64)| {
                    o.lever.lever_id == t.lever.lever_id && (o.place(*w) - t.place(*v)).abs() >= CLEARLY
                };
                other.settings.iter().any(far)
            })
    }

    /// Levers that stand at an end of their bounds, with what they are set to.
    pub fn ends(&self) -> impl Iterator<Item = &(SearchLever, f64)> {
        let at_end = |t: &SearchLever, v: f64| v - t.low < 0.5 * t.grid || t.high - v < 0.5 * t.grid;
        self.settings.iter().filter(move |(t, v)| at_end(t, *v))
    }

    /// Whether it only changes more of the same than one that is shown: as good as that, and stopped no sooner.
    fn idle_beside(&self, other: &Self) -> bool {
        self.combo == other.combo
            && !self.chance.clearly_above(&other.chance)
            && !self.change.total_cmp(&other.change).is_lt()
            && self.stop_h >= other.stop_h - 1e-9
    }
}

/// How a proposal is worked out.
#[derive(Clone, Copy)]
pub struct Count {
    pub pots: Pots,
    pub draw: Draw,
    /// What the design's own texture is called, where nothing is wanted of it: another word is a change then.
    pub texture: Option<TextureWord>,
}

/// Makes a setting a proposal: by the precise forecast, one step along a lever where that is needed, and with its chance.
///
/// # Errors
/// Why it would have to be thrown away; nothing where a demand does not hold by the precise forecast.
pub fn propose(
    problem: &SearchProblem<'_>,
    combo: &[usize],
    values: &[f64],
    count: Count,
) -> Result<Proposal, Option<Discard>> {
    let values = problem.mended(values).ok_or(None)?;
    let proposal = read(problem, combo, &values, count).ok_or(None)?;
    let scenario = Scenario { design: &proposal.design, ..*problem.scenario };
    let run = scenario.run().map_err(|_| None)?;
    let often = || discard::of_possible(problem.demands, &proposal.chance).map(Discard::Possible);
    match discard::of_likely(&scenario, &run).map(Discard::Likely).or_else(often) {
        None if proposal.holds() => Ok(proposal),
        why => Err(why),
    }
}

/// Thickeners that were put in, of which nothing is left at a setting: the last first.
fn put_in_for_nothing(problem: &SearchProblem<'_>, values: &[f64]) -> Vec<(usize, String)> {
    let none = problem.made.turns.iter().zip(values).filter_map(|(turn, v)| match turn.lever.lever_id {
        LeverId::ThickenerDose(i) if turn.was.is_none() && *v < 1e-9 => Some((i, turn.lever.name.clone())),
        _ => None,
    });
    let added = |name: &String| problem.made.said.contains(&Said::Added(name.clone()));
    let mut all: Vec<_> = none.filter(|(_, name)| added(name)).collect();
    all.sort_by_key(|(i, _)| std::cmp::Reverse(*i));
    all
}

/// Reads all that is told of a setting, whether it holds or not.
pub fn read(problem: &SearchProblem<'_>, combo: &[usize], values: &[f64], count: Count) -> Option<Proposal> {
    let made = problem.made;
    let mut edits = problem.edits(values)?;
    let (mut said, gone) = (made.said.clone(), put_in_for_nothing(problem, values));
    for (i, name) in &gone {
        edits.push(Edit::Remove(LineKind::Thickeners, *i));
        said.retain(|s| *s != Said::Added(name.clone()));
    }
    let whole = Edit::Together(String::new(), edits.clone());
    let design = edit::apply(problem.scenario.design, &whole, problem.scenario.pantry).ok()?;
    let scenario = Scenario { design: &design, ..*problem.scenario };
    let run = scenario.run().ok()?;
    let settings: Vec<(SearchLever, f64)> = made.turns.iter().cloned().zip(values.iter().copied()).collect();
    let turned = settings.iter().filter_map(|(turn, v)| LeverChange::of(turn, *v));
    let turned: Vec<LeverChange> = turned.filter(|t| gone.iter().all(|(_, name)| name != t.name())).collect();
    let chance = stand::chance(&scenario, problem.demands, count.pots, count.draw);
    let mut standings = stand::standings(&scenario, &run, problem.demands);
    standings.iter_mut().enumerate().for_each(|(d, s)| s.often = chance.of_one(d).filter(|_| s.holds()));
    let gives = Gives::of(&scenario, &run, problem.demands);
    let texture = count.texture.zip(gives.texture).filter(|(was, now)| was != now);
    let watch = Watch {
        allergens: new_allergens(problem.scenario, &run),
        too_mild: too_mild(problem.demands, &chance),
        texture,
    };
    let entries = (made.swaps + made.mends).saturating_sub(gone.len()) + usize::from(texture.is_some());
    let change = Change::of(entries, made.turns.iter().zip(values.iter().copied()));
    Some(Proposal {
        edits,
        said,
        turned,
        gives,
        standings,
        stop_h: run.mix.stop_h,
        chance,
        best_at: Vec::new(),
        watch,
        change,
        settings,
        combo: combo.to_vec(),
        design,
    })
}

/// Pots that are stopped before they are sour enough to be called done, where those are more than a few.
fn too_mild(demands: &[Demand], chance: &Chance) -> Option<potset_base::chance::Chance> {
    let done = demands.iter().position(|d| matches!(d, Demand::Done | Demand::DoneAsNow(_)))?;
    let missed = chance.of_one(done)?.rest();
    (missed.share() > TOO_MILD).then_some(missed)
}

/// Allergens that are new to the pot.
fn new_allergens(before: &Scenario<'_>, run: &Run) -> Vec<String> {
    let Ok(old) = before.run_coarse(0.0) else { return Vec::new() };
    let all = |run: &Run| -> Vec<String> {
        run.facts.content.ingoing.iter().flat_map(|i| i.allergens.iter().cloned()).collect()
    };
    let there = all(&old);
    let mut new: Vec<String> = all(run).into_iter().filter(|a| !there.contains(a)).collect();
    new.sort();
    new.dedup();
    new
}

/// The order in which settings are shown, as places: those that the best is not clearly surer than count as its equals, and of these
/// comes first what changes least of the design; then the same of what is left.
fn order(all: &[(&Chance, Change)]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..all.len()).collect();
    let mut out = Vec::new();
    while let Some(best) = left.iter().copied().max_by_key(|i| all[*i].0.pots.of) {
        let equal = |i: &usize| !all[best].0.clearly_above(all[*i].0);
        let (mut equals, rest): (Vec<usize>, Vec<usize>) = left.into_iter().partition(equal);
        equals.sort_by(|a, b| all[*a].1.total_cmp(&all[*b].1));
        out.append(&mut equals);
        left = rest;
    }
    out
}

/// The best of those that were worked out, at most three and clearly different; each is told what it is best at.
pub fn chosen(all: &[Proposal], most: usize) -> Vec<Proposal> {
    let mut out: Vec<Proposal> = Vec::new();
    let by: Vec<(&Chance, Change)> = all.iter().map(|p| (&p.chance, p.change)).collect();
    for proposal in order(&by).into_iter().map(|i| &all[i]) {
        if out.len() < most && out.iter().all(|other| proposal.differs(other) && !proposal.idle_beside(other))
        {
            out.push(Proposal { best_at: Vec::new(), ..proposal.clone() });
        }
    }
    // What changes least of all is worth a look, however sure the others are.
    let least = all.iter().min_by(|a, b| a.change.total_cmp(&b.change));
    let another = least.filter(|l| out.iter().all(|o| l.differs(o) && l.change.total_cmp(&o.change).is_lt()));
    if let (Some(least), true) = (another, most > 1 && out.len() == most) {
        out[most - 1] = Proposal { best_at: Vec::new(), ..least.clone() };
    }
    for (best, above) in BEST {
        // Alone it is the best at all, which says nothing.
        let of_all = |p: &Proposal| out.iter().all(|o| std::ptr::eq(o, p) || above(p, o));
        if let Some(i) = out.iter().position(of_all).filter(|_| out.len() > 1) {
            out[i].best_at.push(best);
        }
    }
    out
}

/// What makes one proposal better than another.
type Above = fn(&Proposal, &Proposal) -> bool;

/// What one can be best at, in the order in which it is told. The surest is so beyond the luck of the pots that were counted.
const BEST: [(Best, Above); 4] = [
    (Best::Surest, |p, o| p.chance.clearly_above(&o.chance)),
    (Best::ChangesLeast, |p, o| p.change.total_cmp(&o.change).is_lt()),
    (Best::ShortestHold, |p, o| p.stop_h < o.stop_h - 1e-9),
    (Best::Cheapest, |p, o| {
        let cost = |p: &Proposal| p.gives.outcomes.get(Observable::Cost);
        cost(p).is_some_and(|own| cost(o).is_none_or(|other| own < other - 1e-9))
    }),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_equals_the_least_change_comes_first_and_what_is_surer_before_them() {
        let often = |of: usize| Chance::of_kept((0..200).map(|k| k < of));
        let change = |entries, size| Change { entries, size };
        // 180 and 178 are equal; 150 is not, however little it changes.
        let (surest, equal, less) = (often(180), often(178), often(150));
        let all = [
            (&less, change(0, 0.1)),
            (&surest, change(2, 0.0)),
            (&equal, change(1, 0.5)),
            (&less, change(0, 0.0)),
        ];
        assert_eq!(order(&all), [2, 1, 3, 0]);
        // One likely pot tells nothing apart.
        let (kept, lost) = (Chance::of_kept([true]), Chance::of_kept([false]));
        assert_eq!(order(&[(&kept, change(1, 0.0)), (&lost, change(0, 0.0))]), [1, 0]);
    }
}
