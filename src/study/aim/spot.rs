//! A made combination to be searched: what a setting gives, the setting that is surest, nearest or soonest stopped, and the setting
//! next to it that a maker can make.

use super::make::Made;
use super::pots::{Chance, Draw, Pots};
use super::stand::{self, Demand, least};
use super::turn::Turn;
use crate::doc::{Design, Edit, edit};
use crate::numerics::minimise::{Trial, Walk, lowest, raise_least};
use crate::numerics::samples;
use crate::study::ask::{Ask, Run};
use crate::study::lever::{self, Knob};

/// Margin at which the search for the surest setting may stop, in steps that a person notices. Source: assumed.
const ENOUGH: f64 = 2.0;
/// Margin that the nearest and the soonest setting keep, in steps. Source: assumed; half a step is not noticed.
const RESERVE: f64 = 0.5;
/// Levers whose settings are rounded together; 2 to this power are compared. Source: assumed.
const TOGETHER: usize = 10;
/// Settings that are tried for one rounding, and rounds of walking from setting to setting.
const TRIED: usize = 10;
const ROUNDS: usize = 6;
/// What turning a lever back to what it was may cost of the chance. Source: assumed; of 200 pots two.
const COSTS: f64 = 0.01;

/// A setting of all levers, with its least margin.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    pub values: Vec<f64>,
    pub least: f64,
}

/// What a local search looks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Look {
    Surest,
    /// As little turned as can be.
    Nearest,
    Soonest,
}

/// A combination with its demands.
#[derive(Clone, Copy)]
pub struct Spot<'a> {
    pub ask: &'a Ask<'a>,
    pub made: &'a Made,
    pub demands: &'a [Demand],
}

