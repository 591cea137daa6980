//! Bounded search without slopes: the crate `cobyla`, for what can only be tried out and must keep conditions.

use std::cell::RefCell;

use cobyla::{Func, RhoBeg, StopTols, minimize};

/// What one trial gave.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// What is to be low.
    pub value: f64,
    /// Conditions: each holds at 0 or more.
    pub kept: Vec<f64>,
}

/// Where a search starts, and how it walks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Walk {
    /// First and last step, as a share of the width between the bounds.
    pub first: f64,
    pub last: f64,
    /// Most trials.
    pub calls: usize,
}

/// The best trial.
#[derive(Clone, Debug, PartialEq)]
pub struct Best {
    pub x: Vec<f64>,
    pub trial: Trial,
    /// Trials that were made.
    pub calls: usize,
}

impl Trial {
    /// By how much the worst condition is broken; 0 where all hold. What is no number breaks beyond measure.
    #[must_use]
    pub fn broken(&self) -> f64 {
        let worst = self.kept.iter().map(|k| if k.is_finite() { -k } else { f64::INFINITY });
        let worst = worst.fold(0.0, f64::max);
        if self.value.is_finite() { worst } else { f64::INFINITY }
    }

    /// Whether it is better than another: conditions first, then the value.
    #[must_use]
    pub fn beats(&self, other: &Self) -> bool {
        let (a, b) = (self.broken(), other.broken());
        if a > 0.0 || b > 0.0 { a < b } else { self.value < other.value }
    }
}

/// Stands for what is no number: far beyond every margin and value that a search is asked about.
const BEYOND: f64 = 1e6;

/// By so much the conditions that the crate sees are tighter, each by more than the one before: where two are the same
/// its linear programme can go round in a circle for ever. Source: published, the perturbation of Charnes 1952; the size is
/// assumed, far below what is told of a margin.
const APART: f64 = 1e-7;

/// What was tried so far.
struct Seen<F> {
    look: F,
    best: Option<(Vec<f64>, Trial)>,
    last: Option<(Vec<f64>, Trial)>,
    calls: usize,
}

impl<F: FnMut(&[f64]) -> Trial> Seen<F> {
    /// A trial at places 0 to 1 of the bounds; the crate asks for value and conditions of one point one after the other.
    fn at(&mut self, u: &[f64], read: impl Fn(&Trial) -> f64) -> f64 {
        let u: Vec<f64> = u.iter().map(|v| v.clamp(0.0, 1.0)).collect();
        if self.last.as_ref().is_none_or(|(x, _)| *x != u) {
            let trial = (self.look)(&u);
            self.calls += 1;
            if self.best.as_ref().is_none_or(|(_, best)| trial.beats(best)) {
                self.best = Some((u.clone(), trial.clone()));
            }
            self.last = Some((u, trial));
        }
        self.last.as_ref().map_or(f64::NAN, |(_, trial)| read(trial))
    }
}

/// Brings a value down while conditions hold, over places 0 to 1 along each side. Gives the best trial of all that were made:
/// one that keeps the conditions if any does, else the one that breaks them least.
///
/// - `conditions` — how many each trial has.
/// - `start` — places from 0 to 1; outside of it they are taken to the bound, as are those that are tried.
///
/// A value or condition that is no number is taken for a very bad one. The same input gives the same bits.
///
/// Source: published, Powell 1994, "A direct search optimization method that models the objective and constraint functions by
/// linear interpolation".
pub fn lowest(
    look: impl FnMut(&[f64]) -> Trial,
    conditions: usize,
    start: &[f64],
    walk: Walk,
) -> Option<Best> {
    let seen = RefCell::new(Seen { look, best: None, last: None, calls: 0 });
    let number = |v: f64, bad: f64| if v.is_finite() { v.clamp(-BEYOND, BEYOND) } else { bad };
    let value = |u: &[f64], (): &mut ()| number(seen.borrow_mut().at(u, |t| t.value), BEYOND);
    let kept: Vec<_> = (0..conditions)
        .map(|k| {
            let seen = &seen;
            #[allow(clippy::cast_precision_loss, reason = "a handful of conditions")]
            let apart = APART * (k + 1) as f64;
            move |u: &[f64], (): &mut ()| {
                number(seen.borrow_mut().at(u, |t| t.kept.get(k).copied().unwrap_or(f64::NAN)), -BEYOND)
                    - apart
            }
        })
        .collect();
    let kept: Vec<&dyn Func<()>> = kept.iter().map(|k| k as &dyn Func<()>).collect();
    let start: Vec<f64> = start.iter().map(|v| v.clamp(0.0, 1.0)).collect();
    if start.is_empty() {
        value(&start, &mut ());
    } else {
        let stop = StopTols { xtol_abs: vec![walk.last; start.len()], ..StopTols::default() };
        // How it ends does not matter: what was best on the way is what counts.
        let _ = minimize(
            value,
            &start,
            &vec![(0.0, 1.0); start.len()],
            &kept,
            (),
            walk.calls,
            RhoBeg::All(walk.first),
            Some(stop),
        );
    }
    let Seen { best, calls, .. } = seen.into_inner();
    best.map(|(x, trial)| Best { x, trial, calls })
}

