//! In what designs differ: every input of each, aligned line by line, in one unit; what is the same is left out.

mod lines;
mod steps;

use super::part::Part;
use potset_base::number::{self, NBSP};
use potset_base::units;
use potset_doc::{Design, Pantry};
use potset_judge::answer::Answer;

/// One input of one design.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A number with its decimals and unit.
    Number(f64, usize, &'static str),
    Words(String),
}

impl Value {
    /// In words.
    pub fn words(&self) -> String {
        match self {
            Self::Number(v, decimals, unit) => number::with_unit(*v, *decimals, unit),
            Self::Words(words) => words.clone(),
        }
    }

    /// Whether a maker would call both the same: rounding of the arithmetic does not count.
    fn same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Number(a, _, u), Self::Number(b, _, v)) => {
                u == v && (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-6)
            }
            (a, b) => a == b,
        }
    }
}

/// One input with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    pub part: Part,
    pub name: String,
    pub value: Value,
}

impl Input {
    fn number(part: Part, name: impl Into<String>, v: f64, decimals: usize, unit: &'static str) -> Self {
        Self { part, name: name.into(), value: Value::Number(v, decimals, unit) }
    }

    fn words(part: Part, name: impl Into<String>, words: impl Into<String>) -> Self {
        Self { part, name: name.into(), value: Value::Words(words.into()) }
    }
}

/// Most decimals that are added to the usual ones where numbers differ by little.
const MORE_DECIMALS: usize = 6;

/// An input in which designs differ.
#[derive(Clone, Debug, PartialEq)]
pub struct InputRow {
    pub part: Part,
    pub name: String,
    /// One for each design; nothing where it has none.
    pub values: Vec<Option<Value>>,
}

impl InputRow {
    /// The value of a design in words.
    pub fn words(&self, i: usize) -> String {
        match self.values.get(i).and_then(Option::as_ref) {
            Some(Value::Number(v, decimals, unit)) => number::with_unit(*v, self.decimals(*decimals), unit),
            Some(value) => value.words(),
            None => "none".to_owned(),
        }
    }

    /// How a design's number stands to the first one's: "+3 g/L"; empty for words.
    pub fn difference(&self, i: usize) -> String {
        match (self.values.first(), self.values.get(i)) {
            (Some(Some(Value::Number(a, decimals, unit))), Some(Some(Value::Number(b, _, _)))) if a != b => {
                let sign = if b > a { "+" } else { "" };
                let said = units::scale(units::apart(unit));
                let decimals = units::scale(unit).decimals(self.decimals(*decimals));
                let scale = 10_f64.powi(i32::try_from(decimals).unwrap_or(2));
                let by = said.shown(b - a);
                let text = number::plain((by * scale).round() / scale);
                let unit = said.unit;
                if unit.is_empty() { format!("{sign}{text}") } else { format!("{sign}{text}{NBSP}{unit}") }
            }
            _ => String::new(),
        }
    }

    /// As many decimals as numbers that differ need so as not to be printed alike, the usual ones at least.
    fn decimals(&self, usual: usize) -> usize {
        let numbers: Vec<&Value> =
            self.values.iter().flatten().filter(|v| matches!(v, Value::Number(..))).collect();
        let printed = |value: &Value, decimals: usize| match value {
            Value::Number(v, _, unit) => number::with_unit(*v, decimals, unit),
            Value::Words(_) => String::new(),
        };
        let told_apart = |decimals: &usize| {
            let alike = |a: &&Value, b: &&Value| !a.same(b) && printed(a, *decimals) == printed(b, *decimals);
            !numbers.iter().enumerate().any(|(i, a)| numbers[..i].iter().any(|b| alike(a, b)))
        };
        (usual..usual + MORE_DECIMALS).find(told_apart).unwrap_or(usual + MORE_DECIMALS)
    }

    /// Whether two designs have the same.
    pub fn same(&self, i: usize, j: usize) -> bool {
        match (&self.values[i], &self.values[j]) {
            (Some(a), Some(b)) => a.same(b),
            (None, None) => true,
            _ => false,
        }
    }

