//! From mix to forecast: runs the system over the course and reads texture and taste off it.

use super::acid_base::charge_balance::dissociated;
use super::acid_base::titration;
use super::forecast::{Forecast, Species, TextureCurves};
use super::mix::Mix;
use super::system::{Pot, Stretch};
use super::texture::pot::{Moment, texture};
use super::texture::{gel, whey_protein};
use super::thermal::Course;
use crate::base::Sugar;
use crate::numerics::Error;
use crate::numerics::ode::{Tolerance, integrate};

/// Points of a forecast over its horizon.
pub const POINTS: usize = 240;

/// Local tolerances of a forecast; the fixtures and the reference cases show what comes of them.
pub const TOLERANCE: Tolerance = Tolerance { relative: 1e-7, absolute: 1e-7 };

/// Runs `$body` with the smallest state size that holds the pot.
macro_rules! with_size {
    ($len:expr, $N:ident => $body:expr) => {
        match $len {
            0..=8 => {
                const $N: usize = 8;
                $body
            }
            9..=12 => {
                const $N: usize = 12;
                $body
            }
            13..=18 => {
                const $N: usize = 18;
                $body
            }
            _ => {
                const $N: usize = 28;
                $body
            }
        }
    };
}

/// The forecast of a mix, up to its horizon, as if the hold went on.
///
/// # Errors
/// [`Error::Integration`]; it does not happen for mixes that `compile` has passed.
pub fn simulate(mix: &Mix) -> Result<Forecast, Error> {
    let times: Vec<f64> = (0..=POINTS).map(|i| mix.horizon_h * i as f64 / POINTS as f64).collect();
    let pot = Pot::new(mix);
    let mut forecast = with_size!(pot.len(), N => kinetics::<N>(&pot, &mix.course, &times, TOLERANCE))?;
    textures(mix, &mut forecast);
    Ok(forecast)
}

/// Only pH, acids, sugars and counts, at given times, with given tolerances.
///
/// # Errors
/// As [`simulate`].
pub fn simulate_kinetics(mix: &Mix, times: &[f64], tolerance: Tolerance) -> Result<Forecast, Error> {
    let pot = Pot::new(mix);
    with_size!(pot.len(), N => kinetics::<N>(&pot, &mix.course, times, tolerance))
}

/// pH and acid made after the hold was stopped at a time and the pot was chilled for its hours: (pH, % acid made).
///
/// # Errors
/// As [`simulate`].
pub fn after_chill(mix: &Mix, stop_h: f64) -> Result<(f64, f64), Error> {
    let pot = Pot::new(mix);
    let mut course = Course::from(0.0);
    for (i, (start, end)) in mix.course.spans().enumerate() {
        if start < stop_h {
            course.add_head(&mix.course, i, end.min(stop_h) - start);
        }
    }
    let from = mix.course.at(stop_h);
    course.newton(from, mix.chill.around_c, mix.chill.tau_h, mix.chill.hours.max(0.01));
    let end = course.end_h();
    let forecast = with_size!(pot.len(), N => kinetics::<N>(&pot, &course, &[end], TOLERANCE))?;
    let last = |ys: &[f64]| ys.last().copied().unwrap_or(f64::NAN);
    Ok((last(&forecast.ph), last(&forecast.acid_made)))
}

fn kinetics<const N: usize>(
    pot: &Pot,
    course: &Course,
    times: &[f64],
    tolerance: Tolerance,
) -> Result<Forecast, Error> {
    let mix = pot.mix;
    let end = times.last().copied().unwrap_or(0.0);
    let mut stops: Vec<f64> =
        course.breaks().iter().copied().chain(mix.additions.iter().map(|a| a.at_h)).collect();
    // What happens within a blink of the start or the end happens at it.
    stops.retain(|s| *s > 1e-9 && *s < end - 1e-9);
    stops.push(end);
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let mut y: [f64; N] = pot.start();
    let mut states: Vec<[f64; N]> = Vec::with_capacity(times.len());
    let mut from = 0.0;
    let mut next = 0;
    if times.first().is_some_and(|t| *t <= 0.0) {
        states.push(y);
        next = 1;
    }
    for stop in stops {
        for addition in
            mix.additions.iter().filter(|a| (a.at_h - from).abs() < 1e-9 || from == 0.0 && a.at_h <= 0.0)
        {
            pot.add(&mut y, addition);
        }
        let upto = times.partition_point(|t| *t <= stop);
        let stretch = Stretch { pot, course, piece: course.piece_at(from) };
        y = integrate(&stretch, (from, stop), y, &times[next..upto], tolerance, &mut states)?;
        next = upto;
        from = stop;
    }
    Ok(read(pot, course, times, &states))
}

