//! A label line by line: what each line was taken for, and which were not understood.

use potset_base::number;
use potset_doc::label::{Amount, LabelReading, Nutrient, ingredient_words};

/// How a line was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Understood {
    Wholly,
    /// Something on it was not understood.
    Partly,
    Not,
}

/// A line of a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineTold {
    /// From 1.
    pub number: usize,
    pub text: String,
    /// What it was taken for; empty if it was not understood.
    pub taken: String,
    pub understood: Understood,
}

/// Every line of the text that is not blank, in order: none is dropped.
pub fn lines(text: &str, reading: &LabelReading) -> Vec<LineTold> {
    let mut out = Vec::new();
    for (at, raw) in text.lines().enumerate() {
        let (number, text) = (at + 1, raw.trim());
        if text.is_empty() {
            continue;
        }
        let taken = taken(number, text, reading);
        let unread = reading.unread.iter().any(|l| l.number == number);
        let known = reading.understood.contains(&number);
        let understood = match (known, unread) {
            (true, false) => Understood::Wholly,
            (true, true) => Understood::Partly,
            (false, _) if !unread && !taken.is_empty() => Understood::Wholly,
            (false, _) => Understood::Not,
        };
        let taken = if understood == Understood::Not { String::new() } else { taken };
        out.push(LineTold { number, text: text.to_owned(), taken, understood });
    }
    out
}

fn taken(number: usize, text: &str, reading: &LabelReading) -> String {
    let mut parts: Vec<String> = Nutrient::ALL
        .into_iter()
        .filter_map(|n| reading.figure(n).filter(|f| f.line == number).map(|f| (n, f.amount)))
        .map(|(n, amount)| figure(n, amount))
        .collect();
    let listed: Vec<String> =
        reading.ingredients.iter().filter(|i| i.line == number).map(ingredient_words).collect();
    if !listed.is_empty() {
        parts.push(format!("ingredients: {}", listed.join(", ")));
    }
    if !parts.is_empty() {
        return parts.join("; ");
    }
    let lower = text.to_lowercase();
    if reading.name.as_ref().is_some_and(|name| lower.contains(&name.to_lowercase())) {
        return "its name".to_owned();
    }
    let claim = |list: &[String]| list.iter().any(|a| lower.contains(a.as_str()));
    if lower.contains("may ") && claim(&reading.may_contain) {
        return format!("may contain {}", reading.may_contain.join(", "));
    }
    if lower.contains("contain") && claim(&reading.contains) {
        return format!("contains {}", reading.contains.join(", "));
    }
    if lower.contains("100") || lower.contains("serving") || lower.contains("portion") {
        return format!("what the figures are for: {}", reading.basis.words());
    }
    "of no use here".to_owned()
}

fn figure(nutrient: Nutrient, amount: Amount) -> String {
    let unit = nutrient.unit();
    match amount {
        Amount::Exactly(v) => format!("{} {} {unit}", nutrient.words(), number::plain(v)),
        Amount::LessThan(v) => format!("{} under {} {unit}", nutrient.words(), number::plain(v)),
        Amount::Trace => format!("{}, a trace", nutrient.words()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::label::read;

    #[test]
    fn every_line_is_told_and_unread_ones_are_marked() {
        let text = "Coconut milk\n\nPer 100 g\nFat 17.5 g\nzzqx 12 frobs of gribble\nIngredients: coconut, water\nContains: sulphites";
        let told = lines(text, &read(text));
        assert_eq!(told.len(), 6);
        let of = |n: usize| told.iter().find(|l| l.number == n).unwrap();
        assert_eq!(of(1).taken, "its name");
        assert!(of(3).taken.contains("per 100 g"), "{:?}", of(3));
        assert_eq!(of(4).taken, "fat 17.5 g");
        assert_eq!((of(5).understood, of(5).taken.as_str()), (Understood::Not, ""));
        assert!(of(6).taken.starts_with("ingredients: coconut"), "{:?}", of(6));
        assert_eq!(of(7).taken, "contains sulphites");
    }
}
