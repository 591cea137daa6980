//! The figures of a label per 100 g: stated ones with their rounding, and those that are filled in from the nearest entry.

use super::infer::sweet;
use super::of_base::{own, spread};
use potset_base::number;
use potset_doc::design::{BaseLine, LabelFigures};
use potset_doc::label::{self, Basis, LabelReading, Nutrient};
use potset_doc::pantry::{Base, BaseKind};
use potset_forecast::blend;

/// A figure per 100 g.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    pub nutrient: Nutrient,
    pub value: f64,
    /// Off the label; otherwise filled in.
    pub stated: bool,
    /// The label makes it impossible: nothing is filled in from it.
    pub impossible: bool,
    /// What it was worked out from, in words; empty where the label gives it for 100 g or where the entry has it.
    pub worked: String,
    /// Bounds of what was filled in, or of "less than"; the value itself where it is told.
    pub low: f64,
    pub high: f64,
}

/// Bounds of a figure that is filled in lie this many times as far off as those of the entry (assumed: another make).
const WIDER: f64 = 2.0;

/// A figure of a label as one per 100 g. What is divided by a serving or a density is rounded to three figures, as a person
/// would write it: labels are printed no finer.
fn written(label: &LabelReading, base: Option<&Base>, v: f64) -> f64 {
    let density = if label.by_volume() { base.map_or(1.0, |b| b.density.value) } else { 1.0 };
    let divided = label.by_volume() || matches!(label.basis, Basis::Serving(_));
    number::parse(&number::figures(v / density, 3)).filter(|_| divided).unwrap_or(v / density)
}

/// g per 100 g from a figure per 100 g or 100 mL.
fn per_100g(label: &LabelReading, base: Option<&Base>, nutrient: Nutrient) -> Option<f64> {
    Some(written(label, base, label.per_100(nutrient)?))
}

/// Bounds of a figure, g per 100 g; mg where the nutrient is told in mg.
pub fn bounds_per_100g(label: &LabelReading, base: Option<&Base>, nutrient: Nutrient) -> Option<(f64, f64)> {
    label.bounds_per_100(nutrient).map(|(low, high)| (written(label, base, low), written(label, base, high)))
}

/// The figures that a design takes over, per 100 g.
pub fn stated(label: &LabelReading, base: Option<&Base>, extract: Option<f64>) -> LabelFigures {
    let of = |n| per_100g(label, base, n);
    LabelFigures {
        fat: of(Nutrient::Fat),
        protein: of(Nutrient::Protein),
        sugars: of(Nutrient::Sugars).or_else(|| added_sugars(label, base).map(|(v, ..)| v)),
        // Only coconut is made up to a declared extract that a design knows.
        extract: extract.filter(|_| base.is_some_and(|b| b.kind == BaseKind::Coconut)),
        carbohydrate: of(Nutrient::Carbohydrate).map(|all| {
            let fibre = of(Nutrient::Fibre).filter(|_| label.carbohydrate_holds_fibre).unwrap_or(0.0);
            (all - fibre).max(0.0)
        }),
        fibre: of(Nutrient::Fibre),
        saturates: of(Nutrient::Saturates),
        // Salt is sodium × 2.5 (Regulation (EU) 1169/2011 annex I).
        sodium: of(Nutrient::Sodium).or_else(|| of(Nutrient::Salt).map(|salt| salt * 400.0)),
        calcium: of(Nutrient::Calcium),
    }
}

/// Every figure that matters, per 100 g; the missing ones as the entry has them at this fat, unless the label is impossible.
pub fn values(label: &LabelReading, base: Option<&Base>, stated: &LabelFigures) -> Vec<Value> {
    let impossible = label::impossible(label);
    let made = base.filter(|_| impossible.is_empty()).map(|b| {
        let line = BaseLine { label: stated.clone(), ..BaseLine::new(b.key.clone(), 1.0) };
        (b, blend::make(b, &line))
    });
    let of = |nutrient: Nutrient| {
        stated_value(label, base, nutrient)
            .map(|v| Value { impossible: impossible.contains(&nutrient), ..v })
            .or_else(|| made.as_ref().and_then(|(base, make)| filled(label, base, make, nutrient)))
    };
    [Nutrient::Fat, Nutrient::Protein, Nutrient::Carbohydrate, Nutrient::Sugars, Nutrient::Fibre]
        .into_iter()
        .filter_map(of)
        .collect()
}

