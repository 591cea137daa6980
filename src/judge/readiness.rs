//! Readiness: for each time whether every goal holds, and the span of time in which all do.

use crate::hygiene::{self, Hygiene};
use potset_base::words::{TangWord, TextureWord, span};
use potset_base::{choices, number};
use potset_doc::goals::Goals;
use potset_forecast::Facts;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_numerics::interpolate::curve;
use potset_science::forecast::Forecast;
use potset_science::params::Laws;
use potset_science::sensory::{tang_bounds, texture_bounds};

/// One goal: how far each moment is inside it (0 or more: it holds).
#[derive(Clone, Debug, PartialEq)]
pub struct Goal {
    pub name: String,
    pub margin: Vec<f64>,
}

/// The ready window: from and to, h, and which goal opens and closes it.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    pub from_h: f64,
    pub to_h: f64,
    pub opens: Option<String>,
    /// `None`: it is still open where the forecast ends.
    pub closes: Option<String>,
}

/// The pH at or under which a pot may be ready, and why it is that one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Release {
    pub ph: f64,
    /// What asks for the lower limit.
    pub strict: Option<Strict>,
    /// The maker's goal was above the cap, which counts instead.
    pub capped_from: Option<f64>,
}

choices! {
    /// What asks for the lower release pH.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Strict: words {
        FrailEaters => "for frail eaters",
        Starch => "with starch",
        Rice => "with rice",
        RawBase => "with a raw base",
    }
}

impl Release {
    /// The goal in words: "pH 4.3 or lower (needed with starch)".
    pub fn words(&self) -> String {
        let ph = format!("pH {} or lower", number::plain((self.ph * 100.0).round() / 100.0));
        match self.strict {
            Some(why) => format!("{ph} (needed {})", why.words()),
            None => ph,
        }
    }
}

/// The release pH of a design: the maker's own goal or the usual one, never above the cap.
///
/// With starch, rice, a raw base or for frail eaters the usual one is lower, and is the cap as well.
///
/// Source: assumed, `ready` and `hygiene` groups of the parameters.
pub fn release(goals: &Goals, facts: &Facts, laws: &Laws) -> Release {
    let strict = [
        (goals.frail_eaters, Strict::FrailEaters),
        (facts.starchy, Strict::Starch),
        (facts.rice, Strict::Rice),
        (facts.raw_base, Strict::RawBase),
    ];
    let strict = strict.into_iter().find(|(so, _)| *so).map(|(_, why)| why);
    let (usual, cap) = match strict {
        Some(_) => (laws.ready.release_ph_strict, laws.ready.release_ph_strict),
        None => (laws.ready.release_ph, laws.hygiene.release_ph_most),
    };
    let goal = goals.ph_at_most;
    let ph = goal.unwrap_or(usual).min(cap);
    let held = strict.filter(|_| ph >= laws.ready.release_ph_strict);
    Release { ph, strict: held, capped_from: goal.filter(|goal| *goal > cap) }
}

/// Name of the goal that nothing speaks against the pot and that its culture has soured it.
pub const HYGIENE: &str = "sours soon enough";

/// The goals of a design, each with its margin over time. Hygiene stands first, above all of them.
pub fn goals(
    goals: &Goals,
    forecast: &Forecast,
    hygiene: &Hygiene,
    release: &Release,
    laws: &Laws,
) -> Vec<Goal> {
    let mut all = vec![
        Goal { name: HYGIENE.to_owned(), margin: hygienic(forecast, hygiene) },
        Goal { name: release.words(), margin: forecast.ph.iter().map(|ph| release.ph - ph).collect() },
    ];
    if let Some((low, high)) = goals.texture {
        all.push(Goal { name: span(low.word(), high.word()), margin: texture(forecast, low, high, laws) });
    }
    if let Some((low, high)) = goals.tang {
        all.push(Goal { name: span(low.word(), high.word()), margin: tang(forecast, low, high, laws) });
    }
    for (outcome, word) in Observable::KEPT_UNDER {
        let Some(most) = outcome.at_most(goals) else { continue };
        let margin = outcome.course(forecast).into_iter().map(|v| most - v).collect();
        all.push(Goal {
            name: format!("{word} {} {} or less", number::fixed(most, 0), outcome.unit()),
            margin,
        });
    }
    all
}

/// From the time at which the culture has soured the pot to the time at which it is to be thrown away, h.
fn hygienic(forecast: &Forecast, hygiene: &Hygiene) -> Vec<f64> {
    let from = hygiene.soured_h.unwrap_or(f64::INFINITY);
    let to = hygiene.lost_h.map_or(f64::INFINITY, |h| h - 1e-6);
    // Hours inside the span, kept finite so that a line between two points still crosses at its ends.
    forecast.t.iter().map(|t| (t - from).min(to - t).clamp(-FAR_H, FAR_H)).collect()
}

/// Longer than any forecast, h.
const FAR_H: f64 = 1e3;

fn texture(forecast: &Forecast, low: TextureWord, high: TextureWord, laws: &Laws) -> Vec<f64> {
    let (begins, ends) = texture_bounds(low, high, &laws.words);
    forecast
        .chilled
        .at
        .iter()
        .map(|t| {
            // A pot that is cut is thicker than every word below it.
            let below = if t.cut { 1.0 } else { (t.viscosity50 / begins.max(1e-9)).ln() };
            let below = if low == TextureWord::Cuts && !t.cut { -1.0 } else { below };
            let above = match (t.cut, high) {
                (_, TextureWord::Cuts) | (false, TextureWord::Stands) => 1.0,
                (true, _) => -1.0,
                (false, _) => ends.map_or(1.0, |ends| (ends / t.viscosity50).ln()),
            };
            below.min(above)
        })
        .collect()
}