/// Brings the least of several margins up: one more unknown, the level that all margins must reach, is raised as far as it goes.
///
/// - `margins` — how far each is inside its bound; always as many as at the start.
/// - `enough` — a level at which it may stop.
///
/// The trial's value is the least margin with its sign turned.
pub fn raise_least(
    mut margins: impl FnMut(&[f64]) -> Vec<f64>,
    start: &[f64],
    enough: f64,
    walk: Walk,
) -> Option<Best> {
    let sound = |v: f64| if v.is_nan() { -BEYOND } else { v };
    let least = |m: &[f64]| m.iter().map(|v| sound(*v)).fold(f64::INFINITY, f64::min);
    let mut calls = 0;
    let first = margins(start);
    let from = least(&first);
    let mut best = Best {
        x: start.iter().map(|v| v.clamp(0.0, 1.0)).collect(),
        trial: Trial { value: -from, kept: first.clone() },
        calls: 1,
    };
    if first.is_empty() || from >= enough || start.is_empty() {
        return Some(best);
    }
    // The level goes from a little under where it starts to what is enough, as a place from 0 to 1.
    let low = from.clamp(-BEYOND, BEYOND) - 1.0;
    let width = enough - low;
    let mut whole = best.x.clone();
    whole.push((from - low) / width);
    let n = start.len();
    let look = |u: &[f64]| {
        let level = low + width * u[n];
        let m = margins(&u[..n]);
        calls += 1;
        if -least(&m) < best.trial.value {
            let trial = Trial { value: -least(&m), kept: m.clone() };
            best = Best { x: u[..n].to_vec(), trial, calls: 0 };
        }
        // In shares of the width, so that all steps are alike.
        Trial { value: -u[n], kept: m.iter().map(|v| (v - level) / width).collect() }
    };
    lowest(look, first.len(), &whole, walk)?;
    best.calls = 1 + calls;
    Some(best)
}

#[cfg(test)]
mod tests {
    use super::*;

    const WALK: Walk = Walk { first: 0.2, last: 1e-6, calls: 400 };

    #[test]
    fn a_bowl_cut_by_a_line() {
        // The nearest point to (0.9, 0.9) with x + y at most 1 is (0.5, 0.5).
        let look = |u: &[f64]| Trial {
            value: (u[0] - 0.9).powi(2) + (u[1] - 0.9).powi(2),
            kept: vec![1.0 - u[0] - u[1]],
        };
        let best = lowest(look, 1, &[0.1, 0.3], WALK).unwrap();
        assert!((best.x[0] - 0.5).abs() < 1e-3 && (best.x[1] - 0.5).abs() < 1e-3, "{best:?}");
        assert_eq!(best.trial.broken(), 0.0);
        assert!(best.calls <= WALK.calls);
    }

    #[test]
    fn bounds_are_kept_and_reached() {
        let mut out = false;
        let look = |u: &[f64]| {
            out |= u.iter().any(|v| !(0.0..=1.0).contains(v));
            Trial { value: u[0] - 2.0 * u[1], kept: Vec::new() }
        };
        let best = lowest(look, 0, &[0.7, 0.2], WALK).unwrap();
        assert!(best.x[0] < 1e-6 && best.x[1] > 1.0 - 1e-6 && !out, "{best:?}");
    }

    #[test]
    fn the_least_margin_is_raised_to_the_middle() {
        // Two walls at 0.2 and 0.8: the best place has 0.3 to each, whatever the other side does.
        let margins = |u: &[f64]| vec![u[0] - 0.2, 0.8 - u[0], u[1]];
        let best = raise_least(margins, &[0.95, 0.4], 2.0, WALK).unwrap();
        assert!((best.x[0] - 0.5).abs() < 1e-3 && (best.trial.value + 0.3).abs() < 1e-3, "{best:?}");
        // It stops where it is enough.
        let best = raise_least(margins, &[0.95, 0.4], 0.1, WALK).unwrap();
        assert!(-best.trial.value >= 0.1 - 1e-6 && best.calls < 60, "{best:?}");
    }

    #[test]
    fn what_cannot_be_comes_as_near_as_it_can() {
        let best = raise_least(|u| vec![u[0] - 0.8, 0.4 - u[0]], &[0.0], 1.0, WALK).unwrap();
        assert!((best.x[0] - 0.6).abs() < 1e-3 && (best.trial.value - 0.2).abs() < 1e-3, "{best:?}");
    }

    #[test]
    fn no_number_is_no_answer() {
        let look = |u: &[f64]| Trial {
            value: if u[0] < 0.4 { f64::NAN } else { u[0] },
            kept: vec![if u[0] > 0.9 { f64::NAN } else { 1.0 }],
        };
        let best = lowest(look, 1, &[0.7], WALK).unwrap();
        assert!((0.4..0.42).contains(&best.x[0]) && best.trial.broken() == 0.0, "{best:?}");
        let nothing = raise_least(|_| vec![f64::NAN], &[0.5], 1.0, WALK).unwrap();
        assert!(nothing.trial.broken() > 0.0);
    }

    #[test]
    fn nothing_to_turn_is_one_trial() {
        let best = lowest(|_| Trial { value: 3.0, kept: vec![-1.0] }, 1, &[], WALK).unwrap();
        assert_eq!((best.calls, best.trial.value, best.trial.broken()), (1, 3.0, 1.0));
        assert_eq!(raise_least(|_| vec![0.5], &[], 1.0, WALK).unwrap().trial.value, -0.5);
    }

    #[test]
    fn the_same_start_gives_the_same_bits() {
        let look =
            |u: &[f64]| vec![(7.0 * u[0]).sin() - u[1], (5.0 * u[1]).cos() * u[2], 0.3 - (u[2] - u[0]).abs()];
        let run = || raise_least(look, &[0.2, 0.9, 0.5], 5.0, WALK).unwrap();
        assert_eq!(run(), run());
    }
}
