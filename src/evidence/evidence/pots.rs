//! Forecasts for the readings of a pot: its hold, its days in the cold, its balance, its texture.

use super::laws;
use potset_base::{Note, Sugar};
use potset_doc::Pantry;
use potset_doc::evidence::{Pot, Reading, Stop, What};
use potset_forecast::evidence::{Knobs, pot as compiled};
use potset_forecast::{Compiled, Facts};
use potset_numerics::interpolate::{curve, first_below};
use potset_numerics::ode::Tolerance;
use potset_numerics::root;
use potset_science::acid_base::titration;
use potset_science::simulate::simulate_kinetics;
use potset_science::thermal::Course;
use potset_science::thermal::course::Piece;
use potset_science::{Forecast, Mix};

/// Points of a hold: straight lines between them are within 0.002 pH of the curve.
const POINTS: usize = 240;

/// A tenth of what would show in any reading.
const TOLERANCE: Tolerance = Tolerance { relative: 1e-6, absolute: 1e-6 };

/// Forecasts of all readings of a pot; `None` where the pot never comes to one.
///
/// # Errors
/// A note if the pot does not compile or its integration fails.
pub fn forecasts(
    pot: &Pot,
    readings: &[Reading],
    knobs: &Knobs,
    pantry: &Pantry,
) -> Result<Vec<Option<f64>>, Note> {
    let (mix, facts) = mixed(pot, pot.hold_c, knobs, pantry)?;
    let at = |c: f64| mixed(pot, c, knobs, pantry).map(|(mix, _)| mix);
    of_mix(
        pot,
        readings,
        &CandidatePot { mix: &mix, facts: &facts, at: &at, tolerance: TOLERANCE, stop_within_h: 1e-3 },
    )
}

/// A case's pot as it was made, and a way to make it at another hold temperature.
pub struct CandidatePot<'a> {
    pub mix: &'a Mix,
    pub facts: &'a Facts,
    pub at: &'a dyn Fn(f64) -> Result<Mix, Note>,
    pub tolerance: Tolerance,
    /// How exactly a stop that is not told is found, h.
    pub stop_within_h: f64,
}

/// Forecasts of all readings of a pot that is made.
///
/// # Errors
/// As [`forecasts`].
pub fn of_mix(pot: &Pot, readings: &[Reading], made: &CandidatePot<'_>) -> Result<Vec<Option<f64>>, Note> {
    let followed = readings.iter().any(|r| follows_the_hold(&r.what));
    let hold = if followed { Some(held(made.mix, pot.hours, made.tolerance)?) } else { None };
    let days = days_of(readings);
    let stored = match &hold {
        Some(hold) if !days.is_empty() => stored(pot, made, hold, &days)?,
        _ => None,
    };
    let all = Pots { pot, made, hold, stored };
    readings.iter().map(|reading| all.forecast(&reading.what)).collect()
}

fn mixed(pot: &Pot, hold_c: f64, knobs: &Knobs, pantry: &Pantry) -> Result<(Mix, Facts), Note> {
    let Compiled { mix, facts, .. } = compiled(pot, hold_c, knobs, pantry)?;
    let mix = mix.ok_or_else(|| Note::error("pot", "The case cannot be worked out", "Mend the case"))?;
    Ok((mix, facts))
}

fn trouble(e: &potset_numerics::Error) -> Note {
    Note::error("pot", format!("The forecast could not be computed: {e}"), "Mend the case")
}

fn held(mix: &Mix, hours: f64, tolerance: Tolerance) -> Result<Forecast, Note> {
    let times: Vec<f64> = (0..=POINTS).map(|i| hours * i as f64 / POINTS as f64).collect();
    simulate_kinetics(mix, &times, tolerance).map_err(|e| trouble(&e))
}

pub(super) const fn follows_the_hold(what: &What) -> bool {
    matches!(
        what,
        What::Ph(_)
            | What::Acidity(_)
            | What::AcidMade(_)
            | What::Count(_)
            | What::Sugar(..)
            | What::LactoseUsed(_)
            | What::SugarUsedAt(..)
            | What::HoursTo(_)
            | What::SteepestFall
            | What::HoursToSteepest
            | What::PhAtSteepest
            | What::PhAsSoonAs { .. }
            | What::GalactoseAtLactose(_)
            | What::LacticAtLactose(_)
            | What::StoredPh(_)
            | What::StoredAcidity(_)
            | What::StoredAcidGain(_)
            | What::StoredChange(..)
            | What::StoredCountGain { .. }
    )
}

