//! From mix to forecast: runs the system over the course and reads texture and taste off it.

use super::acid_base::{sites, titration};
use super::forecast::{Forecast, Species, TextureCurves};
use super::mix::Mix;
use super::system::{Pot, Stretch};
use super::texture::pot::Moment;
use super::texture::{PotTexture, Texture, finished, gel, whey_protein};
use super::thermal::Course;
use potset_base::Sugar;
use potset_numerics::Error;
use potset_numerics::ode::{Tolerance, integrate};

/// Points of a forecast over its horizon.
pub const POINTS: usize = 240;

/// Times nearer to each other than this are one, h.
const SAME_H: f64 = 1e-9;

/// Local tolerances of a forecast; the fixtures and the reference cases show what comes of them.
pub const TOLERANCE: Tolerance = Tolerance { relative: 1e-7, absolute: 1e-7 };

/// Steps of a coarse forecast over its horizon. They grow with time as souring slows: from `t` on by a share of
/// `t + COARSE_EARLY_H`.
const COARSE_POINTS: usize = 72;
const COARSE_EARLY_H: f64 = 12.0;

/// Local tolerances of a coarse forecast.
pub(super) const COARSE_TOLERANCE: Tolerance = Tolerance { relative: 1e-4, absolute: 1e-4 };

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
            19..=26 => {
                const $N: usize = 26;
                $body
            }
            _ => {
                const $N: usize = super::system::MOST_STATES;
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
    simulate_also_at(mix, &[])
}

/// The same with points at these times too, h from 0 on: what is read there lies on no line between other points.
///
/// # Errors
/// As [`simulate`].
pub fn simulate_also_at(mix: &Mix, more: &[f64]) -> Result<Forecast, Error> {
    let mut times: Vec<f64> = (0..=POINTS).map(|i| mix.horizon_h * i as f64 / POINTS as f64).collect();
    if !more.is_empty() {
        times.extend(more);
        times.sort_by(f64::total_cmp);
        times.dedup_by(|a, b| (*a - *b).abs() < SAME_H);
    }
    forecast(mix, &times, TOLERANCE)
}

/// The same with fewer points, the stop among them, and wider tolerances: for work that asks for thousands of forecasts.
///
/// Against [`simulate`], the largest differences over all demo designs and 200 random edits of them (measured,
/// `tests/it/coarse.rs`): pH at the stop 0.0006, time to pH 4.6 0.02 h, sugar left 0.002 g/kg, chilled viscosity at the
/// stop 0.06 %; pH on straight lines between the points 0.02. The acid by organism, a sum over the points, is the coarsest.
///
/// # Errors
/// As [`simulate`].
pub fn simulate_coarse(mix: &Mix) -> Result<Forecast, Error> {
    simulate_at(mix, &coarse_times(mix, COARSE_POINTS), COARSE_TOLERANCE)
}

/// The same at given times, rising from 0, with given tolerances.
///
/// # Errors
/// As [`simulate`].
pub fn simulate_at(mix: &Mix, times: &[f64], tolerance: Tolerance) -> Result<Forecast, Error> {
    forecast(mix, times, tolerance)
}

/// Times of a coarse forecast with so many steps: they grow with time, and the one nearest to the stop is moved there.
pub fn coarse_times(mix: &Mix, steps: usize) -> Vec<f64> {
    let end = mix.horizon_h;
    let mut times = growing_times(end, steps);
    if mix.stop_h > 0.0 && mix.stop_h < end {
        let next = times.partition_point(|t| *t < mix.stop_h).min(steps);
        let nearer = next > 1 && mix.stop_h - times[next - 1] < times[next] - mix.stop_h || next == steps;
        times[if nearer { next - 1 } else { next }] = mix.stop_h;
    }
    times
}

/// So many steps from 0 to an end that grow with time as souring slows.
pub fn growing_times(end: f64, steps: usize) -> Vec<f64> {
    let growth = 1.0 + end / COARSE_EARLY_H;
    let at = |i: usize| COARSE_EARLY_H * (growth.powf(i as f64 / steps as f64) - 1.0);
    let mut times: Vec<f64> = (0..steps).map(at).collect();
    times.push(end);
    times
}

