//! A design for another amount: for so many jars, whole tins, servings or litres; and rounded to what can be measured.

use potset_base::Note;
use potset_doc::design::Pots;
use potset_doc::edit::LineKind;
use potset_doc::pantry::{Base, Vessel};
use potset_doc::{Design, Kitchen, Pantry};
use potset_forecast::scenario::Scenario;
use potset_judge::nutrition::nutrition;

/// What a design is scaled to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum To {
    Litres(f64),
    /// So many of the vessel that the design is made in.
    Jars(u32),
    /// So many packs of a base line.
    Packs(usize, f64),
    /// So many servings of what is eaten.
    Servings(f64),
}

/// An amount that was rounded to what can be measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Rounded {
    pub name: String,
    /// In all, before and after, in `unit`.
    pub exact: f64,
    pub given: f64,
    pub unit: &'static str,
}

/// A design for another amount.
#[derive(Clone, Debug, PartialEq)]
pub struct Scaled {
    pub design: Design,
    /// So many times as much of the bases.
    pub times: f64,
    /// What was rounded, and by how much.
    pub rounded: Vec<Rounded>,
}

fn fault<T>(field: &str, title: &str, mend: &str) -> Result<T, Note> {
    Err(Note::error(field, title, mend))
}

/// How many times as much it takes.
///
/// # Errors
/// A note that names what is missing.
pub fn times(scenario: &Scenario<'_>, to: To) -> Result<f64, Note> {
    let design = scenario.design;
    let litres = design.litres();
    if !(litres.is_finite() && litres > 0.0) {
        return fault("bases", "There is nothing in the pot to scale", "Add a base first");
    }
    let good = |v: f64| v.is_finite() && v > 0.0;
    let times = match to {
        To::Litres(wanted) if good(wanted) => wanted / litres,
        To::Jars(count) if count > 0 => jar_litres(design, scenario.pantry)? * f64::from(count) / litres,
        To::Packs(line, count) if good(count) => {
            let Some(base) = design.bases.get(line) else {
                return fault("bases", "There is no such base", "Choose one of the lines of the design");
            };
            let entry = design.entry::<Base>(scenario.pantry, &base.entry);
            let Some(pack) = base.with_pack(entry, scenario.pantry).pack else {
                return fault(
                    "bases",
                    "The size of its pack is not known",
                    "Choose a tin, carton or jar for it",
                );
            };
            count * pack.ml / 1000.0 / base.litres
        }
        To::Servings(count) if good(count) => {
            let run = scenario.run().map_err(|notes| {
                let none = || Note::error("design", "There is no forecast", "Undo the last change");
                notes.into_iter().next().unwrap_or_else(none)
            })?;
            let made = nutrition(&run.facts.content, &run.mix, &run.forecast, design.pots.serving_g).servings;
            count / made
        }
        _ => return fault("amount", "The amount is missing", "Give a number above zero"),
    };
    if good(times) { Ok(times) } else { fault("amount", "This amount cannot be made", "Give another") }
}

/// What one vessel of the design holds, L.
fn jar_litres(design: &Design, pantry: &Pantry) -> Result<f64, Note> {
    design
        .entry::<Vessel>(pantry, &design.pots.vessel)
        .map(|vessel| vessel.litres)
        .map_or_else(|| fault("pots", "The vessel is not known", "Choose a vessel of the list"), Ok)
}

/// The design for another amount. Doses are per litre and stay; the jars are as many as it fills.
///
/// # Errors
/// As [`times`].
pub fn scaled(scenario: &Scenario<'_>, to: To) -> Result<Scaled, Note> {
    let times = times(scenario, to)?;
    let mut design = scenario.design.clone();
    for base in &mut design.bases {
        base.litres *= times;
    }
    let count = match to {
        To::Jars(count) => count,
        _ => jars(design.litres(), jar_litres(&design, scenario.pantry)?),
    };
    design.pots = Pots { count, ..design.pots };
    let rounded = round(&mut design, scenario.pantry, scenario.kitchen);
    Ok(Scaled { design, times, rounded })
}

/// How many jars of so many litres hold an amount. A jar that would be filled by less than a hundredth is not counted.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held inside of u32 by min and max"
)]
pub fn jars(litres: f64, each: f64) -> u32 {
    (litres / each - 0.01).ceil().clamp(1.0, 1e6) as u32
}