/// Days in the cold that readings ask for, and the end of the hold, rising.
fn days_of(readings: &[Reading]) -> Vec<f64> {
    let mut days = Vec::new();
    for reading in readings {
        match reading.what {
            What::StoredPh(d)
            | What::StoredAcidity(d)
            | What::StoredAcidGain(d)
            | What::StoredChange(_, d) => days.push(d),
            What::StoredCountGain { from, to, .. } => days.extend([from, to]),
            _ => {}
        }
    }
    if !days.is_empty() {
        days.push(0.0);
    }
    days.sort_by(f64::total_cmp);
    days.dedup();
    days
}

/// A pot in the cold: its curves against days since the end of the hold.
struct Stored {
    forecast: Forecast,
    days: Vec<f64>,
}

/// The pot in the cold: held until its stop, then cooled as a litre in a fridge and kept; `None` if the hold never
/// comes to its stop.
fn stored(pot: &Pot, made: &CandidatePot<'_>, hold: &Forecast, days: &[f64]) -> Result<Option<Stored>, Note> {
    let last = hold.t.last().copied().unwrap_or(0.0);
    let stop_h = match pot.stop {
        Some(Stop::Hours(h)) => h,
        Some(Stop::AtPh(ph)) => match first_below(&hold.t, &hold.ph, ph) {
            Some(h) => h,
            None => return Ok(None),
        },
        Some(Stop::ToMeet { ph, day }) => {
            let off = |stop_h: f64| {
                kept(made, stop_h, pot.store_c, &[day]).map_or(f64::NAN, |s| s.forecast.ph[0] - ph)
            };
            // A stop before the pot is well under way cannot be what the source did.
            let early = first_below(&hold.t, &hold.ph, made.mix.balance.ph0 - 0.3).unwrap_or(0.5);
            match root::between(off, early, last, made.stop_within_h) {
                Ok(h) => h,
                Err(_) => return Ok(None),
            }
        }
        None => last,
    };
    kept(made, stop_h, pot.store_c, days).map(Some)
}

fn kept(made: &CandidatePot<'_>, stop_h: f64, store_c: f64, days: &[f64]) -> Result<Stored, Note> {
    let mix = made.mix;
    let mut cold = mix.clone();
    cold.course = Course::from(0.0);
    let from = mix.course.at(stop_h);
    cold.course.add(Piece::Line { from_c: from, to_c: from }, stop_h);
    let times: Vec<f64> = days.iter().map(|d| stop_h + d * 24.0).collect();
    let end = times.last().copied().unwrap_or(stop_h);
    cold.course.newton(from, store_c, mix.chill.tau_h, end - stop_h + 1.0);
    let forecast = simulate_kinetics(&cold, &times, made.tolerance).map_err(|e| trouble(&e))?;
    Ok(Stored { forecast, days: days.to_vec() })
}

struct Pots<'a> {
    pot: &'a Pot,
    made: &'a CandidatePot<'a>,
    hold: Option<Forecast>,
    stored: Option<Stored>,
}