/// Reads the curves off the states.
fn read<const N: usize>(pot: &Pot, course: &Course, times: &[f64], states: &[[f64; N]]) -> Forecast {
    let mix = pot.mix;
    let mut f = Forecast {
        t: times.to_vec(),
        density: mix.density,
        stop_h: mix.stop_h,
        horizon_h: mix.horizon_h,
        added_g_l: mix.added_g_l,
        sugars_there: pot.present.iter().map(|s| Sugar::ALL[*s]).collect(),
        ..Forecast::default()
    };
    f.species = mix
        .organisms
        .iter()
        .map(|o| Species { key: o.key.clone(), name: o.name.clone(), log10: Vec::new(), acid: Vec::new() })
        .collect();
    let n = mix.organisms.len();
    let mut before: Option<(f64, [f64; super::system::MOST_ORGANISMS])> = None;
    for (t, y) in times.iter().zip(states) {
        let state = pot.unpack(y);
        let ph = pot.ph(&state);
        let c = course.in_piece(course.piece_at(*t), *t);
        f.temperature.push(c);
        f.ph.push(ph);
        f.lactic.push(state.lactic);
        f.acetic.push(state.acetic);
        f.undissociated.push(state.lactic * (1.0 - dissociated(ph, mix.balance.lactic_pka)));
        f.acid_made.push(titration::made_percent(state.lactic, state.acetic));
        f.titratable.push(titration::percent(mix.start_acidity, state.lactic, state.acetic));
        let mut total = 0.0;
        for (s, sugar) in Sugar::ALL.into_iter().enumerate() {
            let g = state.sugars[s] * sugar.g_mol() * 1e-3;
            total += g;
            f.sugars[s].push(g);
        }
        f.sugar_total.push(total);
        let doings = pot.doings(y, c);
        let rates: [f64; super::system::MOST_ORGANISMS] = std::array::from_fn(|i| {
            mix.organisms
                .get(i)
                .map_or(0.0, |o| doings[i].lactic * (1.0 + o.acetic_per_hexose / o.lactic_per_hexose))
        });
        for i in 0..n {
            f.species[i].log10.push(y[i] / std::f64::consts::LN_10);
            let so_far = f.species[i].acid.last().copied().unwrap_or(0.0);
            let more = before.map_or(0.0, |(t0, r0)| 0.5 * (r0[i] + rates[i]) * (t - t0));
            f.species[i].acid.push(so_far + more);
        }
        before = Some((*t, rates));
    }
    f
}

/// Adds the texture curves: in the pot, and chilled.
fn textures(mix: &Mix, f: &mut Forecast) {
    let start = f.temperature.first().copied().unwrap_or(f64::NAN);
    let (mut hottest, mut coldest, mut integral) = (start, start, 0.0);
    let mut made_at: Option<f64> = None;
    let (mut warm, mut chilled) = (TextureCurves::default(), TextureCurves::default());
    for i in 0..f.t.len() {
        let c = f.temperature[i];
        hottest = hottest.max(c);
        coldest = coldest.min(c);
        if i > 0 {
            integral += whey_protein::rate(c, &mix.laws.whey) * (f.t[i] - f.t[i - 1]) * 3600.0;
        }
        let denatured = gel::denatured(mix.texture.heat.whey_integral + integral);
        let start_ph = gel::dairy_start_ph(denatured, &mix.laws.gel);
        if made_at.is_none() && i > 0 && f.ph[i] < start_ph {
            let share = ((f.ph[i - 1] - start_ph) / (f.ph[i - 1] - f.ph[i])).clamp(0.0, 1.0);
            made_at = Some(f.temperature[i - 1] + share * (c - f.temperature[i - 1]));
        }
        let moment = Moment {
            t_h: f.t[i],
            ph: f.ph[i],
            c,
            hottest_c: hottest,
            coldest_c: coldest,
            made_at_c: made_at.unwrap_or(c),
            whey_integral: integral,
            days: 0.0,
        };
        warm.push(texture(&mix.texture, &moment, &mix.laws));
        let cold = Moment {
            c: mix.texture.chilled_c,
            coldest_c: coldest.min(mix.texture.chilled_c),
            days: mix.texture.cold_days,
            ..moment
        };
        chilled.push(texture(&mix.texture, &cold, &mix.laws));
    }
    f.warm = warm;
    f.chilled = chilled;
}
