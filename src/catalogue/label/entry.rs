//! What becomes of a label: the design's base, or an entry of the maker's own.

use super::{LabelStudy, figures, warnings};
use potset_base::allergen::allergen;
use potset_base::words::capital;
use potset_base::{Cited, Source, SourceKind, Spread, Sugar};
use potset_doc::Edit;
use potset_doc::design::{BaseLine, LabelFigures};
use potset_doc::edit::LineKind;
use potset_doc::label::meaning::meaning;
use potset_doc::label::{Ingredient, LabelReading, Nutrient};
use potset_doc::lines::Packed;
use potset_doc::pantry::{
    Base, BufferShape, EntryKind, Nutrients, Pantry, SugarShare, Ticket, find, key_for,
};
use potset_forecast::blend::{self, Make};

/// How a figure off a label is cited.
const READ: &str = "read off its label";

/// Puts the nearest entry with the label's figures in the place of the design's first base, as one step of undo. Nothing if
/// no entry was found.
pub fn into_design(reading: &LabelReading, study: &LabelStudy) -> Option<Edit> {
    let (key, figures) = study.line.as_ref()?;
    let swap = Edit::Swap(LineKind::Bases, 0, key.clone());
    let packed = Edit::BasePacked(0, Some(packed(reading, study)));
    let edits = vec![swap, Edit::BaseFigures(0, figures.clone()), packed];
    Some(Edit::Together("Base off a label".to_owned(), edits))
}

/// What the label says besides its figures: name, allergens, and what its maker put in.
pub fn packed(reading: &LabelReading, study: &LabelStudy) -> Packed {
    fn named(list: &[Ingredient], out: &mut Vec<String>) {
        for one in list {
            if one.role.is_some() || one.number.is_some() {
                out.push(one.name.clone());
            }
            named(&one.parts, out);
        }
    }
    let mut additives = Vec::new();
    named(&reading.ingredients, &mut additives);
    Packed {
        name: reading.name.as_deref().map_or_else(String::new, capital_words),
        contains: contained(reading, study),
        may_contain: reading.may_contain.clone(),
        additives,
    }
}

/// "COCONUT MILK." as people write it; other names as they are.
fn capital_words(name: &str) -> String {
    let name = name.trim_end_matches('.').trim_end();
    if name.chars().any(char::is_lowercase) { name.to_owned() } else { capital(&name.to_lowercase()) }
}

/// Keys of the allergens that it contains.
fn contained(reading: &LabelReading, study: &LabelStudy) -> Vec<String> {
    let mut told: Vec<String> = reading.contains.clone();
    if !warnings::milk_in(reading, study.kind).is_empty() {
        told.push("milk".to_owned());
    }
    let known = |word: &String| {
        let one = word.trim_end_matches('s');
        let key = meaning().allergens.get(one).map_or(one, String::as_str);
        allergen(key).or_else(|| allergen(word)).map(|known| known.key.clone())
    };
    let mut keys: Vec<String> = told.iter().filter_map(known).collect();
    keys.dedup();
    keys
}

/// The label as an entry: the nearest one with the stated figures, and the rest as a design with this label would have it.
/// Nothing if no entry was found.
pub fn as_entry(reading: &LabelReading, study: &LabelStudy, pantry: &Pantry) -> Option<Pantry> {
    let (key, stated) = study.line.as_ref()?;
    let like = find(&pantry.bases, key)?;
    let name = reading.name.clone().unwrap_or_else(|| format!("{}, off a label", like.name));
    let mut base = Base {
        key: key_for(&name, |k| pantry.entry(EntryKind::Base, k).is_some()),
        name,
        aliases: Vec::new(),
        ticket: Ticket::default(),
        ..composed(like, reading, study, stated)
    };
    if let Some(kcal) = reading.per_100(Nutrient::EnergyKcal) {
        let kcal = if reading.by_volume() { kcal / like.density.value } else { kcal };
        base.nutrients.energy = Some(read(kcal, "kcal/100 g"));
    }
    allergens(reading, study, &mut base);
    let mut out = Pantry { bases: vec![base], ..Pantry::default() };
    out.keep(pantry.get::<BufferShape>(&like.buffer_shape));
    Some(out)
}