impl Pots<'_> {
    fn forecast(&self, what: &What) -> Result<Option<f64>, Note> {
        let mix = self.made.mix;
        Ok(match what {
            What::AcidityAt(ph) => Some(mix.acidity_at(*ph)),
            What::AcidMadeAt(ph) => Some(titration::made_percent(mix.balance.lactic_to(*ph), 0.0)),
            What::FastestOf { among, to_ph } => self.fastest(among, *to_ph)?,
            What::PhAsSoonAs { c, ph } => self.as_soon_as(*c, *ph)?,
            What::HoursToChill(_) | What::Class(_) | What::Misses(_) => {
                laws::of_facts(what, self.made.facts, mix, self.pot.hold_c)
            }
            What::Yield { .. } | What::Viscosity { .. } | What::Whey | What::ThinLayer(_) => {
                laws::of_texture(what, self.pot, mix)
            }
            _ => self.in_hold(what).or_else(|| self.in_cold(what)),
        })
    }

    fn in_hold(&self, what: &What) -> Option<f64> {
        let f = self.hold.as_ref()?;
        let at = |ys: &[f64], h: f64| Some(curve(&f.t, ys, h));
        let lactose = &f.sugars[Sugar::Lactose.index()];
        let start = lactose.first().copied().unwrap_or(0.0);
        match what {
            What::Ph(h) => at(&f.ph, *h),
            What::Acidity(h) => at(&f.titratable, *h),
            What::AcidMade(h) => at(&f.acid_made, *h),
            What::Count(h) => Some(living(f, None, &f.t, *h)),
            What::Sugar(sugar, h) => at(&f.sugars[sugar.index()], *h).map(|g| 0.1 * g),
            What::SugarUsedAt(sugar, ph) => {
                let ys = &f.sugars[sugar.index()];
                let left = at(ys, first_below(&f.t, &f.ph, *ph)?)?;
                ys.first().filter(|start| **start > 0.0).map(|start| 100.0 * (1.0 - left / start))
            }
            What::LactoseUsed(h) => at(lactose, *h).map(|g| 100.0 * (1.0 - g / start)),
            What::HoursTo(ph) => first_below(&f.t, &f.ph, *ph),
            What::SteepestFall => steepest(f).map(|(fall, _, _)| fall),
            What::HoursToSteepest => steepest(f).map(|(_, h, _)| h),
            What::PhAtSteepest => steepest(f).map(|(_, _, ph)| ph),
            What::GalactoseAtLactose(g) => {
                let h = first_below(&f.t, lactose, 10.0 * g)?;
                at(&f.sugars[Sugar::Galactose.index()], h).map(|g| 0.1 * g)
            }
            What::LacticAtLactose(g) => at(&f.acid_made, first_below(&f.t, lactose, 10.0 * g)?),
            _ => None,
        }
    }

    fn in_cold(&self, what: &What) -> Option<f64> {
        let Stored { forecast: f, days } = self.stored.as_ref()?;
        let at = |ys: &[f64], d: f64| curve(days, ys, d);
        match what {
            What::StoredPh(d) => Some(at(&f.ph, *d)),
            What::StoredAcidity(d) => Some(at(&f.titratable, *d)),
            What::StoredAcidGain(d) => Some(at(&f.acid_made, *d) - at(&f.acid_made, 0.0)),
            What::StoredChange(sugar, d) => {
                let ys = &f.sugars[sugar.index()];
                Some(0.1 * (at(ys, *d) - at(ys, 0.0)))
            }
            What::StoredCountGain { of, from, to } => {
                let log = |day: f64| living(f, of.as_deref(), days, day);
                Some(log(*to) - log(*from))
            }
            _ => None,
        }
    }

    /// The same pot at other temperatures: which is first at a pH.
    fn fastest(&self, among: &[f64], to_ph: f64) -> Result<Option<f64>, Note> {
        let mut best: Option<(f64, f64)> = None;
        for c in among {
            let f = held(&(self.made.at)(*c)?, self.pot.hours, self.made.tolerance)?;
            if let Some(h) = first_below(&f.t, &f.ph, to_ph)
                && best.is_none_or(|(least, _)| h < least)
            {
                best = Some((h, *c));
            }
        }
        Ok(best.map(|(_, c)| c))
    }

    /// pH of this pot when the same pot at another temperature has come to a pH.
    fn as_soon_as(&self, c: f64, ph: f64) -> Result<Option<f64>, Note> {
        let other = held(&(self.made.at)(c)?, self.pot.hours, self.made.tolerance)?;
        let own = self.hold.as_ref();
        Ok(first_below(&other.t, &other.ph, ph).and_then(|h| own.map(|f| curve(&f.t, &f.ph, h))))
    }
}

/// Living cells of one organism, or of all, at a place among `xs`, log10 cfu/g.
fn living(f: &Forecast, of: Option<&str>, xs: &[f64], at: f64) -> f64 {
    let asked = f.species.iter().filter(|s| of.is_none_or(|key| s.key == key));
    asked.map(|s| 10_f64.powf(curve(xs, &s.log10, at))).sum::<f64>().log10()
}

/// The steepest fall, pH/h, with its time and pH: the top of a parabola through the three steepest stretches, so that it
/// moves smoothly as a fit turns its knobs.
fn steepest(f: &Forecast) -> Option<(f64, f64, f64)> {
    let fall = |i: usize| (f.ph[i - 1] - f.ph[i]) / (f.t[i] - f.t[i - 1]);
    let i = (2..f.t.len().checked_sub(1)?).max_by(|a, b| fall(*a).total_cmp(&fall(*b)))?;
    let (before, here, after) = (fall(i - 1), fall(i), fall(i + 1));
    let bend = before - 2.0 * here + after;
    let aside = if bend < 0.0 { (0.5 * (before - after) / bend).clamp(-0.5, 0.5) } else { 0.0 };
    let h = 0.5 * (f.t[i - 1] + f.t[i]) + aside * (f.t[i] - f.t[i - 1]);
    Some((here - 0.25 * (before - after) * aside, h, curve(&f.t, &f.ph, h)))
}
