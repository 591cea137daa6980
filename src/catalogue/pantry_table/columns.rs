//! The columns of each kind of entry, and their cells.

use super::diet::{Diet, diets};
use super::{Cell, Column};
use potset_base::measures::SpoonSet;
use potset_base::measures::whole::volume_span;
use potset_base::units::{self, Amounts};
use potset_base::{Cited, number};
use potset_doc::pantry::{
    Action, Additive, Base, Culture, Entry, EntryKind, Pantry, Raw, Sweetener, Thickener, Vessel, Warmer,
    Warming, all_sugars, find,
};
use potset_forecast::params;
use potset_science::params::WordLaw;
use potset_science::sensory::sucrose_equivalents;

/// Words that share the width which is left.
const fn words(head: &'static str, share: f32, tip: &'static str) -> Column {
    Column { head, unit: "", points: 0.0, share, number: false, tip }
}

/// Words of a known width.
const fn short(head: &'static str, points: f32, tip: &'static str) -> Column {
    Column { head, unit: "", points, share: 0.0, number: false, tip }
}

const fn figure(head: &'static str, unit: &'static str, points: f32, tip: &'static str) -> Column {
    Column { head, unit, points, share: 0.0, number: true, tip }
}

/// Width of a figure in g/100 g.
const GRAMS: f32 = 53.0;

const NAME: Column = words("Name", 3.0, "Name of the entry");
const DIET: Column =
    short("Diet", 122.0, "Whether it is vegan and without gluten; the page of an entry shows more");
const FAT: Column = figure("Fat", "g/100 g", GRAMS, "Fat as bought");
const PROTEIN: Column = figure("Protein", "g/100 g", 54.0, "Protein as bought");
const SUGARS: Column = figure("Sugars", "g/100 g", GRAMS, "All sugars as bought");
const USUAL: Column = figure("Usual", "g/L", 64.0, "Usual dose");
const SPOON: Column = figure("Spoon", "g", 50.0, "A level tablespoon of the set in use");

const ALL: &[Column] = &[
    NAME,
    short("Use", 76.0, "What it is for"),
    short("Usual amount", 120.0, "Usual dose or size"),
    words("Allergens", 1.4, "Allergens that it names"),
    DIET,
];
const BASES: &[Column] = &[
    NAME,
    FAT,
    PROTEIN,
    SUGARS,
    figure("Starch", "g/100 g", GRAMS, "Starch as bought"),
    figure("pH", "", 36.0, "pH as bought"),
    figure(
        "Buffer",
        "mmol/(kg pH)",
        84.0,
        "How much acid it takes to sour the entry: mean buffer from pH 6.5 to 4.3",
    ),
    figure("Density", "g/mL", 56.0, "At room temperature"),
    DIET,
];
const SWEET: &[Column] = &[
    NAME,
    words("Brings", 3.0, "Its sugars, g in 100 g"),
    figure("Water", "g/100 g", GRAMS, "Water as bought"),
    figure("Sweet", "× sucrose", 66.0, "Sweetness of the same weight against table sugar"),
    short("Food", 64.0, "Whether a culture can live on it"),
    SPOON,
    DIET,
];
const THICK: &[Column] = &[
    NAME,
    words("How it works", 2.2, "What kind of thickener it is"),
    USUAL,
    figure("Works at", "°C", 62.0, "It must reach this to swell, dissolve or set; cold ones need no heat"),
    SPOON,
    DIET,
];
const MORE: &[Column] = &[NAME, words("What it does", 3.4, "What it changes in a pot"), USUAL, SPOON, DIET];
const CULTURES: &[Column] = &[
    NAME,
    words("Form", 1.9, "How it comes"),
    words("Organisms", 3.0, "What is in it"),
    figure("Dose", "g/L", 48.0, "Weight that the packet says"),
    figure("In dairy", "× pace", 56.0, "Pace in dairy bases"),
    figure("In plants", "× pace", 60.0, "Pace in plant bases"),
    DIET,
];
const VESSELS: &[Column] = &[
    NAME,
    figure("Holds", "L", 80.0, "Its size"),
    figure(
        "In air",
        "h",
        80.0,
        "How slowly 1 L cools in still air: after this time a third of the way is left",
    ),
    figure("In a fridge", "h", 90.0, "The same in a fridge"),
];
const WARMERS: &[Column] = &[
    NAME,
    words("What kind", 2.0, "What it does to a pot"),
    figure("Usual", "°C", 70.0, "Usual setting, or the temperature of the place"),
    figure(
        "Pace",
        "h",
        60.0,
        "How slowly 1 L warms, or cools if it is only kept warm: then a third of the way is left",
    ),
    figure("Holds", "L", 60.0, "Most that it holds"),
];
const RAWS: &[Column] = &[
    NAME,
    FAT,
    PROTEIN,
    SUGARS,
    short("Strained", 64.0, "Whether it is usually strained"),
    figure("Water", "g per g", 60.0, "Usual water for grinding"),
    figure("Soak", "h", 50.0, "Usual soak"),
    DIET,
];

