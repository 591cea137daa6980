//! The reading that would tell most about when a pot is ready, and when to take it.

use crate::ahead::{Ahead, Cloud};
use crate::data::Seen;
use potset_judge::ready::shown_h;

/// The next reading worth taking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NextReading {
    /// A pH, so many hours after the culture went in.
    pub at_h: f64,
    /// How much of what is not known of the ready time it would settle, 0 to 1.
    pub settles: f64,
}

/// What a reading must settle to be worth it, and how near to the best the earliest may come. Source: assumed.
const WORTH: f64 = 0.15;
const NEAR_BEST: f64 = 0.85;

/// A ready time that is known so well needs no reading, h. Source: assumed, the step that a kitchen is told.
const KNOWN_H: f64 = 1.0;

/// The earliest reading of pH that tells nearly as much as the best.
///
/// What a reading settles is the share of the weighed pots' scatter in ready time that a straight line through their pH at
/// that hour explains, the reading's own scatter in it: `cov² / (var_pH + s²) / var_ready`.
///
/// - `now_h` — hours since the culture went in.
/// - `sigma` — one sigma of a reading of pH here.
pub fn next(cloud: &Cloud, ahead: &Ahead, now_h: f64, sigma: f64) -> Option<NextReading> {
    if ahead.range.1 - ahead.range.0 <= KNOWN_H {
        return None;
    }
    // Beyond the range lies what no reading of pH tells: pots that miss another goal.
    let ready: Vec<f64> = cloud.ready().iter().map(|h| h.clamp(ahead.range.0, ahead.range.1)).collect();
    let mean = |values: &[f64]| -> f64 { values.iter().zip(&ahead.weights).map(|(v, w)| v * w).sum() };
    let ready_mean = mean(&ready);
    let ready_off: Vec<f64> = ready.iter().map(|h| h - ready_mean).collect();
    let ready_var = mean(&ready_off.iter().map(|d| d * d).collect::<Vec<_>>());
    let settles = |at_h: f64| {
        let ph = cloud.at(Seen::Ph, at_h);
        let ph_mean = mean(&ph);
        let var = mean(&ph.iter().map(|v| (v - ph_mean).powi(2)).collect::<Vec<_>>());
        let cov = mean(&ph.iter().zip(&ready_off).map(|(v, d)| (v - ph_mean) * d).collect::<Vec<_>>());
        cov * cov / (var + sigma * sigma) / ready_var
    };
    let last_h = ahead.most_h.unwrap_or(ahead.range.1);
    let first_h = shown_h(now_h + 1e-6);
    let hours = (0_u32..).map(|k| first_h + 0.5 * f64::from(k)).take_while(|h| *h <= last_h);
    let all: Vec<NextReading> = hours.map(|at_h| NextReading { at_h, settles: settles(at_h) }).collect();
    let best = all.iter().map(|n| n.settles).fold(0.0, f64::max);
    all.into_iter().find(|n| best >= WORTH && n.settles >= NEAR_BEST * best)
}
