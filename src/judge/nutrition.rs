//! Nutrition, allergens and cost of a pot: before the culture, and as it is eaten.
//!
//! **Nutrition and cost.** `forecast/content.rs` adds up what goes in (before the culture, and after the hold),
//! `science/nutrition` has energies and roundings, `judge/nutrition.rs` takes sugars and acids from the forecast. Whey takes
//! what is dissolved and no protein or fat. What is not known counts as nothing and is listed.

use potset_base::Sugar;
use potset_base::constants::{ACETIC_G_MOL, LACTIC_G_MOL};
use potset_forecast::content::{Content, Ingoing};
use potset_science::nutrition::Macros;
use potset_science::{Forecast, Mix};

/// What the ingoing things cost.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cost {
    /// Money for all that has a price.
    pub known: f64,
    pub per_serving: f64,
    /// Per kg of what is eaten.
    pub per_kg: f64,
    /// What has no price yet.
    pub missing: Vec<String>,
}

impl Cost {
    /// Whether everything that goes in has a price, and something does.
    pub fn whole(&self) -> bool {
        self.missing.is_empty() && self.known > 0.0
    }
}

/// Nutrition of a pot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Nutrition {
    /// Per 100 g of the mix as it goes in, without what is stirred in later.
    pub before: Macros,
    /// Per 100 g of what is eaten.
    pub after: Macros,
    /// kg of what is eaten, whey and all that ran off taken away.
    pub kg: f64,
    pub serving_g: f64,
    pub servings: f64,
    /// Share that ran off as whey, 0 to 1.
    pub strained: f64,
    /// Allergens, each once, with what brings it.
    pub allergens: Vec<(String, Vec<String>)>,
    /// What may be in it by a label: the words of the label, and of what.
    pub may_contain: Vec<(String, String)>,
    /// What brings gluten.
    pub gluten: Vec<String>,
    /// What comes from an animal.
    pub animal: Vec<String>,
    pub cost: Cost,
    /// What is not known, and so counted as nothing.
    pub unknown: Vec<String>,
}

/// Works it out from what goes in and the sugars and acids that are left.
///
/// Whey takes sugars, acids and salts with the water, and no protein and fat.
pub fn nutrition(content: &Content, mix: &Mix, forecast: &Forecast, serving_g: f64) -> Nutrition {
    let (early_g, late_g) = (content.early_kg * 1000.0, content.late_kg * 1000.0);
    let before = content.early.times(100.0 / early_g.max(1e-9));
    let t = forecast.stop_h;
    let (lactic, acetic) = (forecast.value(&forecast.lactic, t), forecast.value(&forecast.acetic, t));
    let served = mix.served(&forecast.sugars_at(t), lactic, acetic);
    let w = mix.after.strained;
    let grams = early_g * (1.0 - w) + late_g;
    let (start, left) = (forecast.sugars_at(0.0), served.sugars);
    let total = |s: &[f64; 8]| s.iter().sum::<f64>();
    // Per 100 g of the mix: carbohydrate that is no sugar stays as it is, whatever the culture does.
    let other = (before.carbohydrate - total(&start) / 10.0).max(0.0);
    let solid = early_g / grams.max(1e-9);
    let late = content.late.times(100.0 / grams.max(1e-9));
    let late_other = (late.carbohydrate - total(&mix.after.sugars) / 10.0).max(0.0);
    let dissolved = mix.dissolved_left();
    let mono_di = |s: &[f64; 8]| total(s) - s[Sugar::Raffinose.index()] - s[Sugar::Stachyose.index()];
    let after = Macros {
        fat: before.fat * solid + late.fat,
        saturates: before.saturates * solid + late.saturates,
        protein: before.protein * solid + late.protein,
        carbohydrate: total(&left) / 10.0 + other * solid + late_other,
        sugars: mono_di(&left) / 10.0,
        lactose: left[Sugar::Lactose.index()] / 10.0,
        galactose: left[Sugar::Galactose.index()] / 10.0,
        fibre: before.fibre * solid + late.fibre,
        polyols: before.polyols * dissolved + late.polyols,
        idle: before.idle * dissolved + late.idle,
        acids: (served.lactic * LACTIC_G_MOL + served.acetic * ACETIC_G_MOL) * 1e-4,
        sodium: before.sodium * dissolved + late.sodium,
        calcium: before.calcium * dissolved + late.calcium,
    };
    let servings = if serving_g > 0.0 { grams / serving_g } else { 0.0 };
    Nutrition {
        before,
        after,
        kg: grams / 1000.0,
        serving_g,
        servings,
        strained: w,
        allergens: allergens(&content.ingoing),
        may_contain: may_contain(&content.ingoing),
        gluten: named(&content.ingoing, |i| !i.gluten_free),
        animal: named(&content.ingoing, |i| !i.vegan),
        cost: cost(&content.ingoing, grams / 1000.0, servings),
        unknown: content.unknown.clone(),
    }
}

fn named(ingoing: &[Ingoing], keep: impl Fn(&Ingoing) -> bool) -> Vec<String> {
    ingoing.iter().filter(|i| keep(i)).map(|i| i.name.clone()).collect()
}

fn allergens(ingoing: &[Ingoing]) -> Vec<(String, Vec<String>)> {
    let mut all: Vec<(String, Vec<String>)> = Vec::new();
    for thing in ingoing {
        for key in &thing.allergens {
            match all.iter_mut().find(|(k, _)| k == key) {
                Some((_, from)) => from.push(thing.name.clone()),
                None => all.push((key.clone(), vec![thing.name.clone()])),
            }
        }
    }
    all
}

fn may_contain(ingoing: &[Ingoing]) -> Vec<(String, String)> {
    let of = |thing: &Ingoing| {
        thing.may_contain.iter().map(|what| (what.clone(), thing.name.clone())).collect::<Vec<_>>()
    };
    ingoing.iter().flat_map(of).collect()
}

fn cost(ingoing: &[Ingoing], kg: f64, servings: f64) -> Cost {
    let known: f64 = ingoing.iter().filter_map(|i| i.money).sum();
    let per = |n: f64| if n > 0.0 { known / n } else { 0.0 };
    Cost {
        known,
        per_serving: per(servings),
        per_kg: per(kg),
        missing: named(ingoing, |i| i.money.is_none() && !i.water),
    }
}
