//! Where the numbers come from: every cited number of the model and the pantry, in words, and what a design uses of it.

mod basis;
mod kind;
mod names;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

pub use basis::Basis;
pub use kind::Kind;

use crate::acting::Acting;
use crate::learnt::learnt_figures;
use crate::measured_readings::figures;
use crate::params;
use potset_base::units::prose::prose;
use potset_base::{Cited, Source, number};
use potset_doc::measured::stands_for;
use potset_doc::number_words::words;
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_science::params::{CautionRow, Curve, Params};

/// A cited number as a line of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// As in the data: "gel.heated_pa", "organisms.s_thermophilus.growth_rate".
    pub key: String,
    /// What it belongs to, in words.
    pub group: String,
    /// What it is, in words.
    pub name: String,
    /// The likely value, without unit; a curve or a row says several.
    pub value: String,
    pub unit: String,
    /// Bounds of the middle 90 %, without unit; empty if it is taken as exact.
    pub spread: String,
    /// What it holds for, when that is narrower than all pots.
    pub valid: String,
    pub kind: Kind,
    /// Reference, or how it was chosen.
    pub source: String,
    /// The design at hand rests on it.
    pub used: bool,
    /// It is the design's own copy, which differs from the pantry or is not in it.
    pub own: bool,
}

impl Number {
    fn new(key: String, (group, name): (String, String), cited: &Cited) -> Self {
        let bounds = cited.spread.bounds();
        Self {
            key,
            group,
            name,
            value: number::plain(cited.value),
            unit: cited.unit.trim_matches('-').to_owned(),
            spread: bounds
                .map_or_else(String::new, |(a, b)| format!("{} to {}", number::plain(a), number::plain(b))),
            valid: cited.valid.clone(),
            kind: Kind::of(&cited.from),
            source: cited.from.text.clone(),
            used: false,
            own: false,
        }
    }

    fn row(key: &str, value: String, unit: &str, spread: String, from: &Source) -> Self {
        let (group, name) = names::parameter(key);
        Self {
            key: key.to_owned(),
            group,
            name,
            value,
            unit: unit.to_owned(),
            spread,
            valid: String::new(),
            kind: Kind::of(from),
            source: from.text.clone(),
            used: false,
            own: false,
        }
    }

    /// Value with its unit, as it is read.
    pub fn quantity(&self) -> String {
        let value = powers(&self.value);
        if self.unit.is_empty() { value } else { format!("{value}{}{}", number::NBSP, self.unit) }
    }

    /// The spread as it is read.
    pub fn within(&self) -> String {
        powers(&self.spread)
    }

    /// Group and name in one.
    pub fn title(&self) -> String {
        prose(&format!("{}: {}", self.group, self.name))
    }
}

/// Every cited number, and what the design at hand has in it.
#[derive(Clone, Debug, Default)]
pub struct Numbers {
    pub all: Vec<Number>,
    pub uses: Acting,
}

/// Every cited number: the parameters in the order of their file, then the pantry, then what is the design's own.
///
/// Constants of published correlations stand in the functions; their source is told with the equation.
pub fn numbers(design: &Design, pantry: &Pantry, kitchen: &Kitchen, learnt: &Learnt) -> Numbers {
    let mut own = design.clone();
    own.refresh_snapshot(pantry);
    let uses = Acting::of(&own);
    let mut out = params::shipped().map_or_else(|_| Vec::new(), parameters);
    for number in &mut out {
        number.used = acts(&uses, &number.key);
    }
    let words = names::Entries::of(&[pantry, &own.snapshot]);
    let mut in_use: BTreeMap<String, Cited> = own.snapshot.figures().into_iter().collect();
    // What was measured stands in the place of the entry's own figure.
    in_use.retain(|key, _| !stands_for(&own, key));
    if let Ok(params) = params::shipped() {
        in_use.extend(learnt_figures(&own, learnt));
        in_use.extend(figures(&own, pantry, kitchen, params));
    }
    let mut seen = BTreeSet::new();
    for (key, cited) in pantry.figures() {
        let mut number = Number::new(key.clone(), words.figure(&key), &cited);
        number.used = in_use.get(&key) == Some(&cited);
        if number.used {
            seen.insert(key);
        }
        out.push(number);
    }
    for (key, cited) in in_use.into_iter().filter(|(key, _)| !seen.contains(key)) {
        let words = words.figure(&key);
        out.push(Number { used: true, own: true, ..Number::new(key, words, &cited) });
    }
    Numbers { all: out, uses }
}