/// The columns of a kind; of all kinds together if none is named.
pub const fn columns(kind: Option<EntryKind>) -> &'static [Column] {
    match kind {
        None => ALL,
        Some(EntryKind::Base) => BASES,
        Some(EntryKind::Sugar) => SWEET,
        Some(EntryKind::Thickener) => THICK,
        Some(EntryKind::Additive) => MORE,
        Some(EntryKind::Culture) => CULTURES,
        Some(EntryKind::Vessel) => VESSELS,
        Some(EntryKind::Warmer) => WARMERS,
        Some(EntryKind::Raw) => RAWS,
    }
}

/// The cells of every entry of a kind; in the columns of all kinds if `mixed`.
pub fn cells(pantry: &Pantry, kind: EntryKind, mixed: bool, spoons: SpoonSet) -> Vec<Vec<Cell>> {
    let diets = diets(pantry, kind);
    if mixed {
        let entries = pantry.entries(kind).into_iter().zip(diets);
        return entries
            .map(|(e, diet)| {
                vec![
                    say(e.name()),
                    say(kind.one()),
                    said(usual(e, kind)),
                    said(e.allergens().join(", ")),
                    diet_cell(diet),
                ]
            })
            .collect();
    }
    let law = params::shipped().ok().map(|p| p.laws().words);
    match kind {
        EntryKind::Base => with(&pantry.bases, diets, base),
        EntryKind::Sugar => with(&pantry.sugars, diets, |e| sugar(e, law.as_ref(), spoons)),
        EntryKind::Thickener => with(&pantry.thickeners, diets, |e| thickener(e, spoons)),
        EntryKind::Additive => with(&pantry.additives, diets, |e| additive(e, spoons)),
        EntryKind::Culture => with(&pantry.cultures, diets, |e| culture(e, pantry)),
        EntryKind::Raw => with(&pantry.raws, diets, raw),
        EntryKind::Vessel => pantry.vessels.iter().map(vessel).collect(),
        EntryKind::Warmer => pantry.warmers.iter().map(warmer).collect(),
    }
}

/// The cells of all, with their diet at the end.
fn with<T>(list: &[T], diets: Vec<Diet>, cells: impl Fn(&T) -> Vec<Cell>) -> Vec<Vec<Cell>> {
    let one = |(entry, diet)| {
        let mut all = cells(entry);
        all.push(diet_cell(diet));
        all
    };
    list.iter().zip(diets).map(one).collect()
}

fn say(text: &str) -> Cell {
    Cell::Words(text.to_owned())
}

fn said(text: String) -> Cell {
    if text.is_empty() { Cell::Blank } else { Cell::Words(text) }
}

fn num(v: f64, decimals: usize) -> Cell {
    Cell::Number(v, number::fixed(v, decimals))
}

fn cited(c: &Cited, decimals: usize) -> Cell {
    num(c.value, decimals)
}

fn grams(v: f64) -> Cell {
    Cell::Number(v, number::figures(v, 2))
}

fn range((low, high): (f64, f64)) -> Cell {
    if high > 0.0 { Cell::Number(0.5 * (low + high), range_words(low, high)) } else { Cell::Blank }
}

/// A warmth or a span of them, °C, without the unit, which stands in the head.
fn warm((low, high): (f64, f64)) -> Cell {
    let scale = units::scale(units::WARMTH);
    let said = |c: f64| if scale.other() { number::fixed(scale.shown(c), 0) } else { number::plain(c) };
    let text =
        if low.to_bits() == high.to_bits() { said(low) } else { format!("{}–{}", said(low), said(high)) };
    if high > 0.0 { Cell::Number(0.5 * (low + high), text) } else { Cell::Blank }
}

fn range_words(low: f64, high: f64) -> String {
    if low.to_bits() == high.to_bits() {
        number::plain(low)
    } else {
        format!("{}–{}", number::plain(low), number::plain(high))
    }
}

fn diet_cell(diet: Diet) -> Cell {
    let marks = [(diet.vegan, "vegan"), (diet.gluten_free, "gluten-free")];
    let marks: Vec<&str> = marks.into_iter().filter(|(on, _)| *on && diet.food).map(|(_, w)| w).collect();
    said(marks.join(" · "))
}

fn spoon(bulk_density: &Cited, spoons: SpoonSet) -> Cell {
    grams(bulk_density.value * spoons.tablespoon_ml())
}

fn base(e: &Base) -> Vec<Cell> {
    let c = &e.composition;
    vec![
        say(&e.name),
        cited(&c.fat, 1),
        cited(&c.protein, 1),
        num(all_sugars(&c.sugars), 1),
        cited(&c.starch, 1),
        cited(&e.ph, 1),
        cited(&e.mean_buffer, 1),
        cited(&e.density, 2),
    ]
}

