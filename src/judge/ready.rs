//! When a pot is ready: one answer from the possible pots, told in the steps that a kitchen can use.

use crate::chance::{Chance, WINDOW_CHANCE};
use crate::hygiene;
use crate::mends;
use crate::mends::Mend;
use crate::readiness::Window;
use potset_base::clock::Moment;
use potset_base::number;
use potset_forecast::scenario::Run;

/// How far every design is looked at, h, whatever is stopped or shown. Source: assumed, three days.
pub const HORIZON_H: f64 = 72.0;

/// Share of the possible pots that *about half* stands for; *most* is [`WINDOW_CHANCE`].
pub const HALF: f64 = 0.5;

/// Steps in which times are told: (up to h, step h). Source: assumed, no kitchen tells more.
const STEPS: [(f64, f64); 4] = [(12.0, 0.5), (24.0, 1.0), (48.0, 3.0), (f64::INFINITY, 6.0)];

/// A time as it is told, h: rounded later to the step of its size.
pub fn told_h(h: f64) -> f64 {
    let step = STEPS.iter().find(|(upto, _)| h <= upto + 1e-9).map_or(6.0, |(_, step)| *step);
    ((h - 1e-9) / step).ceil().max(0.0) * step
}

/// A time in words, by the clock where a start is known.
pub fn time_words(h: f64, start: Option<Moment>) -> String {
    let h = told_h(h);
    start.map_or_else(|| number::hours(h), |start| start.after(h).day_and_time())
}

/// What the stop has to do with it.
#[derive(Clone, Debug, PartialEq)]
pub struct StopAdvice {
    pub sentence: String,
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
            #[allow(
                clippy::cast_precision_loss,
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a count of pots"
            )]
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

    /// The answer in one sentence.
    pub fn sentence(&self, start: Option<Moment>) -> String {
        let at = |h: f64| time_words(h, start);
        match (self.half_h, self.most_h) {
            (Some(half), Some(most)) if told_h(half) >= told_h(most) => {
                format!("Most pots are ready by {}", at(most))
            }
            (Some(half), Some(most)) => format!("About half are ready by {}, most by {}", at(half), at(most)),
            (Some(half), None) => {
                format!(
                    "About half are ready by {}; by {}, {}",
                    at(half),
                    number::hours(HORIZON_H),
                    self.ever.words()
                )
            }
            _ if self.ever.of > 0 => {
                format!("By {}, {} are ready", number::hours(HORIZON_H), self.ever.words())
            }
            _ => format!("It does not get there in {}", number::hours(HORIZON_H)),
        }
    }

    /// The same in few words, for a table.
    pub fn brief(&self, start: Option<Moment>) -> String {
        let at = |h: Option<f64>| h.map_or_else(|| "never".to_owned(), |h| time_words(h, start));
        match (self.half_h, self.most_h) {
            (None, _) => format!("{} by {}", self.ever.words(), number::hours(HORIZON_H)),
            (half, None) => format!("half by {}", at(half)),
            (half, most) => format!("half by {}, most by {}", at(half), at(most)),
        }
    }

    /// Whether most pots are ready at one and the same hour, where that has to be told apart.
    pub fn together_sentence(&self) -> Option<String> {
        let most = self.most_h?;
        match &self.window {
            None => Some("There is no hour at which most are ready together".to_owned()),
            Some(window) if told_h(window.from_h) > told_h(most) => {
                Some(format!("Most are ready together from {}", number::hours(told_h(window.from_h))))
            }
            Some(_) => None,
        }
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

    /// How many are ready at the stop, and how long that holds.
    pub fn at_stop_sentence(&self) -> String {
        let (stop, ready) = (number::hours(self.stop_h), self.at_stop.words());
        let holds = match &self.window {
            Some(w) if w.from_h <= self.stop_h && w.closes.is_none() => "; it stays so".to_owned(),
            Some(w) if w.from_h <= self.stop_h && self.stop_h <= w.to_h => {
                format!("; most are until {}", number::hours((w.to_h * 2.0).floor() / 2.0))
            }
            _ => String::new(),
        };
        format!("You stop at {stop}: {ready} are ready{holds}")
    }

    fn stop_advice(&self, lost_at: &dyn Fn(f64) -> bool) -> Option<StopAdvice> {
        if self.good_at_stop() {
            return None;
        }
        let stop = number::hours(self.stop_h);
        let ready = self.at_stop.words();
        let offer = |h: f64| Some(mends::stop_after(told_h(h))).filter(|_| !lost_at(told_h(h)));
        if let Some(window) = &self.window {
            let sentence = if self.stop_h < window.from_h {
                let last = self.last.as_ref().map_or_else(String::new, |last| format!("; {last} comes last"));
                format!("You stop too early: at {stop}, {ready} are ready{last}")
            } else {
                let lost = window
                    .closes
                    .as_ref()
                    .map_or_else(String::new, |lost| format!("; {lost} is lost by then"));
                format!("You stop too late: at {stop}, {ready} are ready{lost}")
            };
            let early = self.stop_h < window.from_h;
            let inside = if early { told_h(window.from_h).min(window.to_h) } else { window.to_h };
            let mend = if early {
                offer(inside)
            } else {
                Some(mends::stop_after_floor(inside)).filter(|_| !lost_at(inside))
            };
            return Some(StopAdvice { sentence, mend });
        }
        let later = self.half_h.filter(|half| self.stop_h < *half);
        let sentence = match later {
            Some(_) => format!("You stop too early: at {stop}, {ready} are ready"),
            None => format!("At {stop}, {ready} are ready"),
        };
        Some(StopAdvice { sentence, mend: later.and_then(|_| self.most_h.or(self.half_h)).and_then(offer) })
    }
}

