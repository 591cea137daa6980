//! Figures of an entry, as a label would state them.

use potset_base::Cited;
use potset_doc::label::Nutrient;
use potset_doc::pantry::{Base, all_sugars};

/// A figure of an entry, if it is one and not the sum of all sugars.
fn one(base: &Base, nutrient: Nutrient) -> Option<&Cited> {
    let c = &base.composition;
    match nutrient {
        Nutrient::Fat => Some(&c.fat),
        Nutrient::Protein => Some(&c.protein),
        Nutrient::Carbohydrate => Some(&c.carbohydrate),
        Nutrient::Fibre => Some(&c.fibre),
        _ => None,
    }
}

/// A figure of an entry, g/100 g.
pub fn own(base: &Base, nutrient: Nutrient) -> f64 {
    one(base, nutrient).map_or_else(|| all_sugars(&base.composition.sugars), |cited| cited.value)
}

/// Bounds of an entry's figure.
pub fn spread(base: &Base, nutrient: Nutrient) -> (f64, f64) {
    let of = |cited: &Cited| cited.spread.bounds().unwrap_or((cited.value, cited.value));
    let sugars = base.composition.sugars.iter().map(|s| of(&s.g_per_100g));
    one(base, nutrient).map_or_else(|| sugars.fold((0.0, 0.0), |(low, high), (l, h)| (low + l, high + h)), of)
}