fn forecast(mix: &Mix, times: &[f64], tolerance: Tolerance) -> Result<Forecast, Error> {
    let pot = Pot::new(mix);
    let mut forecast = with_size!(pot.len(), N => sized::<N>(&pot, &mix.course, times, tolerance))?;
    textures(mix, &mut forecast);
    Ok(forecast)
}

/// Only pH, acids, sugars and counts, at given times, with given tolerances.
///
/// # Errors
/// As [`simulate`].
pub fn simulate_kinetics(mix: &Mix, times: &[f64], tolerance: Tolerance) -> Result<Forecast, Error> {
    let pot = Pot::new(mix);
    with_size!(pot.len(), N => sized::<N>(&pot, &mix.course, times, tolerance))
}

/// Counts, sugars and acids along a course at given times.
pub(super) fn kinetics(
    pot: &Pot,
    course: &Course,
    times: &[f64],
    tolerance: Tolerance,
) -> Result<Forecast, Error> {
    with_size!(pot.len(), N => sized::<N>(pot, course, times, tolerance))
}

fn sized<const N: usize>(
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
        let stretch = Stretch::new(pot, course, course.piece_at(from));
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
    let (mut warm_at, mut warmths) = (f64::NAN, Default::default());
    let mut before: Option<(f64, [f64; super::system::MOST_ORGANISMS])> = None;
    for (t, y) in times.iter().zip(states) {
        let state = pot.unpack(y);
        let acidity = pot.acidity(&state);
        let ph = acidity.ph;
        let c = course.in_piece(course.piece_at(*t), *t);
        f.temperature.push(c);
        f.ph.push(ph);
        f.lactic.push(state.lactic);
        f.acetic.push(state.acetic);
        f.undissociated.push(acidity.undissociated);
        f.acid_made
            .push(titration::made_percent(state.lactic - mix.carried[0], state.acetic - mix.carried[1]));
        let gone = if mix.gassing.is_empty() { 0.0 } else { sites::bound(&mix.gassing, ph) };
        f.titratable.push(titration::percent(mix.start_acidity, state.lactic - gone, state.acetic));
        let mut total = 0.0;
        for (s, sugar) in Sugar::ALL.into_iter().enumerate() {
            let g = state.sugars[s] * sugar.g_mol() * 1e-3;
            total += g;
            f.sugars[s].push(g);
        }
        f.sugar_total.push(total);
        if c != warm_at {
            (warm_at, warmths) = (c, pot.warmths(c));
        }
        let doings = pot.doings(y, &state, acidity, &warmths);
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

/// What heat and acid have done so far, from point to point of a forecast.
pub(super) struct Trace {
    hottest_c: f64,
    coldest_c: f64,
    whey_integral: f64,
    made_at_c: Option<f64>,
    /// How far the gel had set when it was stirred or jolted, 0 to 1.
    broken: f64,
    /// Rise of a droplet of 1 µm since the pot was last stirred, mm, and its pace at the point before, mm/h.
    risen: f64,
    pace: Option<f64>,
}

impl Trace {
    /// Before the first point.
    pub(super) fn new(f: &Forecast) -> Self {
        let start = f.temperature.first().copied().unwrap_or(f64::NAN);
        Self {
            hottest_c: start,
            coldest_c: start,
            whey_integral: 0.0,
            made_at_c: None,
            broken: 0.0,
            risen: 0.0,
            pace: None,
        }
    }

    /// Takes a point in.
    pub(super) fn advance(&mut self, mix: &Mix, f: &Forecast, i: usize) {
        let c = f.temperature[i];
        self.hottest_c = self.hottest_c.max(c);
        self.coldest_c = self.coldest_c.min(c);
        if i == 0 {
            return;
        }
        self.whey_integral += whey_protein::rate(c, &mix.laws.whey) * (f.t[i] - f.t[i - 1]) * 3600.0;
        let denatured = gel::denatured(mix.texture.heat.whey_integral + self.whey_integral);
        let start_ph = gel::start_ph(&mix.texture, denatured, &mix.laws.gel);
        if self.made_at_c.is_none() && f.ph[i] < start_ph {
            let share = ((f.ph[i - 1] - start_ph) / (f.ph[i - 1] - f.ph[i])).clamp(0.0, 1.0);
            self.made_at_c = Some(f.temperature[i - 1] + share * (c - f.temperature[i - 1]));
        }
        for s in mix.texture.stirred_at.iter().filter(|s| f.t[i - 1] < **s && **s <= f.t[i]) {
            let share = (s - f.t[i - 1]) / (f.t[i] - f.t[i - 1]);
            let ph = f.ph[i - 1] + share * (f.ph[i] - f.ph[i - 1]);
            self.broken = self.broken.max(gel::development(ph, start_ph, &mix.laws.gel));
            // What was stirred is mixed again.
            (self.risen, self.pace) = (0.0, None);
        }
    }

    /// Takes in how fast droplets rise at a point: the texture there, with the thin layer so far.
    pub(super) fn settle(&mut self, pot: &PotTexture<'_>, f: &Forecast, i: usize, at: &Moment) -> Texture {
        let texture = pot.at(at);
        let now = texture.clearing.rate;
        if i > 0 {
            self.risen += 0.5 * (self.pace.unwrap_or(now) + now) * (f.t[i] - f.t[i - 1]);
        }
        self.pace = Some(now);
        pot.separated(texture, self.risen)
    }

    /// The moment of a point, warm.
    pub(super) fn moment(&self, f: &Forecast, i: usize) -> Moment {
        Moment {
            t_h: f.t[i],
            ph: f.ph[i],
            c: f.temperature[i],
            hottest_c: self.hottest_c,
            coldest_c: self.coldest_c,
            made_at_c: self.made_at_c.unwrap_or(f.temperature[i]),
            whey_integral: self.whey_integral,
            days: 0.0,
            stirred: self.broken,
        }
    }
}

/// Rise of a droplet of 1 µm in the chill, mm: its pace goes from warm to cold as the temperature does.
///
/// `v_c h + (v_w − v_c) τ (1 − e^(−h/τ))`; Source: derived, Newton's law of cooling with a pace that is linear in it.
fn rise_in_chill(mix: &Mix, warm: f64, cold: f64) -> f64 {
    let (hours, tau) = (mix.chill.hours, mix.chill.tau_h.max(1e-3));
    cold * hours + (warm - cold) * tau * (1.0 - (-hours / tau).exp())
}

/// Adds the texture curves: in the pot, and chilled as it is eaten.
fn textures(mix: &Mix, f: &mut Forecast) {
    let mut trace = Trace::new(f);
    let changed = finished::differs(&mix.after).then(|| finished::finished(&mix.texture, &mix.after));
    let pot = PotTexture::new(&mix.texture, &mix.laws);
    let eaten = PotTexture::new(changed.as_ref().unwrap_or(&mix.texture), &mix.laws);
    let (mut warm, mut chilled) = (TextureCurves::default(), TextureCurves::default());
    for i in 0..f.t.len() {
        trace.advance(mix, f, i);
        let moment = trace.moment(f, i);
        let in_pot = trace.settle(&pot, f, i, &moment);
        let cold = Moment {
            c: mix.texture.chilled_c,
            coldest_c: moment.coldest_c.min(mix.texture.chilled_c),
            days: mix.texture.cold_days,
            ..moment
        };
        let cold = eaten.at(&cold);
        let risen = trace.risen + rise_in_chill(mix, in_pot.clearing.rate, cold.clearing.rate);
        warm.push(in_pot);
        chilled.push(eaten.separated(cold, risen));
    }
    f.warm = warm;
    f.chilled = chilled;
}
