//! Rows of figures: names of nutrients and the amounts behind them, by column.

use super::Nutrient::{self, *};
use super::amounts::{Cell, Cells, cells};
use super::tokens::{Kind, Token, tokens};
use super::vocabulary::{About, Unit, vocabulary};
use super::{Amount, Basis, Figure};

use About::{Calories, Energy, One, Other, TotalCarbohydrate};

/// A row as read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// With whether a unit was said, and one of the last printed digit.
    pub figures: Vec<(Nutrient, Amount, bool, f64)>,
    /// Only names that are of no use here.
    pub other: bool,
    pub holds_fibre: bool,
    /// Words before the first name: a heading may stand there.
    pub lead: Vec<Token>,
    /// Everything was understood.
    pub whole: bool,
    /// A name without an amount, at the end of the row.
    pub waits: Option<Waiting>,
}

/// A name whose amount may stand on the next line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Waiting(About);

/// The name that begins at a token, and how many tokens it takes.
fn name_at(tokens: &[Token], at: usize) -> Option<(About, usize)> {
    let word = |i: usize| match tokens.get(i).map(|t| &t.kind) {
        Some(Kind::Word(w)) => Some(w.as_str()),
        _ => None,
    };
    if word(at) == Some("vitamin") {
        // "Vitamin B12", "vitamin D".
        let letter = word(at + 1).is_some_and(|w| w.chars().count() == 1);
        let number =
            letter && matches!(tokens.get(at + 2), Some(Token { kind: Kind::Number(_), glued: true }));
        return Some((Other, 1 + usize::from(letter) + usize::from(number)));
    }
    vocabulary()
        .nutrients
        .iter()
        .find(|(name, _)| name.split(' ').enumerate().all(|(i, w)| word(at + i) == Some(w)))
        .map(|(name, about)| (*about, name.split(' ').count()))
}

/// Reads a row of figures; `None` if there is no name with an amount in it.
pub fn row(line: &str, columns: &[Basis]) -> Option<Row> {
    let tokens = tokens(line);
    let mut names = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        if let Some((about, length)) = name_at(&tokens, at) {
            names.push((about, at, at + length));
            at += length;
        } else {
            at += 1;
        }
    }
    let first = names.first()?.1;
    let mut row = Row { whole: true, ..Row::default() };
    if let [(One(AddedSugars), from, end)] = names.as_slice()
        && cells(&tokens[*end..], None).list.is_empty()
    {
        // "Includes 2 g added sugars 4 %": the number stands before the name.
        let found = cells(&tokens[..*from], None);
        row.whole &= cells(&tokens[*end..], None).whole;
        take(One(AddedSugars), &found, columns, &mut row);
        return (!row.figures.is_empty()).then_some(row);
    }
    row.lead = tokens[..first]
        .iter()
        .filter(|t| match &t.kind {
            Kind::Word(w) => !vocabulary().row_leads.has(w),
            Kind::Number(_) => true,
            Kind::Sign(c) => !"-*•·|:>()".contains(*c),
        })
        .cloned()
        .collect();
    for (i, (about, _, end)) in names.iter().enumerate() {
        let next = names.get(i + 1).map_or(tokens.len(), |n| n.1);
        let plain = (*about == Calories).then_some(Unit::Kcal);
        let found = cells(&tokens[*end..next], plain);
        if found.list.is_empty() && found.whole && i + 1 == names.len() && row.figures.is_empty() {
            row.waits = Some(Waiting(*about));
        }
        take(*about, &found, columns, &mut row);
    }
    (!row.figures.is_empty() || row.other || row.waits.is_some()).then_some(row)
}

/// Reads a line of amounts only, for a name on the line before it, or for energy.
pub fn amounts_only(line: &str, waiting: Option<Waiting>, columns: &[Basis]) -> Option<Row> {
    let about = waiting.map_or(Energy, |w| w.0);
    let found = cells(&tokens(line), (about == Calories).then_some(Unit::Kcal));
    if !found.whole || found.list.is_empty() {
        return None;
    }
    let mut row = Row { whole: true, ..Row::default() };
    take(about, &found, columns, &mut row);
    (row.whole && (row.other || !row.figures.is_empty())).then_some(row)
}

