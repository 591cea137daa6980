//! A combination as a problem to be searched: what a setting gives, and the settings that are surest, nearest, soonest stopped
//! or kept by most pots.

use super::make::CandidateDesign;
use super::stand::{self, Demand, least};
use super::turn::SearchLever;
use potset_doc::{Design, Edit, edit};
use potset_doubt::kept::{Draw, Pots};
use potset_forecast::lever::{self, LeverId};
use potset_forecast::scenario::Scenario;
use potset_numerics::pattern::{self, Setting, Walk};
use potset_numerics::samples;

/// Margin at which the search for the surest setting may stop, in steps that a person notices. Source: assumed.
pub const ENOUGH: f64 = 2.0;
/// Margin that the nearest and the soonest setting keep, in steps. Source: assumed; half a step is not noticed.
const RESERVE: f64 = 0.5;
/// How much more a miss weighs than a margin that is small, and than a lever that is turned. Source: assumed.
const HARD: f64 = 30.0;
/// What turning a lever away from what the design has may cost: of the chance, and in usual spans. Source: assumed; of 200
/// pots two.
const PER_LEVER: f64 = 0.01;
/// Settings that straight lines promise and that are tried at a time. Source: assumed.
const PROMISED: usize = 4;
/// Steps of its own demand that a setting may lose so that the others miss by one less. Source: assumed, so that what is told
/// to hold holds.
const PER_MISS: f64 = 20.0;

/// The margins of a setting added up, none counted beyond what is enough: 0 is the best.
pub fn rank(setting: &Setting) -> f64 {
    setting.margins.iter().map(|m| (m - ENOUGH).min(0.0)).sum()
}

/// The least margin of some and that of all others.
pub fn own_and_others(margins: &[f64], own: &std::ops::Range<usize>) -> (f64, f64) {
    let others = margins.iter().enumerate().filter(|(k, _)| !own.contains(k)).map(|(_, m)| *m);
    (least(&margins[own.clone()]), others.fold(f64::INFINITY, f64::min))
}

/// What a setting is worth by the margin of its own demand and the least of all others.
pub fn worth((own, others): (f64, f64)) -> f64 {
    own + PER_MISS * others.min(0.0)
}

/// What a search looks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Objective {
    /// A few steps toward the surest: how far a combination goes, cheaply.
    Promising,
    Surest,
    /// As little turned as can be.
    Nearest,
    Soonest,
    /// Kept by most of the possible pots.
    Likeliest,
    /// One demand as far inside as can be, while all others hold or alone.
    Raised {
        demand: usize,
        alone: bool,
    },
}

impl Objective {
    /// How it is walked to with so many levers. Source for the numbers: assumed; set so that a usual question takes less than
    /// two seconds on two cores.
    const fn walk(self, levers: usize) -> Walk {
        let (enough, promised) = (f64::NEG_INFINITY, PROMISED);
        match self {
            Self::Promising => Walk { first: 0.2, calls: 6 + 4 * levers, enough: 0.0, promised },
            Self::Surest => Walk { first: 0.15, calls: 20 + 14 * levers, enough: 0.0, promised },
            Self::Nearest | Self::Soonest => Walk { first: 0.12, calls: 12 + 10 * levers, enough, promised },
            // Margins on the likely line say little of how many pots keep them.
            Self::Likeliest => Walk { first: 0.08, calls: 4 + 3 * levers, enough, promised: 0 },
            Self::Raised { .. } => Walk { first: 0.15, calls: 20 + 12 * levers, enough, promised },
        }
    }
}

/// By how much margins are missed, squared so that every step toward holding them counts.
fn penalty(margins: &[f64], goal: f64) -> f64 {
    let missed = |m: f64| (goal - m).max(0.0).powi(2) + HARD * (-m).max(0.0).powi(2);
    margins.iter().map(|m| missed(*m)).sum()
}

/// A combination with its demands.
#[derive(Clone, Copy)]
pub struct SearchProblem<'a> {
    pub scenario: &'a Scenario<'a>,
    pub made: &'a CandidateDesign,
    pub demands: &'a [Demand],
}

