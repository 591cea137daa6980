//! When a pot is ready: one answer from the possible pots, told in the steps that a kitchen can use. `report::ready` says it.

use crate::hygiene;
use crate::mends::{self, Mend};
use crate::readiness::Window;
use potset_base::chance::{Chance, WINDOW_CHANCE};
use potset_forecast::scenario::Run;

/// How far every design is looked at, h, whatever is stopped or shown. Source: assumed, three days.
pub const HORIZON_H: f64 = 72.0;

/// Share of the possible pots that *about half* stands for; *most* is [`WINDOW_CHANCE`].
pub const HALF: f64 = 0.5;

/// Steps in which times are told: (up to h, step h). Source: assumed, no kitchen tells more.
const STEPS: [(f64, f64); 4] = [(12.0, 0.5), (24.0, 1.0), (48.0, 3.0), (f64::INFINITY, 6.0)];

/// A time as it is told, h: rounded later to the step of its size.
pub fn shown_h(h: f64) -> f64 {
    let step = STEPS.iter().find(|(upto, _)| h <= upto + 1e-9).map_or(6.0, |(_, step)| *step);
    ((h - 1e-9) / step).ceil().max(0.0) * step
}

/// How a stop misses the hours at which most pots are ready.
#[derive(Clone, Debug, PartialEq)]
pub enum Missed {
    /// It comes before them; the goal that comes last, if most are ready together at all.
    Early(Option<String>),
    /// It comes after them; the goal that is lost by then.
    Late(Option<String>),
    /// No other stop does better.
    Always,
}

/// What the stop has to do with it.
#[derive(Clone, Debug, PartialEq)]
pub struct StopAdvice {
    pub missed: Missed,
    pub mend: Option<Mend>,
}

/// When the possible pots of a design are ready.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReadyTime {
    /// When 5 and 8 in 10 possible pots have first become ready, h; nothing where they do not within the horizon.
    pub half_h: Option<f64>,
    pub most_h: Option<f64>,
    /// Pots that become ready within the horizon.
    pub ever: Chance,
    /// The span in which 8 in 10 are ready at one and the same hour, if there is one.
    pub window: Option<Window>,
    /// Pots in which all goals hold at the stop.
    pub at_stop: Chance,
    pub stop_h: f64,
    pub stop: Option<StopAdvice>,
    /// The goal that comes last in most pots.
    pub last: Option<String>,
}

/// What [`ReadyTime::of`] reads.
pub struct Observed<'a> {
    /// When each pot is first ready, h.
    pub first_h: &'a [Option<f64>],
    pub window: Option<Window>,
    pub at_stop: Chance,
    pub stop_h: f64,
    pub last: Option<String>,
    /// Whether a stop at an hour leads to a pot that is to be thrown away.
    pub lost_at: &'a dyn Fn(f64) -> bool,
}

impl ReadyTime {
    /// The answer of so many pots.
    pub fn of(seen: Observed<'_>) -> Self {
        let mut hours: Vec<f64> = seen.first_h.iter().map(|h| h.unwrap_or(f64::INFINITY)).collect();
        hours.sort_by(f64::total_cmp);
        let by = |share: f64| {
            let at = (share * hours.len() as f64 - 1e-9).ceil().max(1.0) as usize - 1;
            hours.get(at).copied().filter(|h| h.is_finite())
        };
        let mut all = Self {
            half_h: by(HALF),
            most_h: by(WINDOW_CHANCE),
            ever: Chance::count(seen.first_h.iter().map(Option::is_some)),
            window: seen.window,
            at_stop: seen.at_stop,
            stop_h: seen.stop_h,
            stop: None,
            last: seen.last,
        };
        all.stop = all.stop_advice(seen.lost_at);
        all
    }

    /// The span to draw, h: where most are ready together, else from when about half are on.
    pub fn bar(&self) -> Option<(f64, f64)> {
        let to = |w: &Window| if w.closes.is_some() { w.to_h } else { HORIZON_H };
        self.window.as_ref().map(|w| (w.from_h, to(w))).or_else(|| Some((self.half_h?, HORIZON_H)))
    }

    /// Whether most pots are ready at the stop.
    pub fn good_at_stop(&self) -> bool {
        self.at_stop.share() >= WINDOW_CHANCE
    }

    fn stop_advice(&self, lost_at: &dyn Fn(f64) -> bool) -> Option<StopAdvice> {
        if self.good_at_stop() {
            return None;
        }
        let offer = |h: f64| Some(mends::stop_after(shown_h(h))).filter(|_| !lost_at(shown_h(h)));
        let (missed, mend) = match (&self.window, self.half_h) {
            (Some(window), _) if self.stop_h < window.from_h => {
                (Missed::Early(self.last.clone()), offer(shown_h(window.from_h).min(window.to_h)))
            }
            (Some(window), _) => {
                let mend = Some(mends::stop_after_floor(window.to_h)).filter(|_| !lost_at(window.to_h));
                (Missed::Late(window.closes.clone()), mend)
            }
            (None, Some(half)) if self.stop_h < half => {
                (Missed::Early(None), offer(self.most_h.unwrap_or(half)))
            }
            (None, _) => (Missed::Always, None),
        };
        Some(StopAdvice { missed, mend })
    }
}

/// Whether a stop at an hour leads to a pot that is to be thrown away, by the likely line.
pub fn lost_at(run: &Run, stop_h: f64) -> bool {
    hygiene::judge_at(run, stop_h).discard().is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_told_later_in_the_steps_of_a_kitchen() {
        let told = [0.0, 7.1, 7.5, 11.6, 12.0, 12.1, 23.2, 24.0, 24.1, 47.0, 48.0, 48.5].map(shown_h);
        assert_eq!(told, [0.0, 7.5, 7.5, 12.0, 12.0, 13.0, 24.0, 24.0, 27.0, 48.0, 48.0, 54.0]);
    }
}
