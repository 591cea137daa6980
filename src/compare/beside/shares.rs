//! Because of what two designs differ: each part's share of the difference, over at most 2^6 forecasts.

use rayon::prelude::*;

use super::clue::{Clue, Ways};
use super::orders::shared;
use super::part::{Pair, Part};
use potset_doc::Design;
use potset_forecast::compile;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::outcomes::Outcomes;

/// Most parts among which a difference is shared out: 2^6 forecasts.
pub const MOST_PLAYERS: usize = 6;

/// Forecasts between two questions whether to go on.
const CHUNK: usize = 16;

/// Parts that share a difference out; where many differ, the last holds several.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Player {
    pub parts: Vec<Part>,
    /// Parts that do nothing to either pot. They change hands with this one, so that all mixes lie between the two
    /// designs, and are not named.
    idle: Vec<Part>,
}

/// What each part has to do with one outcome: shares that add up to the whole difference.
#[derive(Clone, Debug, PartialEq)]
pub struct Because {
    pub outcome: Observable,
    /// Shares in the order of the players, on the scale of the outcome.
    pub shares: Vec<f64>,
    /// Mixes of the two that never get there; they are left out. Both designs do get there.
    pub left_out: usize,
    /// All mixes of the two, and themselves.
    pub mixes: usize,
}

impl Because {
    /// The whole difference, on the scale of the outcome.
    pub fn whole(&self) -> f64 {
        self.shares.iter().sum()
    }
}

/// What the difference between two designs comes from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Causes {
    pub players: Vec<Player>,
    /// Outcomes that both come to.
    pub because: Vec<Because>,
    /// What each player changes of the pot.
    pub clues: Vec<Clue>,
    /// Times that only one of both comes to, each with the players that make or end that alone.
    pub ends: Vec<(Observable, Vec<usize>)>,
}

/// Shares the difference between the design of `ask` and `other` out over the parts in which they differ.
///
/// `go_on` is asked now and then; nothing comes back if it says no.
pub fn causes(scenario: &Scenario<'_>, other: &Design, go_on: &mut dyn FnMut() -> bool) -> Option<Causes> {
    let pair = Pair::new(scenario.design, other);
    // All look equally far ahead: what comes late in one must not count as what never comes in another.
    let horizon = |design: &Design| {
        let mix = compile(design, scenario.pantry, scenario.kitchen, scenario.learnt).mix;
        mix.map_or(0.0, |mix| mix.horizon_h)
    };
    let far = horizon(&pair.a).max(horizon(&pair.b));
    let players = players(scenario, &pair, far);
    if players.is_empty() {
        return Some(Causes::default());
    }
    let sets: Vec<usize> = (0..1_usize << players.len()).collect();
    let mut mixes: Vec<Option<Mixed>> = Vec::with_capacity(sets.len());
    for chunk in sets.chunks(CHUNK) {
        if !go_on() {
            return None;
        }
        let run = |set: &usize| outcomes(scenario, &pair.mixed(&parts_of(&players, *set)), far);
        mixes.par_extend(chunk.par_iter().map(run));
    }
    let n = players.len();
    let because = Observable::ALL.into_iter().filter_map(|o| because(o, &mixes, n)).collect();
    let ends = TIMES.into_iter().filter_map(|o| Some((o, ends(o, &mixes, n)?))).collect();
    let clues = (0..n).map(|i| clue(&mixes, i)).collect();
    Some(Causes { players, because, clues, ends })
}

/// Outcomes that a pot may never come to.
const TIMES: [Observable; 2] = [Observable::SourAt, Observable::ReadyFrom];

/// What is compared of a mix, and what it goes by.
type Mixed = (Outcomes, Ways);

fn because(outcome: Observable, mixes: &[Option<Mixed>], n: usize) -> Option<Because> {
    let all: Vec<&Mixed> = mixes.iter().map(Option::as_ref).collect::<Option<_>>()?;
    let values: Vec<Option<f64>> =
        all.iter().map(|(outcomes, _)| outcomes.get(outcome).map(|v| outcome.scaled(v))).collect();
    let left_out = values.iter().filter(|v| v.is_none()).count();
    // What else is not there is not known, rather than never reached.
    if left_out > 0 && !TIMES.contains(&outcome) {
        return None;
    }
    Some(Because { outcome, shares: shared(&values, n)?, left_out, mixes: values.len() })
}

