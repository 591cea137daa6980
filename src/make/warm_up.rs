//! The base on its way to the culture's warmth: minutes by each way, a bath from the kettle, a tin that nobody shakes.

use potset_base::Note;
use potset_doc::Design;
use potset_doc::steps::{Step, Way};
use potset_forecast::content::Content;
use potset_forecast::scenario::Scenario;
use potset_forecast::timeline::boiling_point;
use potset_forecast::{Compiled, compile};
use potset_numerics::root;
use potset_science::thermal::bath;
use potset_science::thermal::choi_okos::{Shares, specific_heat};
use potset_science::thermal::conduction::{Body, centre};

/// Points of a curve besides its start.
const POINTS: u32 = 24;

/// A base that is being warmed, or cooled.
#[derive(Clone, Debug, PartialEq)]
pub struct Warming {
    pub hours: f64,
    /// Hours and °C, from the start on.
    pub curve: Vec<(f64, f64)>,
}

/// How long the base of a design takes from one temperature to another, °C, by a way: by the same laws as its steps.
///
/// # Errors
/// The notes that say why it never gets there, or why the design has no forecast.
pub fn by_way(scenario: &Scenario<'_>, from_c: f64, to_c: f64, way: Way) -> Result<Warming, Vec<Note>> {
    let hours_to = |to_c: f64| -> Result<f64, Vec<Note>> {
        let design = only_this(scenario.design, from_c, to_c, way);
        let compiled = compile(&design, scenario.pantry, scenario.kitchen, scenario.learnt);
        let Compiled { mix: Some(_), facts, .. } = compiled else { return Err(compiled.notes) };
        Ok(facts.steps.get(1).map_or(0.0, |step| step.hours))
    };
    let hours = hours_to(to_c)?;
    let mut curve = vec![(0.0, from_c)];
    for k in 1..=POINTS {
        let c = from_c + (to_c - from_c) * f64::from(k) / f64::from(POINTS);
        curve.push((if k == POINTS { hours } else { hours_to(c)? }, c));
    }
    Ok(Warming { hours, curve })
}

/// The design with nothing before the culture but this one way from one temperature to the other.
fn only_this(design: &Design, from_c: f64, to_c: f64, way: Way) -> Design {
    let after = design.steps.iter().skip_while(|step| !matches!(step, Step::CultureIn)).cloned();
    let step = if to_c > from_c { Step::Warm { to_c, way } } else { Step::Cool { to_c, way } };
    let steps = [Step::Start { from_c }, step].into_iter().chain(after).collect();
    Design { steps, ..design.clone() }
}

/// A bath of hot water made of the kettle and the cold tap, kg of each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bath {
    pub boiling_kg: f64,
    pub cold_kg: f64,
    /// Where bath and base meet, °C.
    pub ends_at_c: f64,
}

/// What a pot is made of by mass, as heat sees it: what is neither fat, protein nor carbohydrate counts as water.
pub fn shares(content: &Content) -> Shares {
    let part = |grams: f64| grams / 1000.0 / content.early_kg.max(1e-9);
    let (fat, protein) = (part(content.early.fat), part(content.early.protein));
    let carbohydrate = part(content.early.carbohydrate);
    let water = (1.0 - fat - protein - carbohydrate).max(0.0);
    Shares { water, fat, protein, carbohydrate, ..Shares::default() }
}

/// A base that goes into a bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bathed<'a> {
    pub kg: f64,
    pub shares: &'a Shares,
    pub from_c: f64,
}

/// How much boiling water makes a bath: `m = M (T − T_cold)/(T_boil − T_cold)`. Nothing where cold and boiling water cannot
/// make it. Source: published, heat balance of mixing (textbook).
///
/// - `bath_kg` — all of the water, `bath_c` — how hot it is to be; `altitude_m` — where water boils sooner.
pub fn bath(bath_kg: f64, bath_c: f64, cold_c: f64, altitude_m: f64, base: &Bathed<'_>) -> Option<Bath> {
    let boils_c = boiling_point(altitude_m);
    let share = (bath_c - cold_c) / (boils_c - cold_c);
    if !(bath_kg > 0.0 && (0.0..=1.0).contains(&share)) {
        return None;
    }
    let heat = specific_heat(base.shares, 0.5 * (base.from_c + bath_c)) * base.kg / bath_kg;
    let (ends_at_c, _) = bath::finite(base.from_c, bath_c, 1.0, heat);
    Some(Bath { boiling_kg: share * bath_kg, cold_kg: (1.0 - share) * bath_kg, ends_at_c })
}

/// Water that brings a base to a temperature when it is stirred in, kg: `m1 c1 (T − T1) / (c2 (T2 − T))`. Nothing where it
/// cannot. Source: published, heat balance of mixing (textbook).
///
/// - `heat` — specific heats of base and water, kJ/(kg K).
pub fn stirred_in(kg: f64, heat: (f64, f64), from_c: f64, to_c: f64, water_c: f64) -> Option<f64> {
    let water = kg * heat.0 * (to_c - from_c) / (heat.1 * (water_c - to_c));
    (water.is_finite() && water >= 0.0).then_some(water)
}

/// A tin, as a short can.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Can {
    /// Across, and high, m.
    pub wide_m: f64,
    pub high_m: f64,
}