fn composed(like: &Base, reading: &LabelReading, study: &LabelStudy, stated: &LabelFigures) -> Base {
    let line = BaseLine { label: stated.clone(), ..BaseLine::new(like.key.clone(), 1.0) };
    let make = blend::make(like, &line);
    let mut base = like.clone();
    let c = &mut base.composition;
    let of = |nutrient: Nutrient, v: f64, unit: &str| {
        let bounds = study
            .value(nutrient)
            .map(|value| (value.low, value.high))
            .or_else(|| figures::bounds_per_100g(reading, Some(like), nutrient));
        worked(read(v, unit), bounds, &figures::worked_out(reading, nutrient))
    };
    let take = |own: &mut Cited, nutrient: Nutrient, told: Option<f64>, made: f64| {
        *own = told.map_or_else(|| follows(own, made, &like.name), |v| of(nutrient, v, &own.unit));
    };
    take(&mut c.fat, Nutrient::Fat, stated.fat, make.fat * 100.0);
    take(&mut c.protein, Nutrient::Protein, stated.protein, make.protein * 100.0);
    take(&mut c.carbohydrate, Nutrient::Carbohydrate, stated.carbohydrate, make.carbohydrate * 100.0);
    take(&mut c.fibre, Nutrient::Fibre, stated.fibre, make.fibre * 100.0);
    c.ash = follows(&c.ash, make.ash * 100.0, &like.name);
    let calcium = c.calcium.value;
    take(&mut c.calcium, Nutrient::Calcium, stated.calcium, calcium);
    c.sugars = sugars(like, study, stated, &make);
    let sugar: f64 = make.sugars.iter().sum::<f64>() * 100.0;
    let starch = c.starch.value.min((make.carbohydrate * 100.0 - sugar).max(0.0));
    c.starch = follows(&c.starch, starch, &like.name);
    base.mean_buffer = follows(&like.mean_buffer, make.buffer, &like.name);
    let n = &like.nutrients;
    let saturates = n.saturates.as_ref().map(|s| {
        let of_fat =
            if like.composition.fat.value > 0.0 { s.value / like.composition.fat.value } else { 0.0 };
        follows(s, of_fat * make.fat * 100.0, &like.name)
    });
    base.nutrients = Nutrients {
        saturates: stated.saturates.map(|v| of(Nutrient::Saturates, v, "g/100 g")).or(saturates),
        sodium: stated.sodium.map(|v| sodium(reading, like, v)).or_else(|| n.sodium.clone()),
        // What the entry's source states of energy and water is no longer so.
        energy: None,
        water: None,
        ..n.clone()
    };
    base
}

/// The sugars of the entry, or the usual one of its kind, to the label's sum.
fn sugars(like: &Base, study: &LabelStudy, stated: &LabelFigures, make: &Make) -> Vec<SugarShare> {
    let own = |sugar: Sugar| like.composition.sugars.iter().find(|s| s.sugar == sugar);
    let share = |sugar: Sugar| {
        let v = make.sugars[sugar.index()] * 100.0;
        let cited = match (own(sugar), stated.sugars) {
            (Some(one), None) => follows(&one.g_per_100g, v, &like.name),
            (_, Some(sum)) => {
                let value = study.value(Nutrient::Sugars);
                // Each sugar has its part of the sum's bounds.
                let part = if sum > 0.0 { v / sum } else { 0.0 };
                let bounds = value.map(|value| (value.low * part, value.high * part));
                let mut cited =
                    worked(read(v, "g/100 g"), bounds, value.map_or("", |value| value.worked.as_str()));
                if value.is_some_and(|value| !value.stated) {
                    cited.from.kind = SourceKind::Derived;
                }
                cited.from.text.push_str(&format!("; split among the sugars as in {}", like.name));
                cited
            }
            (None, None) => read(v, "g/100 g"),
        };
        SugarShare { sugar, g_per_100g: cited }
    };
    Sugar::ALL.into_iter().filter(|s| make.sugars[s.index()] > 0.0 || own(*s).is_some()).map(share).collect()
}