/// Rounds what is weighed to the scale's step, in all and not per litre.
fn round(design: &mut Design, pantry: &Pantry, kitchen: &Kitchen) -> Vec<Rounded> {
    let litres = design.litres();
    let step = kitchen.scale_step_g;
    let mut all = Vec::new();
    let mut line = |name: String, g_per_l: &mut f64| {
        let exact = *g_per_l * litres;
        let given = (exact / step).round().max(1.0) * step;
        // An amount of nothing stays nothing; what is already round stays as it is.
        if exact > 0.0 && (given - exact).abs() > 1e-9 * exact {
            *g_per_l = given / litres;
            all.push(Rounded { name, exact, given, unit: "g" });
        }
    };
    let name_of = |kind: LineKind, key: &str, design: &Design| {
        design.entry_of(pantry, kind.kind(), key).map_or(key.to_owned(), |entry| entry.name().to_owned())
    };
    let keys = design.clone();
    for (sugar, was) in design.sugars.iter_mut().zip(&keys.sugars) {
        line(name_of(LineKind::Sugars, &was.entry, &keys), &mut sugar.g_per_l);
    }
    for (thickener, was) in design.thickeners.iter_mut().zip(&keys.thickeners) {
        line(name_of(LineKind::Thickeners, &was.entry, &keys), &mut thickener.g_per_l);
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::{Learnt, assets};

    fn asked<T>(step_g: f64, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
        let (design, pantry) = (assets::demo("coconut-pot.ron").unwrap(), assets::pantry().unwrap());
        let kitchen = Kitchen { scale_step_g: step_g, ..Kitchen::default() };
        go(&Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &Learnt::default() })
    }

    #[test]
    fn jars_tins_and_litres_are_what_was_asked_for() {
        let of = |to| asked(1e-6, |ask| scaled(ask, to)).unwrap().design;
        let base = asked(1.0, |ask| ask.design.clone());
        assert_eq!(of(To::Jars(9)).pots.count, 9);
        assert!((of(To::Jars(9)).litres() - 9.0 * 0.25).abs() < 1e-9);
        assert!((of(To::Litres(2.0)).litres() - 2.0).abs() < 1e-12);
        // Five tins of 400 mL.
        let five = of(To::Packs(0, 5.0));
        assert!((five.litres() - 2.0).abs() < 1e-9, "{}", five.litres());
        assert_eq!(five.pots.count, 8);
        // Doses are per litre: they stay.
        assert!((five.sugars[0].g_per_l - base.sugars[0].g_per_l).abs() < 1e-6);
        assert_eq!(five.steps, base.steps);
    }

    #[test]
    fn servings_are_those_of_what_is_eaten() {
        let to = asked(1e-6, |ask| scaled(ask, To::Servings(20.0))).unwrap().design;
        let pantry = assets::pantry().unwrap();
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let ask = Scenario { design: &to, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let run = ask.run().unwrap();
        let made = nutrition(&run.facts.content, &run.mix, &run.forecast, to.pots.serving_g).servings;
        assert!((made - 20.0).abs() < 0.02, "{made}");
    }

    #[test]
    fn rounding_is_told_with_both_amounts() {
        let scaled = asked(1.0, |ask| scaled(ask, To::Litres(0.75))).unwrap();
        assert!(!scaled.rounded.is_empty());
        for rounded in &scaled.rounded {
            assert!((rounded.given - rounded.given.round()).abs() < 1e-9, "{rounded:?}");
            assert!(
                (rounded.given - rounded.exact).abs() <= 0.5 + 1e-9 || rounded.given == 1.0,
                "{rounded:?}"
            );
        }
        let grams = scaled.design.sugars[0].g_per_l * scaled.design.litres();
        assert!((grams - grams.round()).abs() < 1e-9, "{grams}");
    }

    #[test]
    fn what_cannot_be_scaled_says_why() {
        for to in [To::Litres(0.0), To::Litres(f64::NAN), To::Jars(0), To::Packs(7, 1.0), To::Servings(-1.0)]
        {
            assert!(asked(1.0, |ask| scaled(ask, to)).is_err(), "{to:?}");
        }
    }
}
