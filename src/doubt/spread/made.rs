//! What every possible pot is made with: its times, its forecast, a maker's scatter, measured curves, and why there is none.

use potset_base::{Cited, Note, Severity};
use potset_doc::Kitchen;
use potset_forecast::place::Place;
use potset_forecast::scenario::not_computed;
use potset_judge::ready::HORIZON_H;
use potset_numerics::ode::Tolerance;
use potset_science::params::{Laws, Params};
use potset_science::simulate::{growing_times, simulate_at};
use potset_science::{Forecast, Mix};

/// Steps of the forecasts of a spread, and their local tolerances. Against precise forecasts the pH at the stop is within
/// 0.01 and the time to pH 4.6 within 0.1 h (`tests/it/spread.rs`): far less than the pots differ.
pub const STEPS: usize = 48;
pub const TOLERANCE: Tolerance = Tolerance { relative: 1e-3, absolute: 1e-3 };

/// Times of the pots of a mix: the same for every design up to the common horizon, so that no ready time hangs on where the
/// stop is; the stop, and what is looked at beyond, come on top.
pub(super) fn times_of(mix: &Mix) -> Vec<f64> {
    let mut times = growing_times(HORIZON_H, STEPS);
    times.retain(|t| *t <= mix.horizon_h + 1e-9);
    times.push(mix.stop_h);
    times.push(mix.horizon_h);
    times.sort_by(f64::total_cmp);
    times.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    times
}

pub(super) fn forecast(mix: &Mix, times: &[f64]) -> Result<Forecast, Note> {
    simulate_at(mix, times, TOLERANCE).map_err(|e| not_computed(&e))
}

/// A figure of the maker's own scatter at a place.
pub(super) fn maker(place: Place, cited: &Cited) -> f64 {
    place.value(cited.value, cited.spread)
}

/// Moves the measured loss of a warmer by a factor, to one kitchen from another: a time constant goes by the hours of its
/// readings.
pub(super) fn loss((to, from): (&mut Kitchen, &Kitchen), warmer: &str, factor: f64) {
    for (to, from) in to.flasks.iter_mut().zip(&from.flasks) {
        if to.key == warmer {
            to.after_h = from.after_h * factor;
        }
    }
}

/// The measured curves among the figures of an unknown.
pub(super) fn curves(laws: &mut Laws, params: &Params, paths: &[String], place: Place) {
    for path in paths {
        match path.as_str() {
            "solid_fat.coconut" => laws.coconut_solid = place.shares(&params.solid_fat.coconut),
            "solid_fat.milk" => laws.milk_solid = place.shares(&params.solid_fat.milk),
            "dry_loss" => laws.dry_loss = place.rates(&params.dry_loss),
            _ => {}
        }
    }
}

/// Why a pot has no forecast.
pub(super) fn why(notes: Vec<Note>) -> Note {
    let error = notes.into_iter().find(|n| n.severity == Severity::Error);
    error.unwrap_or_else(|| Note::error("design", "There is no forecast", "Undo the last change"))
}
