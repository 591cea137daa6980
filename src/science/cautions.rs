//! Cautions by time and pH: when to look, when to throw away. Advice, never permission.

use super::params::CautionRow;
use crate::numerics::interpolate::curve;

/// What the pH says at the times of a caution row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slow {
    /// pH at the time of looking, where it is above the line.
    pub watch: Option<f64>,
    /// pH at the time of throwing away, where it is above the line.
    pub discard: Option<f64>,
}

/// Reads a forecast's pH against a row, as far as the hold goes.
///
/// - `until_h` — planned end of the hold: what would come later counts only if the pot is held that long.
#[must_use]
pub fn slow(row: &CautionRow, times: &[f64], ph: &[f64], until_h: f64) -> Slow {
    let above = |at_h: f64, line: f64| {
        let value = curve(times, ph, at_h);
        (at_h <= until_h && value > line).then_some(value)
    };
    Slow { watch: above(row.watch_h, row.watch_ph), discard: above(row.discard_h, row.discard_ph) }
}