/// A figure of the label.
fn stated_value(label: &LabelReading, base: Option<&Base>, nutrient: Nutrient) -> Option<Value> {
    let mut v = per_100g(label, base, nutrient)?;
    let (mut low, mut high) = bounds_per_100g(label, base, nutrient)?;
    if nutrient == Nutrient::Carbohydrate && label.carbohydrate_holds_fibre {
        let fibre = per_100g(label, base, Nutrient::Fibre).unwrap_or(0.0);
        let (least, most) = bounds_per_100g(label, base, Nutrient::Fibre).unwrap_or_default();
        v -= fibre.min(v);
        (low, high) = ((low - most).max(0.0).min(v), (high - least).max(v));
    }
    let worked = worked_out(label, nutrient);
    Some(Value { nutrient, value: v, stated: true, impossible: false, worked, low, high })
}

/// "worked out from 1 g in 80 mL", where the label does not give it for 100 g.
pub fn worked_out(label: &LabelReading, nutrient: Nutrient) -> String {
    let (Basis::Serving(Some(size)), Some(figure)) = (label.basis, label.figure(nutrient)) else {
        return String::new();
    };
    format!("worked out from {} in {}", figure.amount.words(nutrient.unit()), size.words())
}

/// A figure that the label does not give; nothing where not even the entry tells.
fn filled(label: &LabelReading, base: &Base, make: &blend::Make, nutrient: Nutrient) -> Option<Value> {
    let value = Value {
        nutrient,
        value: 100.0
            * match nutrient {
                Nutrient::Fat => make.fat,
                Nutrient::Protein => make.protein,
                Nutrient::Carbohydrate => make.carbohydrate,
                Nutrient::Sugars => make.sugars.iter().sum(),
                _ => make.fibre,
            },
        stated: false,
        impossible: false,
        worked: String::new(),
        low: 0.0,
        high: 0.0,
    };
    if nutrient == Nutrient::Sugars && sweet(label).is_some() {
        // What an unsweetened entry has of sugars says nothing of a sweetened product.
        let (v, low, high) = added_sugars(label, Some(base))?;
        let worked = format!("worked out: carbohydrate without what is no sugar in {}", super::named(base));
        return Some(Value { value: v, low, high, worked, ..value });
    }
    let (low, high) = spread(base, nutrient);
    let had = own(base, nutrient);
    let scale = if had > 0.0 { value.value / had } else { 1.0 };
    let low = (value.value - WIDER * (had - low).max(0.0) * scale).max(0.0);
    let high = value.value + WIDER * (high - had).max(0.0) * scale;
    Some(Value { low, high, ..value })
}

/// Sugars of a sweetened product that does not tell them, with bounds, g/100 g: its carbohydrate without what the entry holds
/// as starch and other carbohydrate. Nothing if sugars or no carbohydrate are told.
///
/// Bounds assumed: half of it, if starch or maltodextrin is among what was added, to all of the carbohydrate.
fn added_sugars(label: &LabelReading, base: Option<&Base>) -> Option<(f64, f64, f64)> {
    if label.per_100(Nutrient::Sugars).is_some() || !label::impossible(label).is_empty() {
        return None;
    }
    sweet(label)?;
    let base = base?;
    let all = stated_value(label, Some(base), Nutrient::Carbohydrate)?;
    let other =
        (own(base, Nutrient::Carbohydrate) - own(base, Nutrient::Sugars)).max(base.composition.starch.value);
    let v = (all.value - other).max(0.0);
    Some((v, LEAST_SUGAR * v, all.high.max(v)))
}

/// Least share of the carbohydrate that was worked out as sugars and is one (assumed).
const LEAST_SUGAR: f64 = 0.5;

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::assets;

    #[test]
    fn a_figure_that_was_divided_has_three_figures_and_lies_in_its_bounds() {
        let pantry = assets::pantry().unwrap();
        let soy: Option<&Base> = pantry.get("soy_drink_unsweetened");
        let text =
            "Soy drink\nIngredients: water, soy beans\nNutrition per 100 ml\nFat 3.0 g\nProtein 3.7 g\n";
        let label = label::read(text);
        // 3.0 g in 100 mL of 1.03 g/mL would be 2.91262.
        let fat = stated(&label, soy, None).fat.unwrap();
        assert_eq!(number::plain(fat), number::figures(fat, 3));
        assert!((fat - 3.0 / soy.unwrap().density.value).abs() < 0.005, "{fat}");
        let (low, high) = bounds_per_100g(&label, soy, Nutrient::Fat).unwrap();
        assert!((low..=high).contains(&fat));
        // What stands for 100 g stays as it stands.
        let label = label::read(&text.replace("100 ml", "100 g").replace("3.0 g", "3.0456 g"));
        assert_eq!(stated(&label, soy, None).fat, Some(3.0456));
    }
}