/// Whether a parameter's law has something to act on in a pot.
pub fn acts(pot: &Acting, key: &str) -> bool {
    words().parameters.get(key).is_none_or(|parameter| pot.has_any(&parameter.on))
}

/// Every figure of one entry with its path inside it, in plain words.
pub fn of_entry(pantry: &Pantry, kind: EntryKind, key: &str) -> Vec<(String, Number)> {
    let mut one = Pantry::default();
    one.put(pantry, kind, key);
    one.put_needs(pantry, kind, key);
    let words = names::Entries::of(&[&one]);
    let shelf = kind.list();
    let told = |(path, cited): (String, Cited)| {
        let full = format!("{shelf}.{key}.{path}");
        let number = Number::new(full.clone(), words.figure(&full), &cited);
        (path, number)
    };
    one.figures_of(kind, key).into_iter().map(told).collect()
}

/// What a path inside an entry names, in plain words: "composition.fat" is "fat".
pub fn path_words(kind: EntryKind, path: &str) -> String {
    names::Entries::of(&[]).figure(&format!("{}.entry.{path}", kind.list())).1
}

/// Numbers with an exponent as powers of ten: "3e9" is "3·10⁹".
fn powers(text: &str) -> String {
    let raised = |digit: char| match digit {
        '-' | number::MINUS => '⁻',
        _ => digit.to_digit(10).and_then(|d| "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().nth(d as usize)).unwrap_or(digit),
    };
    let word = |word: &str| match word.split_once('e') {
        Some((size, power))
            if size.ends_with(|c: char| c.is_ascii_digit())
                && power.ends_with(|c: char| c.is_ascii_digit()) =>
        {
            format!("{size}·10{}", power.chars().map(raised).collect::<String>())
        }
        _ => word.to_owned(),
    };
    text.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

fn parameters(params: &Params) -> Vec<Number> {
    let mut out: Vec<Number> = params
        .list()
        .into_iter()
        .map(|(key, cited)| {
            let words = names::parameter(&key);
            Number::new(key, words, cited)
        })
        .collect();
    let curves = [
        ("solid_fat.coconut", &params.solid_fat.coconut),
        ("solid_fat.milk", &params.solid_fat.milk),
        ("dry_loss.curve", &params.dry_loss),
    ];
    out.extend(curves.map(|(key, curve)| of_curve(key, curve)));
    out.extend(params.cautions.iter().map(of_caution));
    out
}

fn of_curve(key: &str, curve: &Curve) -> Number {
    let point = |(c, v): &(f64, f64)| format!("{} at {} °C", number::plain(*v), number::plain(*c));
    let value = match (curve.points.first(), curve.points.last()) {
        (Some(first), Some(last)) => format!("{} to {}", point(first), point(last)),
        _ => String::new(),
    };
    let half = number::plain(curve.half_width);
    Number::row(key, value, curve.unit.trim_start_matches("of 1"), format!("± {half}"), &curve.from)
}

fn of_caution(row: &CautionRow) -> Number {
    let value = format!(
        "watch above pH {} at {} h, throw away above pH {} at {} h",
        number::plain(row.watch_ph),
        number::plain(row.watch_h),
        number::plain(row.discard_ph),
        number::plain(row.discard_h)
    );
    let mut number = Number::row("cautions.row", value, "", String::new(), &row.from);
    number.key = format!("cautions.{}", row.key);
    number.name = row.about.clone();
    number
}

/// How many numbers rest on each kind of source, in the order of [`Kind::ALL`].
pub fn shares<'a>(numbers: impl IntoIterator<Item = &'a Number>) -> [usize; Kind::ALL.len()] {
    let mut out = [0; Kind::ALL.len()];
    for number in numbers {
        out[number.kind.index()] += 1;
    }
    out
}

/// The list as a table: a line a number, tabs between, units and bounds in columns of their own.
pub fn table<'a>(numbers: impl IntoIterator<Item = &'a Number>) -> String {
    let mut out =
        String::from("key\tbelongs to\tname\tvalue\tunit\tusual spread\tkind of source\tsource\tused here\n");
    for n in numbers {
        let source =
            if n.valid.is_empty() { n.source.clone() } else { format!("{} ({})", n.source, n.valid) };
        let used = if n.used { "yes" } else { "no" };
        let kind = n.kind.words();
        // A text never fails to be written to.
        let _ = writeln!(
            out,
            "{}\t{}\t{}\t{}\t{}\t{}\t{kind}\t{source}\t{used}",
            n.key, n.group, n.name, n.value, n.unit, n.spread
        );
    }
    out
}

#[cfg(test)]
mod tests;