fn read(v: f64, unit: &str) -> Cited {
    Cited::new(v, unit, SourceKind::Own, READ)
}

/// A figure with the bounds that its rounding gives it, and how it was worked out.
fn worked(mut cited: Cited, bounds: Option<(f64, f64)>, how: &str) -> Cited {
    if let Some((low, high)) =
        bounds.filter(|(low, high)| low < high && (*low..=*high).contains(&cited.value))
    {
        cited.spread = Spread::Uniform(low, high);
    }
    if !how.is_empty() {
        how.clone_into(&mut cited.from.text);
        cited.from.text.push_str(" on its label");
    }
    cited
}

/// Sodium, off the figure of sodium or of salt.
fn sodium(reading: &LabelReading, like: &Base, v: f64) -> Cited {
    let (nutrient, to_mg) = if reading.figure(Nutrient::Sodium).is_some() {
        (Nutrient::Sodium, 1.0)
    } else {
        (Nutrient::Salt, 400.0)
    };
    let bounds = figures::bounds_per_100g(reading, Some(like), nutrient);
    let bounds = bounds.map(|(low, high)| (low * to_mg, high * to_mg));
    worked(read(v, "mg/100 g"), bounds, &figures::worked_out(reading, nutrient))
}

/// A figure of the nearest entry that moved with the label; its spread moves along.
fn follows(own: &Cited, v: f64, name: &str) -> Cited {
    if (v - own.value).abs() <= 1e-9 * own.value.abs() {
        return own.clone();
    }
    let ratio = if own.value == 0.0 { 0.0 } else { v / own.value };
    let spread = if ratio <= 0.0 { Spread::Exact } else { own.spread.map(|bound| bound * ratio) };
    let text = format!("not on the label: as in {name}, moved with the label's figures");
    Cited { value: v, spread, from: Source { kind: SourceKind::Derived, text }, ..own.clone() }
}