/// Conductivity of a coconut cream that stands as one piece, W/(m K), and its diffusivity, m²/s.
/// Source: derived, Choi and Okos 1986 at the composition of raw coconut cream (USDA SR 12115), 30 °C.
const SOLID: (f64, f64) = (0.42, 0.13e-6);

/// Longest that is looked ahead, s.
const LONGEST_S: f64 = 86_400.0;

/// How long the centre of a tin takes if nobody shakes it and what is in it stands as one piece, s. Nothing where it does not
/// get there in a day.
///
/// `θ = θ_cylinder θ_plate`
///
/// - `outside` — heat transfer to the bath, W/(m² K): 50 to 1000 in still water (published, textbook ranges).
/// - Source: published, product solution of a short cylinder (Çengel, Heat and Mass Transfer).
pub fn unshaken_s(can: Can, from_c: f64, to_c: f64, bath_c: f64, outside: f64) -> Option<f64> {
    let (conducts, spreads) = SOLID;
    let (radius, half) = (0.5 * can.wide_m, 0.5 * can.high_m);
    let aim = (to_c - bath_c) / (from_c - bath_c);
    if !(aim > 0.0 && aim < 1.0) {
        return None;
    }
    let part =
        |body: Body, size: f64, s: f64| centre(body, outside * size / conducts, spreads * s / (size * size));
    let off = |s: f64| part(Body::Cylinder, radius, s) * part(Body::Plate, half, s) - aim;
    root::between(off, 0.0, LONGEST_S, 1.0).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::{Kitchen, Learnt, assets};

    fn asked<T>(go: impl FnOnce(&Scenario<'_>) -> T) -> T {
        let (design, pantry) = (assets::demo("coconut-pot.ron").unwrap(), assets::pantry().unwrap());
        go(&Scenario {
            design: &design,
            pantry: &pantry,
            kitchen: &Kitchen::default(),
            learnt: &Learnt::default(),
        })
    }

    #[test]
    fn the_minutes_are_those_of_the_steps_and_the_curve_ends_there() {
        let warming = asked(|ask| by_way(ask, 20.0, 40.0, Way::TapWater)).unwrap();
        let design = asked(|ask| only_this(ask.design, 20.0, 40.0, Way::TapWater));
        let run = asked(|ask| Scenario { design: &design, ..*ask }.run()).unwrap();
        assert_eq!(run.facts.steps[1].hours, warming.hours);
        assert!(warming.hours > 0.0 && warming.curve.is_sorted_by(|a, b| a.0 <= b.0 && a.1 < b.1));
        assert_eq!(warming.curve.last(), Some(&(warming.hours, 40.0)));
        // A pan is hotter than the tap.
        assert!(asked(|ask| by_way(ask, 20.0, 40.0, Way::Pan)).unwrap().hours < warming.hours);
    }

    #[test]
    fn what_never_gets_there_says_so() {
        let notes = asked(|ask| by_way(ask, 20.0, 70.0, Way::TapWater)).unwrap_err();
        assert!(notes[0].title.contains("never reached"), "{notes:?}");
    }

    #[test]
    fn water_is_mixed_by_its_heat() {
        // Source: derived, heat balance worked by hand: 800 g of milk of 5 °C (3.891) to 42 °C takes 517 g of water of 95 °C.
        let grams = 1000.0 * stirred_in(0.8, (3.891, 4.20), 5.0, 42.0, 95.0).unwrap();
        assert!((grams - 517.0).abs() < 1.0, "{grams}");
        assert_eq!(stirred_in(0.8, (3.891, 4.20), 5.0, 42.0, 40.0), None);
    }

    #[test]
    fn a_bath_from_the_kettle_meets_the_base() {
        let shares =
            Shares { water: 0.54, fat: 0.35, protein: 0.04, carbohydrate: 0.07, ..Shares::default() };
        let base = Bathed { kg: 0.4, shares: &shares, from_c: 20.0 };
        let made = bath(2.0, 60.0, 15.0, 0.0, &base).unwrap();
        // Source: derived, heat balance worked by hand: 2 kg of 60 °C end at 54.8 °C with a tin of 400 g of 20 °C.
        assert!((made.ends_at_c - 54.8).abs() < 0.3, "{made:?}");
        assert!((made.boiling_kg - 2.0 * 45.0 / 85.0).abs() < 0.01, "{made:?}");
        // Higher up water boils sooner, and more of it is needed.
        assert!(bath(2.0, 60.0, 15.0, 3000.0, &base).unwrap().boiling_kg > made.boiling_kg);
        assert_eq!(bath(2.0, 95.0, 15.0, 3000.0, &base), None);
    }

    #[test]
    fn a_tin_that_nobody_shakes_takes_most_of_an_hour() {
        // Source: derived, first terms of the series: the centre of a 75 x 109 mm tin from 20 to 40 °C in water of 60 °C takes
        // 37 to 43 min, with 1000 and 100 W/(m² K) outside.
        let can = Can { wide_m: 0.075, high_m: 0.109 };
        let minutes = |outside| unshaken_s(can, 20.0, 40.0, 60.0, outside).unwrap() / 60.0;
        let (well, badly) = (minutes(1000.0), minutes(100.0));
        assert!((35.0..40.0).contains(&well) && (40.0..46.0).contains(&badly), "{well} {badly}");
        assert_eq!(unshaken_s(can, 20.0, 61.0, 60.0, 100.0), None);
    }
}
