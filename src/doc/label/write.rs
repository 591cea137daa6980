//! A reading as plain text, which is read back as the same reading.

use super::{Amount, Basis, Ingredient, LabelReading, Nutrient};
use potset_base::words::capital;

/// Writes a reading. Lines that were not understood follow at the end, marked with a question mark.
pub fn write(label: &LabelReading) -> String {
    let mut lines = Vec::new();
    lines.extend(label.name.as_ref().map(|name| format!("Product: {name}")));
    lines.extend(label.serving.map(|size| format!("Serving size {}", size.words())));
    if label.basis != Basis::NotSaid {
        lines.push(capital(&label.basis.words()));
    }
    for nutrient in Nutrient::ALL {
        lines.extend(label.figure(nutrient).map(|f| figure(label, nutrient, f.amount, f.unit_said)));
    }
    if !label.ingredients.is_empty() {
        lines.push(format!("Ingredients: {}", list(&label.ingredients)));
    }
    for (heading, names) in [("Contains", &label.contains), ("May contain", &label.may_contain)] {
        if !names.is_empty() {
            lines.push(format!("{heading}: {}", names.join(", ")));
        }
    }
    lines.extend(label.unread.iter().map(|line| format!("? {}", line.text)));
    lines.join("\n") + "\n"
}

fn figure(label: &LabelReading, nutrient: Nutrient, amount: Amount, unit_said: bool) -> String {
    let name = match nutrient {
        // A trace has no unit to tell kcal by.
        Nutrient::EnergyKcal if amount == Amount::Trace => "calories",
        Nutrient::Carbohydrate if label.carbohydrate_holds_fibre => "total carbohydrate",
        _ => nutrient.words(),
    };
    let unit = if unit_said { format!(" {}", nutrient.unit()) } else { String::new() };
    let amount = match amount {
        Amount::Exactly(v) => format!("{v}{unit}"),
        Amount::LessThan(v) => format!("< {v}{unit}"),
        Amount::Trace => "trace".to_owned(),
    };
    format!("{} {amount}", capital(name))
}

fn list(all: &[Ingredient]) -> String {
    all.iter().map(ingredient).collect::<Vec<_>>().join(", ")
}

/// One ingredient as the label would give it: "stabiliser: guar gum 0.3 %", "coconut milk 60 % (coconut, water)".
pub fn ingredient(one: &Ingredient) -> String {
    let mut text = match one.role.map(super::Role::words) {
        Some(role) if role != one.name => format!("{role}: {}", one.name),
        _ => one.name.clone(),
    };
    if let Some(number) = one.number
        && super::additives::number(&one.name) != Some(number)
        && super::additives::code(&one.name) != Some(number)
    {
        text.push_str(&format!(" e{number}"));
    }
    if let Some(percent) = one.percent {
        text.push_str(&format!(" {percent} %"));
    }
    if !one.parts.is_empty() {
        text.push_str(&format!(" ({})", list(&one.parts)));
    }
    text
}
