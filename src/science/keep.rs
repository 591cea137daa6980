//! Keeping: the pot after its hold, through the chill and the days in the cold.

use super::forecast::{Forecast, Species};
use super::mix::Mix;
use super::simulate::{COARSE_TOLERANCE, TOLERANCE, Trace, kinetics};
use super::system::Pot;
use super::texture::{PotTexture, Texture};
use super::thermal::Course;
use potset_numerics::Error;
use potset_numerics::ode::Tolerance;

/// Points on the way to the stop line, enough for the warmth that the gel was made in, and on the way through the chill,
/// enough for droplets that rise slower as it cools.
const WARM_POINTS: usize = 60;
const CHILL_POINTS: usize = 12;

/// Hours of a day.
const HOURS_A_DAY: f64 = 24.0;

/// A pot in the cold.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Keeping {
    /// Days since the hold was stopped; the first is the end of the chill.
    pub days: Vec<f64>,
    pub ph: Vec<f64>,
    /// % as lactic acid.
    pub acid_made: Vec<f64>,
    pub titratable: Vec<f64>,
    /// Undissociated lactic acid, mmol/kg.
    pub undissociated: Vec<f64>,
    /// All sugars together, g/kg.
    pub sugar_total: Vec<f64>,
    pub species: Vec<Species>,
    pub texture: Vec<Texture>,
}

/// The course of a pot that is stopped at a time, chilled, and kept at a temperature.
pub fn course(mix: &Mix, stop_h: f64, days: f64, kept_c: f64) -> Course {
    let mut course = Course::from(0.0);
    for (i, (start, end)) in mix.course.spans().enumerate() {
        if start < stop_h {
            course.add_head(&mix.course, i, end.min(stop_h) - start);
        }
    }
    let hours = mix.chill.hours.max(0.01);
    let cold = course.newton(mix.course.at(stop_h), mix.chill.around_c, mix.chill.tau_h, hours);
    // It takes the temperature of the place where it is kept as fast as it was chilled.
    course.newton(cold, kept_c, mix.chill.tau_h, (days * HOURS_A_DAY - hours).max(0.0));
    course
}

/// pH and acid made after the hold was stopped at a time and the pot was chilled for its hours: (pH, % acid made).
///
/// # Errors
/// [`Error::Integration`]; it does not happen for mixes that `compile` has passed.
pub fn after_chill(mix: &Mix, stop_h: f64) -> Result<(f64, f64), Error> {
    let course = course(mix, stop_h, 0.0, mix.chill.around_c);
    let forecast = kinetics(&Pot::along(mix, &course), &course, &[course.end_h()], TOLERANCE)?;
    let last = |ys: &[f64]| ys.last().copied().unwrap_or(f64::NAN);
    Ok((last(&forecast.ph), last(&forecast.acid_made)))
}

/// The pot kept for some days at a temperature after a stop at a time.
///
/// Cells do not grow in the cold; after some days they die away by organism ([`super::kinetics::store`]), and those that
/// live go on making acid by the cold law of resting cells.
///
/// - `days` — days since the stop at which it is looked at, rising; what lies before the end of the chill is passed over,
///   and the end of the chill comes first of all.
///
/// # Errors
/// As [`after_chill`].
pub fn keep(mix: &Mix, stop_h: f64, days: &[f64], kept_c: f64) -> Result<Keeping, Error> {
    kept(mix, stop_h, days, kept_c, TOLERANCE)
}

/// The same with the tolerance of a coarse forecast, for work that asks for many pots.
///
/// # Errors
/// As [`after_chill`].
pub fn keep_coarse(mix: &Mix, stop_h: f64, days: &[f64], kept_c: f64) -> Result<Keeping, Error> {
    kept(mix, stop_h, days, kept_c, COARSE_TOLERANCE)
}

/// Every day up to one, the stop itself among them.
pub fn each_day(last: u32) -> Vec<f64> {
    (0..=last).map(f64::from).collect()
}

fn kept(mix: &Mix, stop_h: f64, days: &[f64], kept_c: f64, tolerance: Tolerance) -> Result<Keeping, Error> {
    let course = course(mix, stop_h, days.last().copied().unwrap_or(0.0), kept_c);
    let chilled_h = stop_h + mix.chill.hours.max(0.01);
    let mut times: Vec<f64> = (0..WARM_POINTS).map(|i| stop_h * i as f64 / WARM_POINTS as f64).collect();
    let chill = chilled_h - stop_h;
    times.extend((0..CHILL_POINTS).map(|i| stop_h + chill * i as f64 / CHILL_POINTS as f64));
    times.push(chilled_h);
    times.extend(days.iter().map(|d| stop_h + d * HOURS_A_DAY).filter(|t| *t > chilled_h + 1e-9));
    let all = kinetics(&Pot::along(mix, &course), &course, &times, tolerance)?;
    Ok(read(mix, &all, stop_h))
}

fn read(mix: &Mix, all: &Forecast, stop_h: f64) -> Keeping {
    let finished = super::texture::finished::finished(&mix.texture, &mix.after);
    let pot = PotTexture::new(&mix.texture, &mix.laws);
    let eaten = PotTexture::new(&finished, &mix.laws);
    let mut trace = Trace::new(all);
    let mut out = Keeping::default();
    let cold = |from: usize, ys: &[f64]| ys.get(from..).unwrap_or_default().to_vec();
    let from = WARM_POINTS + CHILL_POINTS;
    for i in 0..all.t.len() {
        trace.advance(mix, all, i);
        let days = ((all.t[i] - stop_h) / HOURS_A_DAY).max(0.0);
        let moment = super::texture::pot::Moment { days, ..trace.moment(all, i) };
        let texture = trace.settle(if i < WARM_POINTS { &pot } else { &eaten }, all, i, &moment);
        if i >= from {
            out.days.push(days);
            out.texture.push(texture);
        }
    }
    out.ph = cold(from, &all.ph);
    out.acid_made = cold(from, &all.acid_made);
    out.titratable = cold(from, &all.titratable);
    out.undissociated = cold(from, &all.undissociated);
    out.sugar_total = cold(from, &all.sugar_total);
    out.species = all
        .species
        .iter()
        .map(|s| Species { log10: cold(from, &s.log10), acid: cold(from, &s.acid), ..s.clone() })
        .collect();
    out
}
