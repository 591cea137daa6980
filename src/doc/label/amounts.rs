//! The amounts behind a name: "21,3 g 12 %", "< 0.5 g | 1 g", "850 kJ / 204 kcal".

use super::Amount;
use super::tokens::{Kind, Thousands, Token, value};
use super::vocabulary::{Said, Unit, vocabulary};

impl Unit {
    pub fn of(word: &str) -> Option<Self> {
        vocabulary().units.get(word).copied()
    }

    const fn thousands(self) -> Thousands {
        match self {
            Self::Kj | Self::Kcal => Thousands::Either,
            Self::Milligram | Self::Microgram | Self::Millilitre => Thousands::Comma,
            Self::Gram => Thousands::Never,
        }
    }
}

/// One entry of a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Empty: a dash or "n/a" where the label gives nothing.
    pub amount: Option<Amount>,
    pub unit: Option<Unit>,
    /// One of the last digit that is printed, in that unit: 1 for "3 g", 0.1 for "3.0 g".
    pub step: f64,
}

impl Cell {
    /// An entry in words: a trace, nothing, a dash.
    const fn said(amount: Option<Amount>) -> Self {
        Self { amount, unit: None, step: 0.0 }
    }
}

/// The entries of a row, and whether every token was understood.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cells {
    pub list: Vec<Cell>,
    /// Units that stand alone before the numbers: "(g)", "kJ/kcal".
    pub announced: Vec<Unit>,
    pub whole: bool,
    /// Digits run into letters or a minus: no number of this row can be trusted.
    pub broken: bool,
}

/// Signs that set entries apart: a number in brackets or behind a slash is one more entry.
const SIGNS: &str = "|:;,./()[]*†‡_…~=%";

/// Reads the amounts of a row. `plain` is the unit of figures that name none.
pub fn cells(tokens: &[Token], plain: Option<Unit>) -> Cells {
    let mut out = Cells { whole: true, ..Cells::default() };
    let mut less = false;
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        at += 1;
        match &token.kind {
            Kind::Sign('<') => less = true,
            Kind::Sign('-') => dash(tokens, at, &mut out),
            Kind::Sign(sign) => out.whole &= SIGNS.contains(*sign),
            // "n/a" comes apart into two words.
            Kind::Word(word)
                if word == "a"
                    && tokens.get(at.wrapping_sub(2)).is_some_and(|t| t.kind == Kind::Sign('/')) => {}
            Kind::Word(word) => match (vocabulary().amounts.get(word), Unit::of(word)) {
                (Some(Said::Less), _) => less = true,
                (Some(Said::Trace), _) => out.list.push(Cell::said(Some(Amount::Trace))),
                (Some(Said::Zero), _) => out.list.push(Cell::said(Some(Amount::Exactly(0.0)))),
                (Some(Said::NotGiven), _) => out.list.push(Cell::said(None)),
                (Some(Said::Filler), _) => {}
                (None, Some(unit)) if out.list.is_empty() => out.announced.push(unit),
                // A unit that names a column again says nothing new.
                (None, Some(_)) if !token.glued => {}
                (None, _) => out.whole = false,
            },
            Kind::Number(digits) => {
                at = number(tokens, at, digits, (&mut less, plain), &mut out);
            }
        }
    }
    out.whole &= !out.broken;
    // A dash before the numbers only joins them to their name.
    if out.list.len() > 1
        && out.list[0].amount.is_none()
        && matches!(tokens.first().map(|t| &t.kind), Some(Kind::Sign('-')))
    {
        out.list.remove(0);
    }
    out
}

/// A dash alone is an empty entry; before a digit it would be a minus or a range, which no label means.
fn dash(tokens: &[Token], at: usize, out: &mut Cells) {
    let next = tokens.get(at);
    if next.is_some_and(|t| t.glued && matches!(t.kind, Kind::Number(_))) {
        out.broken = true;
    } else if next.is_none_or(|t| !t.glued) {
        out.list.push(Cell::said(None));
    }
}

/// Takes one number with its unit; returns where to go on.
fn number(
    tokens: &[Token],
    mut at: usize,
    digits: &str,
    (less, plain): (&mut bool, Option<Unit>),
    out: &mut Cells,
) -> usize {
    let bound = std::mem::take(less);
    let mut digits = digits.to_owned();
    out.broken |= runs_into(tokens, at - 1);
    // "1 250 kJ": a group of three after one digit, with a unit that goes that far.
    if let (Some(Token { kind: Kind::Number(group), glued: false }), Some(Kind::Word(word))) =
        (tokens.get(at), tokens.get(at + 1).map(|t| &t.kind))
        && digits.len() == 1
        && group.len() == 3
        && Unit::of(word).is_some_and(|u| u.thousands() != Thousands::Never)
    {
        digits.push_str(group);
        at += 1;
    }
    let mut unit = None;
    match tokens.get(at).map(|t| &t.kind) {
        Some(Kind::Sign('%')) => return at + 1,
        Some(Kind::Word(word)) => {
            unit = Unit::of(word);
            at += usize::from(unit.is_some());
        }
        _ => {}
    }
    let announced = (!out.announced.is_empty()).then(|| out.announced[out.list.len() % out.announced.len()]);
    let meant = unit.or(announced).or(plain);
    match value(&digits, meant.map_or(Thousands::Never, Unit::thousands)) {
        Some(v) => {
            let amount = if bound { Amount::LessThan(v) } else { Amount::Exactly(v) };
            let step = step(&digits, v);
            out.list.push(Cell { amount: Some(amount), unit: unit.or(announced), step });
        }
        None => out.broken = true,
    }
    at
}

/// One of the last digit of a number: what stands behind its decimal sign tells.
fn step(digits: &str, v: f64) -> f64 {
    let behind = digits.rfind(['.', ',']).map_or(0, |at| digits.len() - at - 1);
    let plain: String = digits.chars().filter(char::is_ascii_digit).collect();
    // "1,250 kJ": the sign sets off thousands, and nothing stands behind the decimal one.
    let whole = plain.parse::<f64>().is_ok_and(|all| (all - v).abs() <= 1e-9 * all.abs() && all != 0.0);
    if whole { 1.0 } else { (0..behind).fold(1.0, |step, _| step / 10.0) }
}

/// Whether the number at a token has letters, a minus or a second point stuck to it: "2l.3", "8G5", "0.O4", "2-4".
fn runs_into(tokens: &[Token], at: usize) -> bool {
    let glued = |i: usize| tokens.get(i).filter(|t| t.glued).map(|t| &t.kind);
    let percent = glued(at + 1) == Some(&Kind::Sign('%'));
    let before = tokens[at].glued
        && at > 0
        && matches!(&tokens[at - 1].kind, Kind::Word(w) if !(percent && Unit::of(w).is_some()));
    let behind = match glued(at + 1) {
        Some(Kind::Word(word)) => Unit::of(word).is_none(),
        Some(Kind::Sign('-')) => true,
        Some(Kind::Sign('.' | ',')) => matches!(glued(at + 2), Some(Kind::Word(_) | Kind::Number(_))),
        _ => false,
    };
    before || behind
}