fn sugar(e: &Sweetener, law: Option<&WordLaw>, spoons: SpoonSet) -> Vec<Cell> {
    let mut each = [0.0; 8];
    for share in &e.sugars {
        each[share.sugar.index()] += share.g_per_100g.value / 100.0;
    }
    let sweet = law.map_or(Cell::Blank, |law| {
        grams(sucrose_equivalents(&each, law) + e.sweetness.as_ref().map_or(0.0, |s| s.value))
    });
    let brings: Vec<String> = e
        .sugars
        .iter()
        .map(|s| format!("{} {}", s.sugar.name(), number::figures(s.g_per_100g.value, 2)))
        .collect();
    vec![
        say(&e.name),
        said(brings.join(", ")),
        cited(&e.water, 1),
        sweet,
        say(if e.not_food { "not food" } else { "food" }),
        spoon(&e.bulk_density, spoons),
    ]
}

fn thickener(e: &Thickener, spoons: SpoonSet) -> Vec<Cell> {
    let (how, at) = match &e.action {
        Action::ColdStarch { .. } => ("starch, swells cold", None),
        Action::CookStarch { full_c, .. } => ("starch, to be cooked", Some(full_c)),
        Action::Gum { dissolve_c, .. } if dissolve_c.value > 0.0 => ("gum, dissolved hot", Some(dissolve_c)),
        Action::Gum { .. } => ("gum, swells cold", None),
        Action::Protein { .. } => ("protein", None),
        Action::Filler { .. } => ("fills the water", None),
        Action::Gel { dissolve_c, .. } => ("sets a gel", Some(dissolve_c)),
    };
    let at = at.map_or_else(|| Cell::Number(0.0, "cold".to_owned()), |c| warm((c.value, c.value)));
    vec![say(&e.name), say(how), range(e.usual), at, spoon(&e.bulk_density, spoons)]
}

fn additive(e: &Additive, spoons: SpoonSet) -> Vec<Cell> {
    let mut does = Vec::new();
    // A group that holds its proton as bought gives it to the pot; one that does not takes acid up.
    let gives = e.groups.iter().any(|g| g.bound.value > 0.5);
    let takes = e.groups.iter().any(|g| g.bound.value <= 0.5);
    if gives || e.lactic.is_some() || e.acetic.is_some() {
        does.push("sours".to_owned());
    }
    if takes {
        does.push(if e.gas { "takes up acid, gives gas" } else { "takes up acid" }.to_owned());
    }
    if e.calcium.is_some() {
        does.push("calcium".to_owned());
    }
    if e.lactase_per_g.is_some() {
        does.push("splits lactose".to_owned());
    }
    if !e.inhibits.is_empty() {
        let names: Vec<&str> = e.inhibits.iter().map(|i| i.inhibitor.words()).collect();
        does.push(format!("slows cultures ({})", names.join(", ")));
    }
    if !e.sugars.is_empty() {
        does.push("brings sugar".to_owned());
    }
    vec![say(&e.name), said(does.join(", ")), range(e.usual), spoon(&e.bulk_density, spoons)]
}

fn culture(e: &Culture, pantry: &Pantry) -> Vec<Cell> {
    let name =
        |key: &String| find(&pantry.organisms, key).map_or_else(|| key.replace('_', " "), |o| o.name.clone());
    let organisms: Vec<String> = e.doses.iter().map(|d| name(&d.organism)).collect();
    vec![
        say(&e.name),
        say(e.form.words()),
        said(organisms.join(", ")),
        grams(e.grams_per_litre.value),
        grams(e.speed_dairy.value),
        grams(e.speed_plant.value),
    ]
}

fn vessel(e: &Vessel) -> Vec<Cell> {
    vec![say(&e.name), grams(e.litres), grams(e.air_h.value), grams(e.fridge_h.value)]
}

fn warmer(e: &Warmer) -> Vec<Cell> {
    let (kind, pace) = match &e.warming {
        Warming::Heated { warming_h, .. } => ("heats to a setting", warming_h),
        Warming::Insulated { cooling_h } => ("keeps the warmth", cooling_h),
        Warming::Place { warming_h } => ("a warm place", warming_h),
    };
    vec![say(&e.name), say(kind), warm(e.usual), grams(pace.value), e.holds_litres.map_or(Cell::Blank, grams)]
}

fn raw(e: &Raw) -> Vec<Cell> {
    vec![
        say(&e.name),
        cited(&e.composition.fat, 1),
        cited(&e.composition.protein, 1),
        num(all_sugars(&e.composition.sugars), 1),
        say(if e.strained { "yes" } else { "no" }),
        range(e.usual_water),
        range(e.soak_h),
    ]
}

/// The usual dose or size of an entry, in words.
fn usual(entry: &dyn Entry, kind: EntryKind) -> String {
    let (low, high) = entry.usual();
    let us = units::spoken().amounts == Amounts::UsCustomary;
    match kind {
        EntryKind::Base | EntryKind::Vessel if us => volume_span(low, high),
        EntryKind::Warmer => match warm((low, high)) {
            Cell::Number(_, text) => format!("{text} {}", units::scale(units::WARMTH).unit),
            other => other.text().to_owned(),
        },
        _ => format!("{} {}", range_words(low, high), kind.usual_unit()),
    }
}