impl Spot<'_> {
    fn turns(&self) -> &[Turn] {
        &self.made.turns
    }

    /// The levers that a setting turns away from the made design, and to what.
    fn knobs(&self, values: &[f64]) -> Vec<(Knob, f64)> {
        let turned = self.turns().iter().zip(values).filter(|(t, v)| (t.lever.value - **v).abs() > 1e-12);
        turned.map(|(t, v)| (t.lever.knob, *v)).collect()
    }

    /// The edits of a setting, after those of the combination.
    #[must_use]
    pub fn edits(&self, values: &[f64]) -> Option<Vec<Edit>> {
        let on = Ask { design: &self.made.design, ..*self.ask };
        let turned = lever::turned_beside(&on, &self.knobs(values), &self.made.held).ok()?;
        Some(self.made.edits.iter().cloned().chain(turned).collect())
    }

    /// The design at a setting.
    #[must_use]
    pub fn design(&self, values: &[f64]) -> Option<Design> {
        let on = Ask { design: &self.made.design, ..*self.ask };
        let turned = lever::turned_beside(&on, &self.knobs(values), &self.made.held).ok()?;
        edit::apply(&self.made.design, &Edit::Together(String::new(), turned), self.ask.pantry).ok()
    }

    /// Margins at a setting, by a coarse forecast or the precise one.
    #[must_use]
    pub fn margins(&self, values: &[f64], precise: bool) -> Vec<f64> {
        let none = || vec![stand::UNKNOWN; stand::count(self.demands)];
        let Some(design) = self.design(values) else { return none() };
        let ask = Ask { design: &design, ..*self.ask };
        let run: Option<Run> = if precise { ask.run().ok() } else { ask.run_coarse(0.0).ok() };
        run.map_or_else(none, |run| stand::margins(&ask, &run, self.demands))
    }

    /// Least margin at a setting.
    #[must_use]
    pub fn least(&self, values: &[f64], precise: bool) -> f64 {
        least(&self.margins(values, precise))
    }

    /// The chance that a setting keeps all demands.
    #[must_use]
    pub fn chance(&self, values: &[f64], pots: Pots, draw: Draw) -> Chance {
        self.design(values).map_or_else(Chance::default, |design| {
            Chance::of(&Ask { design: &design, ..*self.ask }, self.demands, pots, draw)
        })
    }

    /// Values at places from 0 to 1.
    fn values(&self, places: &[f64]) -> Vec<f64> {
        self.turns().iter().zip(places).map(|(t, u)| t.at(*u)).collect()
    }

    /// Places of values.
    #[must_use]
    pub fn places(&self, values: &[f64]) -> Vec<f64> {
        self.turns().iter().zip(values).map(|(t, v)| t.place(*v)).collect()
    }

    /// The setting that the made design has.
    #[must_use]
    pub fn there(&self) -> Vec<f64> {
        self.turns().iter().map(|t| t.lever.value.clamp(t.low, t.high)).collect()
    }

    /// Settings that fill the space evenly, that of the design first; the best of them first.
    #[must_use]
    pub fn screened(&self, seed: u64, n: usize) -> Vec<Setting> {
        let sides: Vec<Vec<f64>> =
            (0..self.turns().len()).map(|k| samples::side(seed, k as u64, n, n)).collect();
        let mut all: Vec<Setting> = std::iter::once(self.there())
            .chain((0..n).map(|i| self.values(&sides.iter().map(|side| side[i]).collect::<Vec<_>>())))
            .map(|values| Setting { least: self.least(&values, false), values })
            .collect();
        all.sort_by(|a, b| b.least.total_cmp(&a.least));
        all
    }

    /// A few steps from a setting toward the surest, not to its end: how far a combination goes, cheaply.
    #[must_use]
    pub fn lifted(&self, from: &Setting) -> Setting {
        let walk = Walk { first: 0.2, last: 0.05, calls: 6 + 3 * self.turns().len() };
        let margins = |u: &[f64]| self.margins(&self.values(u), false);
        let found = raise_least(margins, &self.places(&from.values), RESERVE, walk);
        let values = found.map_or_else(|| from.values.clone(), |b| self.values(&b.x));
        let values: Vec<f64> = self.turns().iter().zip(&values).map(|(t, v)| t.set(*v)).collect();
        Setting { least: self.least(&values, false), values }
    }

    /// Walks from a setting to the surest, nearest or soonest one that is a setting a maker can make.
    #[must_use]
    pub fn searched(&self, from: &Setting, look: Look) -> Setting {
        let calls = 12 + 8 * self.turns().len();
        let walk = Walk { first: 0.12, last: 0.004, calls };
        let start = self.places(&from.values);
        let margins = |u: &[f64]| self.margins(&self.values(u), false);
        let reserve = RESERVE.min(0.5 * from.least.max(0.0));
        let found = match look {
            Look::Surest => raise_least(margins, &start, ENOUGH, walk).map(|b| b.x),
            Look::Nearest => {
                let home = self.places(&self.home());
                let far = |u: &[f64]| u.iter().zip(&home).map(|(u, h)| ((u - h).powi(2) + 1e-4).sqrt()).sum();
                self.lowest_kept(far, reserve, &start, walk)
            }
            Look::Soonest => self.hours().and_then(|at| self.lowest_kept(|u| u[at], reserve, &start, walk)),
        };
        self.settled(&found.map_or_else(|| from.values.clone(), |u| self.values(&u)))
    }

    /// The place of the stop line among the levers.
    fn hours(&self) -> Option<usize> {
        self.turns().iter().position(|t| t.lever.knob == Knob::HoldHours)
    }

    fn lowest_kept(
        &self,
        value: impl Fn(&[f64]) -> f64,
        reserve: f64,
        start: &[f64],
        walk: Walk,
    ) -> Option<Vec<f64>> {
        let look = |u: &[f64]| {
            let kept = self.margins(&self.values(u), false).into_iter().map(|m| m - reserve).collect();
            Trial { value: value(u), kept }
        };
        lowest(look, stand::count(self.demands), start, walk).map(|b| b.x)
    }

    /// Raises the margins of one demand while all others hold, or alone; the setting, not rounded.
    #[must_use]
    pub fn raised(&self, from: &[f64], places: std::ops::Range<usize>, alone: bool) -> Vec<f64> {
        let walk = Walk { first: 0.15, last: 0.004, calls: 20 + 10 * self.turns().len() };
        let all = stand::count(self.demands);
        let others: Vec<usize> = (0..all).filter(|k| !alone && !places.contains(k)).collect();
        let look = |u: &[f64]| {
            let m = self.margins(&self.values(u), false);
            let own = least(&m[places.clone()]);
            Trial { value: -own, kept: others.iter().map(|k| m[*k]).collect() }
        };
        let best = lowest(look, others.len(), &self.places(from), walk);
        best.map_or_else(|| from.to_vec(), |b| self.values(&b.x))
    }

    /// What the design has, or what a made design starts with where the design has no such lever.
    #[must_use]
    pub fn home(&self) -> Vec<f64> {
        self.turns().iter().map(|t| t.was.unwrap_or(t.lever.value).clamp(t.low, t.high)).collect()
    }

    /// The best setting that a maker can make next to values: by straight lines through the values first, of which the
    /// likeliest are tried, then by steps from one setting to the next while it gets better and does not hold yet.
    #[must_use]
    pub fn settled(&self, values: &[f64]) -> Setting {
        let n = self.turns().len();
        let plain: Vec<f64> = self.turns().iter().zip(values).map(|(t, v)| t.set(*v)).collect();
        let mut best = Setting { least: self.least(&plain, false), values: plain };
        let goal = RESERVE.min(0.8 * self.least(values, false)).max(0.0);
        if best.least >= goal {
            return best;
        }
        for candidate in self.rounded(values, n.min(TOGETHER)) {
            let here = self.least(&candidate, false);
            if here > best.least {
                best = Setting { values: candidate, least: here };
            }
        }
        for _ in 0..ROUNDS {
            if best.least >= goal {
                break;
            }
            let near = self.neighbours(&best.values);
            let next = near
                .into_iter()
                .map(|v| Setting { least: self.least(&v, false), values: v })
                .reduce(|a, b| if b.least > a.least { b } else { a });
            match next.filter(|next| next.least > best.least) {
                Some(next) => best = next,
                None => break,
            }
        }
        best
    }

    /// A setting that a maker can make next to values: each lever in turn to the side of it that scores higher.
    #[must_use]
    pub fn made_of(&self, values: &[f64], score: impl Fn(&[f64]) -> f64) -> Vec<f64> {
        let mut best = values.to_vec();
        for (k, turn) in self.turns().iter().enumerate() {
            let half = 0.5 * turn.grid;
            let sides = [turn.set(values[k] - half), turn.set(values[k] + half)].map(|v| {
                let mut there = best.clone();
                there[k] = v;
                there
            });
            let [low, high] = sides.each_ref().map(|v| score(v));
            let [down, up] = sides;
            best = if low >= high { down } else { up };
        }
        best
    }

    /// Settings one step off along each lever.
    #[must_use]
    pub fn neighbours(&self, values: &[f64]) -> Vec<Vec<f64>> {
        let mut all = Vec::new();
        for (k, turn) in self.turns().iter().enumerate() {
            for by in [-1.0, 1.0] {
                let v = turn.stepped(values[k], by);
                if (v - values[k]).abs() > 1e-9 {
                    let mut near = values.to_vec();
                    near[k] = v;
                    all.push(near);
                }
            }
        }
        all
    }

    /// Ways to round the first `n` levers up or down, the most promising by straight lines through `values` first.
    fn rounded(&self, values: &[f64], n: usize) -> Vec<Vec<f64>> {
        let here = self.margins(values, false);
        let ends: Vec<[f64; 2]> = self.turns()[..n]
            .iter()
            .zip(values)
            .map(|(t, v)| [t.set(v - 0.5 * t.grid), t.set(v + 0.5 * t.grid)])
            .collect();
        let slopes: Vec<Vec<f64>> = (0..n)
            .map(|k| {
                let mut there = values.to_vec();
                let [low, high] = ends[k];
                there[k] = if (high - values[k]).abs() > (low - values[k]).abs() { high } else { low };
                let by = there[k] - values[k];
                let m = self.margins(&there, false);
                m.iter().zip(&here).map(|(a, b)| if by.abs() > 1e-12 { (a - b) / by } else { 0.0 }).collect()
            })
            .collect();
        let mut ways: Vec<(f64, Vec<f64>)> = (0..1_usize << n)
            .map(|way| {
                let mut v: Vec<f64> = self.turns().iter().zip(values).map(|(t, v)| t.set(*v)).collect();
                let mut m = here.clone();
                for k in 0..n {
                    v[k] = ends[k][(way >> k) & 1];
                    for (m, slope) in m.iter_mut().zip(&slopes[k]) {
                        *m += slope * (v[k] - values[k]);
                    }
                }
                (least(&m), v)
            })
            .collect();
        ways.sort_by(|a, b| b.0.total_cmp(&a.0));
        ways.into_iter().take(TRIED).map(|(_, v)| v).collect()
    }

    /// Walks toward a larger chance among the possible pots, and takes back what it turned for nothing.
    #[must_use]
    pub fn surer(&self, from: &Setting, pots: Pots, draw: Draw) -> Setting {
        let design = self.design(&from.values);
        let draw = design.map_or(draw, |design| draw.of(&Ask { design: &design, ..*self.ask }));
        let chance = |values: &[f64]| self.chance(values, pots, draw).soft;
        let start = self.places(&from.values);
        let walk = Walk { first: 0.08, last: 0.01, calls: 4 + 2 * start.len() };
        let look = |u: &[f64]| Trial { value: -chance(&self.values(u)), kept: Vec::new() };
        let found = lowest(look, 0, &start, walk).map_or_else(|| from.values.clone(), |b| self.values(&b.x));
        let found: Vec<f64> = self.turns().iter().zip(&found).map(|(t, v)| t.set(*v)).collect();
        let mut best = (chance(&from.values), from.clone());
        let (here, least) = (chance(&found), self.least(&found, false));
        if here > best.0 && least >= 0.0 {
            best = (here, Setting { values: found, least });
        }
        self.tidied(best, &chance)
    }

    /// Levers back to what the design has, where that costs next to no chance.
    fn tidied(&self, (at, mut best): (f64, Setting), chance: &impl Fn(&[f64]) -> f64) -> Setting {
        let home = self.places(&self.home());
        let moved = |k: usize| (self.places(&best.values)[k] - home[k]).abs();
        let mut order: Vec<(f64, usize)> = (0..home.len()).map(|k| (moved(k), k)).collect();
        order.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (_, k) in order {
            let was = self.turns()[k].was.filter(|w| (w - best.values[k]).abs() > 1e-12);
            let Some(was) = was.filter(|w| (self.turns()[k].low..=self.turns()[k].high).contains(w)) else {
                continue;
            };
            let mut back = best.values.clone();
            back[k] = was;
            let least = self.least(&back, false);
            if least >= 0.0 && chance(&back) >= at - COSTS {
                best = Setting { values: back, least };
            }
        }
        best
    }
}
