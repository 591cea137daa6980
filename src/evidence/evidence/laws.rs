//! Forecasts that need no run: heat, composition classes, texture at a moment, single laws.

use potset_base::Note;
use potset_doc::evidence::{Food, Pot, What};
use potset_forecast::{Facts, params, timeline};
use potset_science::Mix;
use potset_science::params::Laws;
use potset_science::texture::pot::Moment;
use potset_science::texture::{PotTexture, emulsion, sensory, serum, whey_protein};
use potset_science::thermal::choi_okos::{self, Shares};
use potset_science::thermal::course::time_to;
use potset_science::thermal::{Course, Piece};

/// The laws as they are likely.
///
/// # Errors
/// A note if the shipped parameters were damaged.
pub fn likely() -> Result<Laws, Note> {
    params::shipped().map(|p| p.laws()).map_err(Clone::clone)
}

fn misplaced(what: &What) -> Note {
    Note::error(what.words(), "This reading does not belong to this setup", "Mend the case")
}

/// A reading of a food given by its composition.
///
/// # Errors
/// A note if the reading is not one of these.
pub fn of_food(food: &Food, what: &What) -> Result<Option<f64>, Note> {
    let Food { water, protein, fat, carbohydrate, fibre, ash } = *food;
    let shares = Shares { water, protein, fat, carbohydrate, fibre, ash };
    match what {
        What::SpecificHeat(c) => Ok(Some(choi_okos::specific_heat(&shares, *c))),
        _ => Err(misplaced(what)),
    }
}

/// A reading that says all of its conditions itself.
///
/// # Errors
/// A note if the reading is not one of these.
pub fn alone(what: &What, laws: &Laws) -> Result<Option<f64>, Note> {
    Ok(Some(match what {
        What::Native { c, minutes } => {
            let mut course = Course::from(0.0);
            course.add(Piece::Line { from_c: *c, to_c: *c }, minutes / 60.0);
            100.0 * (1.0 - whey_protein::degree(whey_protein::integral(&course, &laws.whey)))
        }
        What::Mixed([m1, h1, t1], [m2, h2, t2]) => choi_okos::mixed(*m1, *h1, *t1, *m2, *h2, *t2),
        What::Boils(m) => timeline::boiling_point(*m),
        What::LineSpread(pa_s) => sensory::line_spread_cm(*pa_s),
        What::Emulsion { fat, c } => {
            // Fat of 0.93 g/mL in a serum of 1.035 (derived, dairy handbooks).
            let (oil, serum) = (fat / 0.93, (100.0 - fat) / 1.035);
            let law = &laws.fat;
            serum::plain(1.0, *c, law) * emulsion::thickening(oil / (oil + serum), law.cluster_dairy, law)
        }
        _ => return Err(misplaced(what)),
    }))
}

/// A reading of the facts about a compiled pot.
pub fn of_facts(what: &What, facts: &Facts, mix: &Mix, hold_c: f64) -> Option<f64> {
    let yes = |holds: bool| Some(if holds { 1.0 } else { 0.0 });
    match what {
        What::HoursToChill(c) => time_to(hold_c, *c, mix.chill.around_c, mix.chill.tau_h),
        What::Class(class) => yes(facts.cream.first()?.class == class),
        What::Misses(limit) => {
            let misses = &facts.cream.first()?.misses;
            yes(misses.starts_with(limit.as_str()) && !misses.contains(','))
        }
        _ => None,
    }
}

/// A reading of the texture of a pot that has come to its end pH at the temperature of its hold.
pub fn of_texture(what: &What, pot: &Pot, mix: &Mix) -> Option<f64> {
    let whole = PotTexture::new(&mix.texture, &mix.laws);
    let at = |c: f64, days: f64| {
        let moment = Moment {
            t_h: pot.hours,
            ph: pot.end_ph,
            c,
            hottest_c: pot.hold_c,
            coldest_c: c.min(pot.hold_c),
            made_at_c: pot.hold_c,
            whey_integral: 0.0,
            days,
            stirred: 0.0,
        };
        whole.at(&moment)
    };
    match what {
        What::Yield { c, days } => Some(at(*c, *days).yield_pa),
        What::Viscosity { shear, c, days } if *shear == 50.0 => Some(at(*c, *days).viscosity50),
        What::Viscosity { shear, c, days } if *shear == 10.0 => Some(at(*c, *days).viscosity10),
        What::Whey => Some(at(pot.store_c, 1.0).whey.centrifuged),
        What::ThinLayer(hours) => {
            let still = at(pot.hold_c, 0.0);
            let risen = still.clearing.rate * hours;
            Some(whole.separated(still, risen).thin_layer)
        }
        _ => None,
    }
}
