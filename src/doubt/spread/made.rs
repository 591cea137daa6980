//! What every possible pot is made with: its times, its forecast, a maker's scatter, measured curves, and why there is none.

use super::draw::Place;
use super::sampler::{STEPS, TOLERANCE};
use potset_base::{Cited, Note, Severity};
use potset_judge::ready::HORIZON_H;
use potset_science::params::{Laws, Params};
use potset_science::simulate::{growing_times, simulate_at};
use potset_science::{Forecast, Mix};

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
    simulate_at(mix, times, TOLERANCE).map_err(|e| super::trouble(&e))
}

/// A figure of the maker's own scatter at a place.
pub(super) fn maker(place: Place, cited: &Cited) -> f64 {
    place.value(cited.v, cited.spread)
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
    error.unwrap_or_else(|| Note::error("design", "There is no forecast", "Change what was changed last"))
}