/// Whether a stop at an hour leads to a pot that is to be thrown away, by the likely line.
pub fn lost_at(run: &Run, stop_h: f64) -> bool {
    hygiene::judge_at(run, stop_h).discard().is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ready(first: &[Option<f64>], stop_h: f64, at_stop: usize) -> ReadyTime {
        ReadyTime::of(Observed {
            first_h: first,
            window: None,
            at_stop: Chance { of: at_stop, among: first.len() },
            stop_h,
            last: None,
            lost_at: &|_| false,
        })
    }

    #[test]
    fn times_are_told_later_in_the_steps_of_a_kitchen() {
        let told = [0.0, 7.1, 7.5, 11.6, 12.0, 12.1, 23.2, 24.0, 24.1, 47.0, 48.0, 48.5].map(told_h);
        assert_eq!(told, [0.0, 7.5, 7.5, 12.0, 12.0, 13.0, 24.0, 24.0, 27.0, 48.0, 48.0, 54.0]);
    }

    #[test]
    fn half_and_most_are_counted() {
        let first: Vec<Option<f64>> = (1..=10).map(|h| (h <= 8).then(|| f64::from(h))).collect();
        let all = ready(&first, 20.0, 8);
        assert_eq!((all.half_h, all.most_h), (Some(5.0), Some(8.0)));
        assert_eq!(all.sentence(None), "About half are ready by 5\u{a0}h, most by 8\u{a0}h");
        assert_eq!(all.stop, None, "8 in 10 are most");
    }

    #[test]
    fn what_is_not_reached_is_said() {
        let none = ready(&[None, None], 20.0, 0);
        assert_eq!(none.sentence(None), "It does not get there in 72\u{a0}h");
        let some = ready(&[Some(30.0), None, None, None, None], 20.0, 0);
        assert_eq!(some.sentence(None), "By 72\u{a0}h, 1 in 5 are ready");
        let early = ready(&[Some(30.0), Some(31.0), Some(40.0), None], 20.0, 0);
        let stop = early.stop.unwrap();
        assert!(stop.sentence.starts_with("You stop too early"), "{}", stop.sentence);
        assert!(stop.mend.is_some());
    }
}
