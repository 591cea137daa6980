//! Nutrition, allergens and lactose in words, and the table as a custom prints it. A custom is a variant of
//! `base::LabelRule`: statement, rounding, rows.

use potset_base::allergen::allergen;
use potset_base::label_rule::LabelRule;
use potset_base::number;
use potset_doc::Kitchen;
use potset_judge::nutrition::{Cost, Nutrition};
use potset_science::nutrition::Macros;
use potset_science::nutrition::rounding::{Line, printed};

/// A row of the printed table.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    pub name: &'static str,
    /// Whether it is a part of the line above it.
    pub is_part: bool,
    pub before: String,
    pub per_100g: String,
    pub per_serving: String,
}

/// Calcium that may be declared in the EU: 15 % of the reference value of 800 mg in 100 g, mg (drinks: 7.5 %, but a pot is none).
/// Source: from memory, Regulation (EU) 1169/2011, annex XIII.
const EU_LEAST_CALCIUM: f64 = 120.0;

/// The table as a custom prints it, each figure rounded on its own.
pub fn table(n: &Nutrition, rule: LabelRule) -> Vec<Row> {
    let serving = n.after.times(n.serving_g / 100.0);
    let row = |name: &'static str, line: Line, of: &dyn Fn(&Macros) -> f64| Row {
        name,
        is_part: line.is_part(),
        before: printed(line, of(&n.before), rule),
        per_100g: printed(line, of(&n.after), rule),
        per_serving: printed(line, of(&serving), rule),
    };
    let us = rule == LabelRule::UnitedStates;
    let mut rows = Vec::new();
    if us {
        rows.push(row("Energy", Line::Energy, &Macros::kilocalories_us));
    } else {
        rows.push(row("Energy, kJ", Line::EnergyKj, &Macros::kilojoules));
        rows.push(row("Energy, kcal", Line::Energy, &Macros::kilocalories));
    }
    rows.push(row("Fat", Line::Fat, &|m| m.fat));
    rows.push(row("of which saturates", Line::Saturates, &|m| m.saturates));
    if us {
        rows.push(row("Total carbohydrate", Line::Carbohydrate, &Macros::by_difference));
    } else {
        rows.push(row("Carbohydrate", Line::Carbohydrate, &|m| m.carbohydrate));
    }
    rows.push(row("of which sugars", Line::Sugars, &|m| m.sugars));
    if n.after.polyols + n.after.idle > 0.0 {
        rows.push(row("of which polyols", Line::Polyols, &|m| m.polyols + m.idle));
    }
    rows.push(row("Fibre", Line::Fibre, &|m| m.fibre));
    rows.push(row("Protein", Line::Protein, &|m| m.protein));
    if rule == LabelRule::EuropeanUnion {
        rows.push(row("Salt", Line::Salt, &|m| m.sodium * 2.5e-3));
    } else {
        rows.push(row("Sodium", Line::Sodium, &|m| m.sodium));
    }
    if rule != LabelRule::EuropeanUnion || n.after.calcium >= EU_LEAST_CALCIUM {
        rows.push(row("Calcium", Line::Calcium, &|m| m.calcium));
    }
    rows
}