impl SearchProblem<'_> {
    fn turns(&self) -> &[SearchLever] {
        &self.made.turns
    }

    /// What turns the made design to a setting.
    fn turned(&self, values: &[f64]) -> Option<Vec<Edit>> {
        let turned = self.turns().iter().zip(values).filter(|(t, v)| (t.lever.value - **v).abs() > 1e-12);
        let knobs: Vec<(LeverId, f64)> = turned.map(|(t, v)| (t.lever.lever_id, *v)).collect();
        let on = Scenario { design: &self.made.design, ..*self.scenario };
        lever::turned_beside(&on, &knobs, &self.made.held).ok()
    }

    /// The edits of a setting, after those of the combination.
    pub fn edits(&self, values: &[f64]) -> Option<Vec<Edit>> {
        Some(self.made.edits.iter().cloned().chain(self.turned(values)?).collect())
    }

    /// The design at a setting.
    fn design(&self, values: &[f64]) -> Option<Design> {
        let turned = Edit::Together(String::new(), self.turned(values)?);
        edit::apply(&self.made.design, &turned, self.scenario.pantry).ok()
    }

    /// Margins at a setting, by a coarse forecast or the precise one.
    pub fn margins(&self, values: &[f64], precise: bool) -> Vec<f64> {
        let none = || vec![stand::UNKNOWN; stand::count(self.demands)];
        let Some(design) = self.design(values) else { return none() };
        let scenario = Scenario { design: &design, ..*self.scenario };
        let run = if precise { scenario.run() } else { scenario.run_coarse(0.0) };
        run.map_or_else(|_| none(), |run| stand::margins(&scenario, &run, self.demands))
    }

    /// What the design has, or what a made design starts with where the design has no such lever.
    pub fn home(&self) -> Vec<f64> {
        self.turns().iter().map(|t| t.was.unwrap_or(t.lever.value).clamp(t.low, t.high)).collect()
    }

    /// Settings that fill the space evenly, and that of the design; the best of them first.
    pub fn screened(&self, seed: u64, n: usize) -> Vec<Setting> {
        let sides: Vec<Vec<f64>> =
            (0..self.turns().len()).map(|k| samples::side(seed, k as u64, n, n)).collect();
        let even = |i: usize| self.turns().iter().zip(&sides).map(|(t, side)| t.set(t.at(side[i]))).collect();
        let there = self.turns().iter().map(|t| t.set(t.lever.value)).collect();
        let all = std::iter::once(there).chain((0..n).map(even));
        let at = |values: Vec<f64>| Setting { margins: self.margins(&values, false), values };
        let mut all: Vec<Setting> = all.map(at).collect();
        all.sort_by(|a, b| rank(b).total_cmp(&rank(a)));
        all
    }

    /// How far levers are turned from what the design has, in their usual spans.
    fn far(&self, values: &[f64], home: &[f64]) -> f64 {
        let each = self.turns().iter().zip(values.iter().zip(home));
        each.map(|(t, (v, h))| (v - h).abs() / t.usual_width() + if v == h { 0.0 } else { PER_LEVER }).sum()
    }

    /// Walks from a setting to another one.
    ///
    /// - `pots`, `draw` — what chances are counted by.
    pub fn searched(&self, from: &Setting, objective: Objective, pots: Pots, draw: Draw) -> Setting {
        let home = self.home();
        let hours = self.turns().iter().position(|t| t.lever.lever_id == LeverId::HoldHours);
        let reserve = RESERVE.min(0.5 * from.least().max(0.0));
        let draw = match (objective, self.design(&from.values)) {
            (Objective::Likeliest, Some(design)) => draw.of(&Scenario { design: &design, ..*self.scenario }),
            _ => draw,
        };
        let kept = |v: &[f64]| {
            self.design(v).map_or(0.0, |design| {
                stand::chance(&Scenario { design: &design, ..*self.scenario }, self.demands, pots, draw).soft
            })
        };
        let score = |s: &Setting| {
            let (v, margins) = (&s.values, &s.margins);
            match objective {
                Objective::Promising | Objective::Surest => penalty(margins, ENOUGH),
                Objective::Nearest => self.far(v, &home) + HARD * penalty(margins, reserve),
                Objective::Soonest => hours.map_or(0.0, |at| v[at]) + HARD * penalty(margins, reserve),
                // What misses on the likely line is no setting, however many pots keep it.
                Objective::Likeliest if s.least() < 0.0 => 1.0 + penalty(margins, 0.0),
                Objective::Likeliest => {
                    let turned = v.iter().zip(&home).filter(|(v, h)| v != h).count();
                    PER_LEVER * turned as f64 - kept(v)
                }
                Objective::Raised { demand, alone } => {
                    let (own, others) = own_and_others(margins, &stand::places(self.demands, demand));
                    -if alone { own } else { worth((own, others)) }
                }
            }
        };
        let walk = objective.walk(self.turns().len());
        let look = |v: &[f64]| self.margins(v, false);
        pattern::lowest(self.turns(), (&from.values, &home), walk, look, score)
    }

    /// A setting that holds by the precise forecast: itself, or the nearest by a few steps; nothing where what is missed is more
    /// than a coarse forecast can be out.
    pub fn mended(&self, values: &[f64]) -> Option<Vec<f64>> {
        let look = |v: &[f64]| self.margins(v, true);
        if least(&look(values)) < -1.0 {
            return None;
        }
        let walk = Walk { first: 0.0, calls: 1 + 8 * values.len(), enough: 0.0, promised: PROMISED };
        let mended = pattern::lowest(self.turns(), (values, values), walk, look, |s| -s.least());
        (mended.least() >= 0.0).then_some(mended.values)
    }
}