/// The players that alone make the first design come there, or keep it from that; nothing where both come there, or neither.
fn ends(outcome: Observable, mixes: &[Option<Mixed>], n: usize) -> Option<Vec<usize>> {
    let there = |set: usize| Some(mixes.get(set)?.as_ref()?.0.get(outcome).is_some());
    let first = there(0)?;
    (first != there(mixes.len() - 1)?)
        .then(|| (0..n).filter(|i| there(1 << i).is_some_and(|now| now != first)).collect())
}

/// What a player changes: from the first design, and back from the second.
fn clue(mixes: &[Option<Mixed>], i: usize) -> Clue {
    let ways = |set: usize| mixes.get(set)?.as_ref().map(|m| m.1);
    let whole = mixes.len() - 1;
    let pairs = [(0, 1 << i), (whole & !(1 << i), whole)];
    let found: Vec<(Ways, Ways)> =
        pairs.into_iter().filter_map(|(from, to)| Some((ways(from)?, ways(to)?))).collect();
    Clue::of(&found)
}

fn outcomes(scenario: &Scenario<'_>, design: &Design, far: f64) -> Option<Mixed> {
    let asked = Scenario { design, ..*scenario };
    asked.run_to(far).ok().map(|run| (Outcomes::of(&asked, &run), Ways::of(&asked, &run)))
}

/// Parts of the second design in a mix of both.
fn parts_of(players: &[Player], set: usize) -> Vec<Part> {
    let of_b = players.iter().enumerate().filter(|(i, _)| set >> i & 1 == 1);
    of_b.flat_map(|(_, p)| p.parts.iter().chain(&p.idle)).copied().collect()
}

/// The parts that do something, at most [`MOST_PLAYERS`]: where more do, those that do least alone are taken together.
fn players(scenario: &Scenario<'_>, pair: &Pair, far: f64) -> Vec<Player> {
    let differ = pair.differ();
    let mixed = |parts: &[Part]| {
        let design = pair.mixed(parts);
        let mut mix = compile(&design, scenario.pantry, scenario.kitchen, scenario.learnt).mix;
        if let Some(mix) = &mut mix {
            mix.horizon_h = far;
        }
        (mix, design.goals)
    };
    let (none, all) = (mixed(&[]), mixed(&differ));
    let idles = |part: &Part| {
        let rest: Vec<Part> = differ.iter().copied().filter(|p| p != part).collect();
        mixed(&[*part]) == none && mixed(&rest) == all
    };
    // Money and food values come of what goes in, not of the mix: lines always count.
    let lines = [Part::Base, Part::Sugar, Part::Thickener, Part::Culture, Part::Additives];
    let (idle, active): (Vec<Part>, Vec<Part>) =
        differ.iter().copied().partition(|part| !lines.contains(part) && idles(part));
    let mut ranked: Vec<(Part, f64)> =
        if active.len() > MOST_PLAYERS { ranked(scenario, pair, &active, far) } else { Vec::new() };
    ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
    let together: Vec<Part> = ranked.iter().skip(MOST_PLAYERS - 1).map(|(part, _)| *part).collect();
    let mut out: Vec<Player> = active
        .iter()
        .filter(|part| !together.contains(part))
        .map(|part| Player { parts: vec![*part], idle: Vec::new() })
        .collect();
    if !together.is_empty() {
        let parts = active.into_iter().filter(|part| together.contains(part)).collect();
        out.push(Player { parts, idle: Vec::new() });
    }
    if let Some(first) = out.first_mut() {
        first.idle = idle;
    }
    out
}

/// How many noticeable steps each part makes at most, alone: from the first design and back from the second, so that the
/// order of the two does not matter.
fn ranked(scenario: &Scenario<'_>, pair: &Pair, parts: &[Part], far: f64) -> Vec<(Part, f64)> {
    let differ = pair.differ();
    let of = |parts: &[Part]| outcomes(scenario, &pair.mixed(parts), far);
    let (none, all) = (of(&[]), of(&differ));
    let moved = |a: &Option<Mixed>, b: &Option<Mixed>| {
        let (Some((a, _)), Some((b, _))) = (a, b) else { return f64::INFINITY };
        Observable::ALL.into_iter().map(|o| a.steps_to(b, o)).fold(0.0, f64::max)
    };
    parts
        .par_iter()
        .map(|part| {
            let rest: Vec<Part> = differ.iter().copied().filter(|p| p != part).collect();
            let there = moved(&none, &of(&[*part]));
            let back = moved(&of(&rest), &all);
            (*part, there.max(back))
        })
        .collect()
}
