//! Figures of an entry, as a label would state them.

use potset_doc::label::Nutrient;
use potset_doc::pantry::{Base, all_sugars};

/// A figure of an entry, g/100 g.
pub fn own(base: &Base, nutrient: Nutrient) -> f64 {
    let c = &base.composition;
    match nutrient {
        Nutrient::Fat => c.fat.v,
        Nutrient::Protein => c.protein.v,
        Nutrient::Carbohydrate => c.carbohydrate.v,
        Nutrient::Fibre => c.fibre.v,
        Nutrient::Sugars => all_sugars(&c.sugars),
        _ => 0.0,
    }
}

/// Bounds of an entry's figure.
pub fn spread(base: &Base, nutrient: Nutrient) -> (f64, f64) {
    let c = &base.composition;
    let of = |cited: &potset_base::Cited| cited.spread.bounds().unwrap_or((cited.v, cited.v));
    match nutrient {
        Nutrient::Fat => of(&c.fat),
        Nutrient::Protein => of(&c.protein),
        Nutrient::Carbohydrate => of(&c.carbohydrate),
        Nutrient::Fibre => of(&c.fibre),
        _ => c
            .sugars
            .iter()
            .map(|s| of(&s.g_per_100g))
            .fold((0.0, 0.0), |(low, high), (l, h)| (low + l, high + h)),
    }
}