/// What the label says it contains, in the words of entries.
fn allergens(reading: &LabelReading, study: &LabelStudy, base: &mut Base) {
    let said = packed(reading, study);
    if !said.additives.is_empty() {
        base.handling =
            format!("{} On its label: {}", base.handling, said.additives.join(", ")).trim().to_owned();
    }
    if !said.may_contain.is_empty() {
        base.handling =
            format!("{}. May contain {}", base.handling.trim_end_matches('.'), said.may_contain.join(", "));
    }
    for key in contained(reading, study) {
        let Some(known) = allergen(&key) else { continue };
        base.vegan &= !known.animal;
        base.gluten_free &= !known.gluten;
        if !base.allergens.contains(&known.key) {
            base.allergens.push(known.key.clone());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::own::{OwnEdit, OwnPantry};
    use potset_doc::pantry::{all_sugars, faults};
    use potset_doc::{Kitchen, Learnt, assets, edit, label};
    use potset_forecast::scenario::Scenario;
    use potset_judge::answer::answer;

    const TIN: &str = "Coconut milk\nPer 100 g\nFat 17.5 g\nof which saturates 15 g\nCarbohydrate 3.4 g\nof which sugars 1.7 g\n\
                       Protein 1.3 g\nSalt 0.05 g\nIngredients: coconut extract (70 %), water, guar gum.\nContains: milk";

    fn studied(text: &str) -> (LabelReading, LabelStudy, Pantry) {
        let pantry = assets::pantry().unwrap();
        let reading = label::read(text);
        let study = super::super::infer(&reading, &pantry);
        (reading, study, pantry)
    }

    #[test]
    fn the_entry_has_the_stated_figures_as_the_makers_own() {
        let (reading, study, pantry) = studied(TIN);
        let made = as_entry(&reading, &study, &pantry).unwrap();
        let [base] = made.bases.as_slice() else { panic!("{:?}", made.bases.len()) };
        assert_eq!((base.name.as_str(), base.key.as_str()), ("Coconut milk", "coconut_milk"));
        for (cited, v) in [
            (&base.composition.fat, 17.5),
            (&base.composition.protein, 1.3),
            (&base.composition.carbohydrate, 3.4),
            (base.nutrients.saturates.as_ref().unwrap(), 15.0),
            (base.nutrients.sodium.as_ref().unwrap(), 20.0),
        ] {
            assert!((cited.value - v).abs() < 1e-9 && cited.from.kind == SourceKind::Own, "{cited:?}");
        }
        let sugar = all_sugars(&base.composition.sugars);
        assert!((sugar - 1.7).abs() < 1e-9);
        assert_ne!(base.mean_buffer.from.kind, SourceKind::Own, "a buffer is on no label");
        assert!(base.allergens.contains(&"milk".to_owned()) && !base.vegan);
        assert_eq!(faults(&made, EntryKind::Base, &base.key), []);
        let own = OwnPantry::default().apply(&pantry, &OwnEdit::Add(Box::new(made))).unwrap().0;
        assert_eq!(own.count(), 1);
    }

    #[test]
    fn a_pot_of_the_entry_is_the_pot_of_the_label() {
        let (reading, study, pantry) = studied(TIN);
        let design = assets::demo("coconut-pot.ron").unwrap();
        let of = |design: &potset_doc::Design, pantry: &Pantry| {
            answer(&Scenario { design, pantry, kitchen: &Kitchen::default(), learnt: &Learnt::default() })
                .verdict
        };
        let labelled = edit::apply(&design, &into_design(&reading, &study).unwrap(), &pantry).unwrap();
        assert_eq!(labelled.bases[0].label.fat, Some(17.5));
        let made = as_entry(&reading, &study, &pantry).unwrap();
        let key = made.bases[0].key.clone();
        let own = OwnPantry::default().apply(&pantry, &OwnEdit::Add(Box::new(made))).unwrap().0;
        let all = own.over(&pantry);
        let kept = edit::apply(&design, &Edit::Swap(LineKind::Bases, 0, key), &all).unwrap();
        let (a, b) = (of(&labelled, &pantry), of(&kept, &all));
        let (a, b) = (a.tang.unwrap(), b.tang.unwrap());
        assert!((a.ph - b.ph).abs() < 1e-6, "{} and {}", a.ph, b.ph);
    }

    #[test]
    fn a_label_that_tells_nothing_gives_nothing() {
        let (reading, study, pantry) = studied("Wash before use");
        assert!(into_design(&reading, &study).is_none() && as_entry(&reading, &study, &pantry).is_none());
    }

    #[test]
    fn what_the_label_says_besides_figures_stays_with_the_design_and_the_entry() {
        let text = "MILLPOND COCONUT MILK. Per 100 g: fat 16 g, carbohydrate 2.9 g, protein 1.4 g. Ingredients: coconut \
                    extract 68 %, water, stabiliser: guar gum, calcium carbonate. Contains soy. May contain almonds.";
        let pantry = assets::pantry().unwrap();
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let reading = label::read(text);
        let study = crate::label::study(&reading, &pantry, &kitchen, &learnt);
        let design = assets::demo("coconut-pot.ron").unwrap();
        let made = edit::apply(&design, &into_design(&reading, &study).unwrap(), &pantry).unwrap();
        let packed = made.bases[0].packed.clone().unwrap();
        assert_eq!(packed.name, "Millpond coconut milk");
        assert_eq!(
            (packed.contains.as_slice(), packed.may_contain.len()),
            (&["soy".to_owned()][..], 1),
            "{packed:?}"
        );
        assert!(packed.additives.iter().any(|name| name == "guar gum"), "{packed:?}");
        let scenario = Scenario { design: &made, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let nutrition = answer(&scenario).nutrition;
        assert!(nutrition.allergens.iter().any(|(key, from)| key == "soy" && from[0] == packed.name));
        assert_eq!(nutrition.may_contain.len(), 1);
        let own = as_entry(&reading, &study, &pantry).unwrap();
        assert!(own.bases[0].handling.contains("guar gum") && own.bases[0].handling.contains("May contain"));
        assert!(own.bases[0].allergens.iter().any(|key| key == "soy"));
        // Another base in its place has another label.
        let other = Edit::Swap(LineKind::Bases, 0, "coconut_cream_tinned".to_owned());
        assert_eq!(edit::apply(&made, &other, &pantry).unwrap().bases[0].packed, None);
    }
}