/// Puts the amounts of one name into the row.
fn take(about: About, found: &Cells, columns: &[Basis], row: &mut Row) {
    row.whole &= found.whole;
    if found.broken {
        return;
    }
    let before = row.figures.len();
    match about {
        Other => {
            row.other |= !found.list.is_empty();
            row.whole &= !found.list.is_empty();
            return;
        }
        Energy | Calories => {
            for (unit, nutrient) in [(Unit::Kj, EnergyKj), (Unit::Kcal, EnergyKcal)] {
                let of_unit: Vec<Cell> = found
                    .list
                    .iter()
                    .filter(|c| {
                        c.unit == Some(unit) || (c.unit.is_none() && unit == Unit::Kcal && about == Calories)
                    })
                    .copied()
                    .collect();
                row.whole &= of_unit.is_empty() || pick(&of_unit, columns).is_some();
                if let Some(cell) = pick(&of_unit, columns)
                    && let Some(amount) = cell.amount
                {
                    row.figures.push((nutrient, amount, true, cell.step));
                }
            }
            row.whole &= found.list.iter().all(|c| match c.unit {
                Some(unit) => matches!(unit, Unit::Kj | Unit::Kcal),
                None => about == Calories || c.amount.is_none(),
            });
        }
        One(nutrient) => one(nutrient, found, columns, row),
        TotalCarbohydrate => {
            one(Carbohydrate, found, columns, row);
            row.holds_fibre |= row.figures.len() > before;
        }
    }
    // A dash or "n/a" is understood, and says nothing.
    let empty = !found.list.is_empty() && found.list.iter().all(|c| c.amount.is_none());
    row.other |= empty && found.whole;
    row.whole &= row.figures.len() > before || empty;
}

fn one(nutrient: Nutrient, found: &Cells, columns: &[Basis], row: &mut Row) {
    let Some(cell) = pick(&found.list, columns) else {
        row.whole = false;
        return;
    };
    let Some(amount) = cell.amount else { return };
    let to_g = match cell.unit {
        Some(Unit::Gram) => 1.0,
        Some(Unit::Milligram) => 1e-3,
        Some(Unit::Microgram) => 1e-6,
        Some(_) => {
            row.whole = false;
            return;
        }
        None if matches!(amount, Amount::Trace) || amount.likely() == 0.0 => 1.0,
        // Sodium and calcium without a unit could be either.
        None if nutrient.unit() == "mg" => {
            row.whole = false;
            return;
        }
        None => 1.0,
    };
    let in_mg = nutrient.unit() == "mg";
    let factor = match (in_mg, cell.unit) {
        (true, Some(Unit::Milligram)) => 1.0,
        (true, _) => to_g * 1e3,
        (false, _) => to_g,
    };
    if amount.likely() * factor > 1e6 {
        row.whole = false;
        return;
    }
    let amount = match amount {
        Amount::Exactly(v) => Amount::Exactly(v * factor),
        Amount::LessThan(v) => Amount::LessThan(v * factor),
        Amount::Trace => Amount::Trace,
    };
    let unit_said = cell.unit.is_some() || matches!(amount, Amount::Trace) || amount.likely() == 0.0;
    row.figures.push((nutrient, amount, unit_said, cell.step * factor));
}

/// The entry of the column that is read; `None` if it is not plain which one that is.
fn pick(list: &[Cell], columns: &[Basis]) -> Option<Cell> {
    let wanted = columns.len().max(1);
    (list.len() == wanted).then(|| list[best(columns)])
}

/// The column to read: per 100 g before per 100 mL before a serving.
pub fn best(columns: &[Basis]) -> usize {
    let rank = |b: &Basis| match b {
        Basis::Per100G => 0,
        Basis::Per100Ml => 1,
        Basis::Serving(Some(_)) => 2,
        Basis::Serving(None) => 3,
        Basis::NotSaid => 4,
    };
    columns.iter().enumerate().min_by_key(|(_, b)| rank(b)).map_or(0, |(at, _)| at)
}

/// A row's figure for the reading.
pub const fn figure(amount: Amount, unit_said: bool, step: f64, line: usize) -> Figure {
    Figure { amount, unit_said, step, line }
}
