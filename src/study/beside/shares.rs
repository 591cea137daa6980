//! Because of what two designs differ: each part's share of the difference, over at most 2^6 forecasts.

use rayon::prelude::*;

use super::part::{Pair, Part};
use crate::compile::compile;
use crate::doc::Design;
use crate::study::Ask;
use crate::study::outcome::{Outcome, Outcomes};

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

impl Player {
    /// In words: "thickener", "pots and additives".
    #[must_use]
    pub fn words(&self) -> String {
        match self.parts.as_slice() {
            [] => String::new(),
            [one] => one.words().to_owned(),
            [all @ .., last] => {
                let all: Vec<&str> = all.iter().map(|p| p.words()).collect();
                format!("{} and {}", all.join(", "), last.words())
            }
        }
    }
}

/// What each part has to do with one outcome: shares that add up to the whole difference.
#[derive(Clone, Debug, PartialEq)]
pub struct Because {
    pub outcome: Outcome,
    /// Shares in the order of the players, on the scale of the outcome.
    pub shares: Vec<f64>,
    /// What each part does alone, from the first design.
    pub alone: Vec<f64>,
    /// Mixes of the two that never come there are counted as if they did so at this time, h; both designs do come there.
    pub never_as_h: Option<f64>,
}

impl Because {
    /// The whole difference, on the scale of the outcome.
    #[must_use]
    pub fn whole(&self) -> f64 {
        self.shares.iter().sum()
    }
}

/// What the difference between two designs comes from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Causes {
    pub players: Vec<Player>,
    /// Outcomes that every mix of the two comes to.
    pub because: Vec<Because>,
}

/// Shares the difference between the design of `ask` and `other` out over the parts in which they differ.
///
/// `go_on` is asked now and then; nothing comes back if it says no.
pub fn causes(ask: &Ask<'_>, other: &Design, go_on: &mut dyn FnMut() -> bool) -> Option<Causes> {
    let pair = Pair::new(ask.design, other);
    // All look equally far ahead: what comes late in one must not count as what never comes in another.
    let horizon = |design: &Design| {
        let mix = compile(design, ask.pantry, ask.kitchen, ask.learnt).mix;
        mix.map_or(0.0, |mix| mix.horizon_h)
    };
    let far = horizon(&pair.a).max(horizon(&pair.b));
    let players = players(ask, &pair, far);
    if players.is_empty() {
        return Some(Causes::default());
    }
    let sets: Vec<usize> = (0..1_usize << players.len()).collect();
    let mut mixes: Vec<Option<Mixed>> = Vec::with_capacity(sets.len());
    for chunk in sets.chunks(CHUNK) {
        if !go_on() {
            return None;
        }
        let run = |set: &usize| outcomes(ask, &pair.mixed(&parts_of(&players, *set)), far);
        mixes.par_extend(chunk.par_iter().map(run));
    }
    let because = Outcome::ALL.into_iter().filter_map(|o| because(o, &mixes, players.len())).collect();
    Some(Causes { players, because })
}

/// What is compared of a mix, and how far its forecast looks, h.
type Mixed = (Outcomes, f64);

fn because(outcome: Outcome, mixes: &[Option<Mixed>], n: usize) -> Option<Because> {
    let value = |mix: &Mixed| mix.0.get(outcome).map(|v| outcome.scaled(v));
    let (first, last) = (mixes.first()?.as_ref()?, mixes.last()?.as_ref()?);
    let (a, b) = (value(first)?, value(last)?);
    let all: Option<Vec<&Mixed>> = mixes.iter().map(Option::as_ref).collect();
    let all = all?;
    let times = matches!(outcome, Outcome::SourAt | Outcome::ReadyFrom);
    let late = times.then(|| all.iter().map(|m| m.1).fold(a.max(b), f64::max));
    let values: Option<Vec<f64>> = all.iter().map(|m| value(m).or(late)).collect();
    let never_as_h = late.filter(|_| all.iter().any(|m| value(m).is_none()));
    Some(Because { never_as_h, ..shared(outcome, &values?, n) })
}

fn outcomes(ask: &Ask<'_>, design: &Design, far: f64) -> Option<Mixed> {
    let asked = Ask { design, ..*ask };
    asked.run_to(far).ok().map(|run| (Outcomes::of(&asked, &run), run.forecast.horizon_h))
}

/// Parts of the second design in a mix of both.
fn parts_of(players: &[Player], set: usize) -> Vec<Part> {
    let of_b = players.iter().enumerate().filter(|(i, _)| set >> i & 1 == 1);
    of_b.flat_map(|(_, p)| p.parts.iter().chain(&p.idle)).copied().collect()
}

/// The parts that do something, at most [`MOST_PLAYERS`]: where more do, those that do least alone are taken together.
fn players(ask: &Ask<'_>, pair: &Pair, far: f64) -> Vec<Player> {
    let differ = pair.differ();
    let mixed = |parts: &[Part]| {
        let design = pair.mixed(parts);
        let mut mix = compile(&design, ask.pantry, ask.kitchen, ask.learnt).mix;
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
        if active.len() > MOST_PLAYERS { ranked(ask, pair, &active, far) } else { Vec::new() };
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
fn ranked(ask: &Ask<'_>, pair: &Pair, parts: &[Part], far: f64) -> Vec<(Part, f64)> {
    let differ = pair.differ();
    let of = |parts: &[Part]| outcomes(ask, &pair.mixed(parts), far);
    let (none, all) = (of(&[]), of(&differ));
    let moved = |a: &Option<Mixed>, b: &Option<Mixed>| {
        let (Some((a, _)), Some((b, _))) = (a, b) else { return f64::INFINITY };
        let steps = |o: Outcome| match (a.get(o), b.get(o)) {
            (Some(x), Some(y)) => o.steps(o.scaled(y) - o.scaled(x)).abs(),
            (None, None) => 0.0,
            _ => f64::INFINITY,
        };
        Outcome::ALL.into_iter().map(steps).fold(0.0, f64::max)
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

/// Shares of a difference: each part's own, averaged over all orders in which the parts may be changed.
///
/// `share_i = Σ_S |S|! (n − |S| − 1)! / n! · (v(S ∪ i) − v(S))`
///
/// Source: published, Shapley 1953.
fn shared(outcome: Outcome, values: &[f64], n: usize) -> Because {
    #[allow(clippy::cast_precision_loss, reason = "at most 6")]
    let factorial = |k: usize| (1..=k).map(|i| i as f64).product::<f64>();
    let share = |i: usize| {
        (0..values.len())
            .filter(|set| set >> i & 1 == 0)
            .map(|set| {
                let size = set.count_ones() as usize;
                let weight = factorial(size) * factorial(n - size - 1) / factorial(n);
                weight * (values[set | 1 << i] - values[set])
            })
            .sum()
    };
    let alone = (0..n).map(|i| values[1 << i] - values[0]).collect();
    Because { outcome, shares: (0..n).map(share).collect(), alone, never_as_h: None }
}