fn tang(forecast: &Forecast, low: TangWord, high: TangWord, laws: &Laws) -> Vec<f64> {
    let (from, to) = (tang_bounds(low, &laws.words).0, tang_bounds(high, &laws.words).1);
    forecast.undissociated.iter().map(|hl| (hl - from).min(to - hl)).collect()
}

/// The window in which all goals hold: the one that holds the stop line, else the next after it, else the last.
pub fn window(times: &[f64], goals: &[Goal], stop_h: f64) -> Option<Window> {
    let tightest = |i: usize| {
        goals
            .iter()
            .filter_map(|g| g.margin.get(i).map(|m| (*m, g)))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map_or((0.0, None), |(m, g)| (m, Some(g.name.clone())))
    };
    let mut windows: Vec<Window> = Vec::new();
    let mut open: Option<(f64, Option<String>)> = None;
    let mut last: Option<(f64, f64, Option<String>)> = None;
    for (i, t) in times.iter().enumerate() {
        let (margin, name) = tightest(i);
        let crossing = last.as_ref().map_or(*t, |(t0, m0, _)| t0 + (t - t0) * m0 / (m0 - margin));
        match (&open, margin >= 0.0) {
            (None, true) => {
                let opener = last.as_ref().and_then(|(_, _, n)| n.clone());
                open = Some((if last.is_some() { crossing } else { *t }, opener));
            }
            (Some((from, opens)), false) => {
                windows.push(Window {
                    from_h: *from,
                    to_h: crossing,
                    opens: opens.clone(),
                    closes: name.clone(),
                });
                open = None;
            }
            _ => {}
        }
        last = Some((*t, margin, name));
    }
    if let (Some((from_h, opens)), Some(end)) = (open, times.last()) {
        windows.push(Window { from_h, to_h: *end, opens, closes: None });
    }
    windows
        .iter()
        .find(|w| w.from_h <= stop_h && stop_h <= w.to_h)
        .or_else(|| windows.iter().find(|w| w.from_h > stop_h))
        .or_else(|| windows.last())
        .cloned()
}

/// When all goals first hold, h; nothing if they never do.
///
/// - `at` — places of the times that are looked at, rising.
pub fn first(times: &[f64], goals: &[Goal], at: &[usize]) -> Option<f64> {
    let least =
        |i: usize| goals.iter().filter_map(|g| g.margin.get(i)).copied().fold(f64::INFINITY, f64::min);
    let k = at.iter().position(|i| least(*i) >= 0.0)?;
    let (after, before) = (at[k], k.checked_sub(1).map(|k| at[k]));
    let Some(before) = before else { return Some(times[after]) };
    // The last goal to come to hold decides; each crosses on its own line.
    let crossing = |g: &Goal| {
        let (m0, m1) = (*g.margin.get(before)?, *g.margin.get(after)?);
        (m0 < 0.0).then(|| times[before] + (times[after] - times[before]) * m0 / (m0 - m1))
    };
    Some(goals.iter().filter_map(crossing).fold(times[before], f64::max))
}

/// How far a time is inside each goal, by name.
pub fn margins<'a>(times: &[f64], goals: &'a [Goal], t_h: f64) -> Vec<(&'a str, f64)> {
    goals.iter().map(|g| (g.name.as_str(), curve(times, &g.margin, t_h))).collect()
}

/// Which goals hold at a time, by name.
pub fn holding(times: &[f64], goals: &[Goal], t_h: f64) -> Vec<(String, bool)> {
    margins(times, goals, t_h).into_iter().map(|(name, margin)| (name.to_owned(), margin >= 0.0)).collect()
}

/// The goals of a run with their margins.
pub fn goals_of(scenario: &Scenario<'_>, run: &Run) -> Vec<Goal> {
    goals_with(scenario, run, &hygiene::judge(run))
}

/// The same, of a run that is judged already.
pub fn goals_with(scenario: &Scenario<'_>, run: &Run, hygiene: &Hygiene) -> Vec<Goal> {
    goals(&scenario.design.goals, &run.forecast, hygiene, &release_of(scenario, run), &run.mix.laws)
}

/// The release pH of a run, and why it is that one.
pub fn release_of(scenario: &Scenario<'_>, run: &Run) -> Release {
    release(&scenario.design.goals, &run.facts, &run.mix.laws)
}

/// Highest pH at which the pot of a run may be ready.
pub fn release_ph_of(scenario: &Scenario<'_>, run: &Run) -> f64 {
    release_of(scenario, run).ph
}

#[cfg(test)]
mod tests {
    use super::*;

    fn goal(name: &str, margin: &[f64]) -> Goal {
        Goal { name: name.into(), margin: margin.to_vec() }
    }

    #[test]
    fn the_window_is_where_all_hold() {
        let times = [0.0, 1.0, 2.0, 3.0, 4.0];
        let goals = [goal("sour", &[-1.0, 1.0, 1.0, 1.0, 1.0]), goal("sweet", &[2.0, 2.0, 2.0, 1.0, -1.0])];
        let window = window(&times, &goals, 2.0).unwrap();
        assert!((window.from_h - 0.5).abs() < 1e-12 && (window.to_h - 3.5).abs() < 1e-12);
        assert_eq!((window.opens.as_deref(), window.closes.as_deref()), (Some("sour"), Some("sweet")));
    }

    #[test]
    fn no_window_when_goals_never_meet() {
        let goals = [goal("a", &[1.0, -1.0, -1.0]), goal("b", &[-1.0, -1.0, 1.0])];
        assert_eq!(window(&[0.0, 1.0, 2.0], &goals, 1.0), None);
    }
}
