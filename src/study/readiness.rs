//! Readiness: for each time whether every goal holds, and the span of time in which all do.

use crate::base::number;
use crate::base::words::{TangWord, TextureWord, span};
use crate::compile::Facts;
use crate::doc::goals::Goals;
use crate::numerics::interpolate::curve;
use crate::science::forecast::Forecast;
use crate::science::params::Laws;
use crate::science::sensory::{tang_bounds, texture_bounds};

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

/// Highest pH at which the pot may be called done: the maker's own, or the usual one.
///
/// Source: assumed, `ready` group of the parameters.
#[must_use]
pub fn release_ph(goals: &Goals, facts: &Facts, fresh: bool, laws: &Laws) -> f64 {
    let usual = if facts.starchy || fresh || goals.frail_eaters {
        laws.ready.release_ph_strict
    } else {
        laws.ready.release_ph
    };
    goals.ph_at_most.unwrap_or(usual)
}

/// The goals of a design, each with its margin over time.
#[must_use]
pub fn goals(goals: &Goals, forecast: &Forecast, release: f64, laws: &Laws) -> Vec<Goal> {
    let mut all = vec![Goal {
        name: format!("pH ≤ {}", number::fixed(release, 1)),
        margin: forecast.ph.iter().map(|ph| release - ph).collect(),
    }];
    if let Some((low, high)) = goals.texture {
        all.push(Goal { name: span(low.word(), high.word()), margin: texture(forecast, low, high, laws) });
    }
    if let Some((low, high)) = goals.tang {
        all.push(Goal { name: span(low.word(), high.word()), margin: tang(forecast, low, high, laws) });
    }
    if let Some(most) = goals.sugar_left_at_most {
        let margin = forecast.sugar_total.iter().map(|g| most - g * forecast.density).collect();
        all.push(Goal { name: format!("sugar ≤ {} g/L", number::fixed(most, 0)), margin });
    }
    if let Some(most) = goals.whey_at_most {
        let margin = forecast.chilled.at.iter().map(|t| most - t.whey.standing).collect();
        all.push(Goal { name: format!("whey ≤ {} %", number::fixed(most, 0)), margin });
    }
    all
}

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
#[must_use]
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

/// How far a time is inside each goal, by name.
#[must_use]
pub fn margins<'a>(times: &[f64], goals: &'a [Goal], t_h: f64) -> Vec<(&'a str, f64)> {
    goals.iter().map(|g| (g.name.as_str(), curve(times, &g.margin, t_h))).collect()
}

/// Which goals hold at a time, by name.
#[must_use]
pub fn holding(times: &[f64], goals: &[Goal], t_h: f64) -> Vec<(String, bool)> {
    margins(times, goals, t_h).into_iter().map(|(name, margin)| (name.to_owned(), margin >= 0.0)).collect()
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
