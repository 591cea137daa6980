//! From points to a course of hours since the culture went in.

use potset_base::clock::{Moment, Zone};

use crate::rows::{Point, Rows, Times};

/// When the culture went in.
#[derive(Clone, Copy, Debug)]
pub enum Begin<'a> {
    /// At a local time. In a file that only counts from its own start, the culture went in at that start.
    At(Moment, &'a Zone),
    /// The file's own zero lies so many hours after the culture went in; before it where negative. In a file of days and
    /// clocks, its zero is its first point.
    Zero(f64),
}

/// The course of warmth: hours since the culture went in, and °C, rising in time. Points of the same time give their mean.
///
/// - `keep_spikes` — whether values that jump away and back belong to it
pub fn course(rows: &Rows, begin: Begin<'_>, keep_spikes: bool) -> Vec<(f64, f64)> {
    of(rows, begin, |point| point.warmth_c.filter(|_| keep_spikes || !point.spike))
}

/// The course of pH: hours since the culture went in, and pH, rising in time. Points of the same time give their mean.
pub fn ph_course(rows: &Rows, begin: Begin<'_>) -> Vec<(f64, f64)> {
    of(rows, begin, |point| point.ph)
}

fn of(rows: &Rows, begin: Begin<'_>, value: impl Fn(&Point) -> Option<f64>) -> Vec<(f64, f64)> {
    let first = rows.points.first().map_or(0.0, |point| point.at);
    let zero = match (begin, rows.times) {
        (Begin::At(moment, zone), Times::World) => moment.seconds_in(zone) as f64,
        (Begin::At(..), Times::SinceStart) => 0.0,
        (Begin::Zero(hours), Times::World) => first - hours * 3600.0,
        (Begin::Zero(hours), Times::SinceStart) => -hours * 3600.0,
    };
    let mut out = Vec::with_capacity(rows.points.len());
    for same in rows.points.chunk_by(|a, b| a.at.total_cmp(&b.at).is_eq()) {
        let (mut sum, mut count) = (0.0, 0.0);
        for value in same.iter().filter_map(&value) {
            sum += value;
            count += 1.0;
        }
        if count > 0.0 {
            out.push(((same[0].at - zero) / 3600.0, sum / count));
        }
    }
    out
}