/// What the lactose that is left means, with the thresholds by name.
///
/// Source: published, EFSA Journal 2010;8(9):1777 (12 g in one dose; no common rule in the EU), RS 817.022.16 and German
/// practice (0.1 g/100 g); Nordic practice 0.01 g/100 g and low lactose 1 g/100 g, Food Standards Code schedule 4 low
/// lactose 2 g/100 g from memory.
pub fn lactose(n: &Nutrition) -> Vec<String> {
    let left = n.after.lactose;
    let galactose = (n.after.galactose > 0.05).then(|| {
        format!(
            "{} g galactose per 100 g: not for galactosaemia, whatever the lactose.",
            number::fixed(n.after.galactose, 2)
        )
    });
    if left <= 0.0 && n.before.lactose <= 0.0 {
        return std::iter::once("No lactose goes in.".to_owned()).chain(galactose).collect();
    }
    let serving = left * n.serving_g / 100.0;
    let mut out = vec![format!(
        "{} g lactose left per 100 g of {} g; {} g in a serving. Most people who digest it badly take up to 12 g at once \
         (EFSA 2010).",
        number::fixed(left, 2),
        number::fixed(n.before.lactose, 2),
        number::fixed(serving, 1)
    )];
    let line = if left < 0.01 {
        "Under 0.01 g/100 g, the line of the Nordic countries for “lactose-free”."
    } else if left < 0.1 {
        "Under 0.1 g/100 g, the line of Switzerland and Germany for “lactose-free”; the Nordic line is 0.01."
    } else if left < 1.0 {
        "Under 1 g/100 g, “low lactose” in Nordic practice; not lactose-free (0.1)."
    } else if left <= 2.0 {
        "Under 2 g/100 g, “low lactose” in Australia and New Zealand; not lactose-free (0.1)."
    } else {
        "Above every line for low lactose (1 g/100 g Nordic, 2 g/100 g Australia and New Zealand)."
    };
    out.push(line.to_owned());
    out.extend(galactose);
    out
}

/// Allergens in a sentence or two, those on the list of a place first; what a label says *may* be in it stands last.
pub fn allergen_words(n: &Nutrition, rule: LabelRule) -> String {
    let may: Vec<String> = n.may_contain.iter().map(|(what, of)| format!("{what} ({of})")).collect();
    match may.is_empty() {
        true => contained(n, rule),
        false => format!("{} May contain {}, by the label.", contained(n, rule), may.join(", ")),
    }
}

fn contained(n: &Nutrition, rule: LabelRule) -> String {
    if n.allergens.is_empty() {
        return "What goes in names no allergen.".to_owned();
    }
    let words = |key: &str| allergen(key).map_or_else(|| key.to_owned(), |a| a.words().to_owned());
    let (listed, others): (Vec<_>, Vec<_>) =
        n.allergens.iter().partition(|(key, _)| allergen(key).is_none_or(|a| a.listed(rule)));
    let say = |list: &[&(String, Vec<String>)]| {
        list.iter()
            .map(|(key, from)| format!("{} ({})", words(key), from.join(", ")))
            .collect::<Vec<_>>()
            .join(", ")
    };
    let mut out = String::new();
    if !listed.is_empty() {
        out.push_str(&format!("Contains {}.", say(&listed)));
    }
    if !others.is_empty() {
        let gap = if out.is_empty() { "" } else { " " };
        out.push_str(&format!("{gap}Also contains {}.", say(&others)));
    }
    out
}

/// Gluten in a sentence.
pub fn gluten_words(n: &Nutrition) -> String {
    if n.gluten.is_empty() {
        "Nothing with gluten goes in; only a test shows under 20 mg/kg.".to_owned()
    } else {
        format!("Contains or may contain gluten: {}.", n.gluten.join(", "))
    }
}

/// What a pot costs, and what has no price yet.
pub fn cost_words(c: &Cost, kitchen: &Kitchen) -> Vec<String> {
    let money = |amount: f64| kitchen.money(amount);
    let costs = (c.known > 0.0).then(|| {
        let (all, serving, kilogram) = (money(c.known), money(c.per_serving), money(c.per_kg));
        format!("Costs {all}: {serving} a serving, {kilogram} a kilogram.")
    });
    let missing = (!c.missing.is_empty()).then(|| format!("No price yet: {}.", c.missing.join(", ")));
    costs.into_iter().chain(missing).collect()
}

/// What must always be said with such a table.
pub const ADVICE: &str = "Worked out, not measured: check local labelling law before selling.";

/// The table as text, tabs between columns, with the rule that was used.
pub fn text(n: &Nutrition, rule: LabelRule) -> String {
    let mut out =
        format!("\tper 100 g before\tper 100 g eaten\tper serving of {} g\n", number::plain(n.serving_g));
    for row in table(n, rule) {
        out.push_str(&format!("{}\t{}\t{}\t{}\n", row.name, row.before, row.per_100g, row.per_serving));
    }
    for line in [allergen_words(n, rule), gluten_words(n), rule.statement().to_owned(), ADVICE.to_owned()] {
        out.push_str(&line);
        out.push('\n');
    }
    out
}