    fn differs(&self) -> bool {
        (1..self.values.len()).any(|i| !self.same(i - 1, i))
    }
}

/// The rows in which designs differ, in making order. What the mix is made of comes from the answers.
pub fn rows(designs: &[&Design], answers: &[&Answer], pantry: &Pantry) -> Vec<InputRow> {
    let slots = lines::Slots::new(designs);
    let all: Vec<Vec<Input>> = designs
        .iter()
        .enumerate()
        .map(|(d, design)| {
            let mut inputs = lines::inputs(d, design, &slots, pantry);
            inputs.extend(answers.get(d).into_iter().flat_map(|a| mix(a)));
            inputs.extend(steps::inputs(design, pantry));
            inputs
        })
        .collect();
    let mut rows: Vec<InputRow> = Vec::new();
    for part in Part::ALL {
        let from = rows.len();
        for (d, inputs) in all.iter().enumerate() {
            for input in inputs.iter().filter(|i| i.part == part) {
                let row = rows[from..].iter_mut().find(|r| r.name == input.name);
                match row {
                    Some(row) => row.values[d] = Some(input.value.clone()),
                    None => {
                        let mut values = vec![None; designs.len()];
                        values[d] = Some(input.value.clone());
                        rows.push(InputRow { part, name: input.name.clone(), values });
                    }
                }
            }
        }
    }
    rows.retain(InputRow::differs);
    rows
}

/// What the mix holds: figures that come of the bases together.
fn mix(answer: &Answer) -> Vec<Input> {
    let facts = &answer.facts;
    let grams = facts.content.early_kg * 1000.0;
    if !answer.errors.is_empty() || grams <= 0.0 {
        return Vec::new();
    }
    let early = facts.content.early.times(100.0 / grams);
    vec![
        Input::number(Part::Base, "fat of the mix", early.fat, 1, "%"),
        Input::number(Part::Base, "protein of the mix", early.protein, 1, "%"),
        Input::number(
            Part::Base,
            "sugar of its own",
            facts.own_sugar_g_kg * answer.forecast.density,
            1,
            "g/L",
        ),
        Input::number(Part::Base, "acid to lower it by one pH", facts.mean_buffer, 1, "mmol/kg"),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_differ_are_printed_with_the_decimals_that_this_needs() {
        let row = |values: &[f64]| InputRow {
            part: Part::Sugar,
            name: String::new(),
            values: values.iter().map(|v| Some(Value::Number(*v, 1, "g/L"))).collect(),
        };
        let words = |row: &InputRow| (0..row.values.len()).map(|i| row.words(i)).collect::<Vec<_>>();
        let spaced = |v: &str| format!("{v}{NBSP}g/L");
        assert_eq!(words(&row(&[12.5, 14.0])), [spaced("12.5"), spaced("14.0")]);
        let close = row(&[10.0 / 3.0, 3.31]);
        assert_eq!(words(&close), [spaced("3.33"), spaced("3.31")]);
        assert_eq!(close.difference(1), spaced("\u{2212}0.02"));
        assert_eq!(words(&row(&[2.0, 2.0 + 1e-12, 2.04])), [spaced("2.00"), spaced("2.00"), spaced("2.04")]);
    }

    #[test]
    fn warmths_that_differ_are_told_apart_in_fahrenheit_and_their_difference_is_not_moved() {
        let _speaking =
            units::speak(units::Units { degrees: units::Degrees::Fahrenheit, ..Default::default() });
        let held = |values: &[f64]| InputRow {
            part: Part::Warmth,
            name: "held at".to_owned(),
            values: values.iter().map(|v| Some(Value::Number(*v, 1, units::WARMTH))).collect(),
        };
        let row = held(&[40.0, 42.5]);
        assert_eq!([row.words(0), row.words(1)], ["104", "109"].map(|v| format!("{v}{NBSP}°F")));
        assert_eq!(row.difference(1), format!("+5{NBSP}°F"));
        let close = held(&[40.0, 40.1]);
        assert_eq!([close.words(0), close.words(1)], ["104.0", "104.2"].map(|v| format!("{v}{NBSP}°F")));
    }
}
