//! Lactase: lactose is split into glucose and galactose, before the culture or beside it.

use super::cardinal;
use crate::params::LactaseLaw;
use crate::thermal::Course;
use potset_base::Sugar;
use potset_base::constants::{GAS_CONSTANT, ZERO_CELSIUS_K};
use potset_numerics::interpolate::logistic;
use potset_numerics::{Error, root};

/// Warmth factor of the enzyme, 1 near its reference temperature.
///
/// `e^(−Ea/R (1/T − 1/Tref)) / (1 + e^((T − Tend)/1.5))`
///
/// - Source: assumed form; constants in `assets/parameters.ron`.
pub fn warmth(c: f64, law: &LactaseLaw) -> f64 {
    let (kelvin, reference) = (c + ZERO_CELSIUS_K, law.reference_c + ZERO_CELSIUS_K);
    (-law.energy * 1e3 / GAS_CONSTANT * (1.0 / kelvin - 1.0 / reference)).exp() * kept(c, law)
}

/// Share of the enzyme that lives through a temperature, 0 to 1.
pub fn kept(c: f64, law: &LactaseLaw) -> f64 {
    logistic(-c, -law.end_c, 1.5)
}

/// Lactose split, mmol/(kg h).
///
/// `v = Vmax E S/(Km (1 + P/Ki) + S)`, E in units per kg, S lactose, P galactose, times warmth and the cardinal pH curve
///
/// - Source: published form, Michaelis and Menten 1913 with competitive product inhibition; Vmax fitted, see
///   `assets/parameters.ron`.
pub fn rate(units_kg: f64, lactose: f64, galactose: f64, c: f64, ph: f64, law: &LactaseLaw) -> f64 {
    let lactose = lactose.max(0.0);
    let held = law.half_saturation * (1.0 + galactose.max(0.0) / law.product_half) + lactose;
    units_kg * law.rate_per_unit * warmth(c, law) * by_ph(ph, law) * lactose / held
}

fn by_ph(ph: f64, law: &LactaseLaw) -> f64 {
    cardinal::ph(ph, [law.ph_min, law.ph_opt, law.ph_max])
}

/// Sugars after a course at one pH, mmol/kg: the rate law integrated.
///
/// `Km (1 + (S0 + P0)/Ki) ln(S0/S) + (1 − Km/Ki)(S0 − S) = E Vmax γ(pH) ∫ γ(T) dt`
///
/// # Errors
/// [`Error::NoRoot`] if an amount is not a number.
pub fn after(
    units_kg: f64,
    mut sugars: [f64; 8],
    course: &Course,
    ph: f64,
    law: &LactaseLaw,
) -> Result<[f64; 8], Error> {
    const PARTS: u32 = 24;
    let start = sugars[Sugar::Lactose.index()];
    if units_kg <= 0.0 || start <= 0.0 {
        return Ok(sugars);
    }
    let mut done = 0.0;
    let mut living = 1.0_f64;
    for (i, (from, to)) in course.spans().enumerate() {
        let width = (to - from) / f64::from(PARTS);
        for k in 0..PARTS {
            let c = course.in_piece(i, from + (f64::from(k) + 0.5) * width);
            // What heat has destroyed stays destroyed.
            living = living.min(kept(c, law));
            done += width * living * warmth(c, law) / kept(c, law).max(1e-12);
        }
    }
    let capacity = units_kg * law.rate_per_unit * by_ph(ph, law) * done;
    let held = law.half_saturation * (1.0 + (start + sugars[Sugar::Galactose.index()]) / law.product_half);
    let free = 1.0 - law.half_saturation / law.product_half;
    let missing = |log: f64| capacity - held * log - free * start * (1.0 - (-log).exp());
    // At ln(S0/S) = capacity/held + start/held the left side has overshot for any sign of `free`.
    let most = (capacity + free.abs() * start) / held + 1e-9;
    let left = start * (-root::between(missing, 0.0, most, 1e-12)?).exp();
    let split = start - left;
    sugars[Sugar::Lactose.index()] = left;
    sugars[Sugar::Glucose.index()] += split;
    sugars[Sugar::Galactose.index()] += split;
    Ok(sugars)
}
