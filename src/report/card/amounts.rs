//! What goes in: every line of the design by weight, and in the measure or the spoons that a cook has at hand.

use super::{Block, Body, CardAsk, Line, Part, Table};
use potset_base::measures::whole::{volume_plain, weight};
use potset_base::measures::{Amount, Measure, Said};
use potset_base::number::{self, NBSP, fixed, plain};
use potset_base::words::lower;
use potset_doc::Design;
use potset_doc::design::{AddedWhen, CultureLine, GoesIn, Powder, SweetWhen};
use potset_doc::edit::LineKind;
use potset_doc::pantry::{Base, Culture, EntryKind, Pantry, Sweetener};
use potset_doc::said::dose;
use potset_doc::steps::Happening;

/// The table of all that goes in, and what comes of it.
pub fn block(ask: &CardAsk<'_>) -> Block {
    let rows = rows(ask.scenario.design, ask.scenario.pantry);
    let head = ["", "weight", "measure"].map(str::to_owned).to_vec();
    Block { part: Part::Amounts, body: Body::Table(Table { head, rows, below: makes(ask) }) }
}

/// Every line of a design, and what goes in during the hold: its name, its weight, and by measure.
pub(crate) fn rows(design: &Design, pantry: &Pantry) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for shelf in LineKind::ALL {
        for (i, line) in design.lines(shelf).iter().enumerate() {
            let Some((said, value)) = design.said_of(shelf, i, pantry) else { continue };
            let name = design.name_of(pantry, shelf.kind(), line.entry());
            let mut cells = row(format!("{name}{}", how(design, shelf, i)), &said, value);
            if let Some(packs) = packs((design, pantry), shelf, i, &said) {
                cells[2] = format!("{} ({packs})", cells[2]);
            }
            rows.push(cells);
        }
    }
    rows.extend(late(design, pantry));
    rows
}

/// How many whole tins or cartons a base is that is said in litres; nothing where it is none, or some part of one.
fn packs((design, pantry): (&Design, &Pantry), shelf: LineKind, i: usize, said: &Said<'_>) -> Option<String> {
    let line = design.bases.get(i).filter(|_| shelf == LineKind::Bases && said.shown() == Measure::Litre)?;
    let pack = line.with_pack(design.entry::<Base>(pantry, &line.entry), pantry).pack?;
    let count = 1000.0 * line.litres / pack.ml;
    let whole = (count - count.round()).abs() < NEAR && count > 0.5;
    let size = number::with_unit(pack.ml, 0, "mL");
    whole.then(|| format!("{} of {size}", Amount::Total(count.round(), pack.of).text(3)))
}

/// How far a count of packs may be from a whole one. Source: assumed, less than what stays in a tin.
const NEAR: f64 = 0.01;

/// A line by weight and by measure.
fn row(name: String, said: &Said<'_>, value: f64) -> Vec<String> {
    vec![name, weight(value * said.g_per_unit), measured(said, value)]
}

/// An amount in its own measure, else in spoons or by volume; empty where it can only be weighed.
pub(crate) fn measured(said: &Said<'_>, value: f64) -> String {
    if let Some(text) = said.text(value) {
        let each = said.beside(value);
        // The weight stands beside it already.
        return match each.split_once(", ") {
            Some((_, each)) => format!("{text} ({each})"),
            None => text,
        };
    }
    match said.own {
        Some(Measure::Litre) => volume_plain(value),
        _ => said.spoons(value).unwrap_or_default(),
    }
}

/// What is said behind a name: when it goes in, and as what it is weighed.
fn how(design: &Design, shelf: LineKind, i: usize) -> String {
    let said = match shelf {
        LineKind::Sugars if design.sugars[i].when == SweetWhen::AfterTheHold => {
            AddedWhen::AfterTheHold.words()
        }
        LineKind::Thickeners if design.thickeners[i].goes_in == GoesIn::WithTheCulture => {
            AddedWhen::WithTheCulture.words()
        }
        LineKind::Additives if design.additives[i].when != AddedWhen::default() => {
            design.additives[i].when.words()
        }
        LineKind::Cultures if design.cultures[i].powder != Powder::Straight => {
            design.cultures[i].powder.words()
        }
        _ => return String::new(),
    };
    format!(", {said}")
}

/// What goes in during the hold.
fn late(design: &Design, pantry: &Pantry) -> Vec<Vec<String>> {
    let events = design.hold().into_iter().flat_map(|hold| &hold.events);
    let at = |name: &str, at_h: f64| format!("{name}, at {}{NBSP}h", plain(at_h));
    events
        .filter_map(|event| match &event.what {
            Happening::LateSugar { entry, g_per_l } => {
                let sweetener = design.entry::<Sweetener>(pantry, entry);
                let said = dose(design, Measure::Gram, sweetener.map(|e| e.bulk_density.value));
                let name = design.name_of(pantry, EntryKind::Sugar, entry);
                Some(row(at(name, event.at_h), &said, *g_per_l))
            }
            Happening::LateCulture { entry, rate } => {
                let line = CultureLine::new(entry.clone(), *rate);
                let said = line.said(design.entry::<Culture>(pantry, entry), design.litres(), design.spoons);
                let name = design.name_of(pantry, EntryKind::Culture, entry);
                Some(row(at(name, event.at_h), &said, *rate))
            }
            _ => None,
        })
        .collect()
}

/// How many pots and servings it makes.
fn makes(ask: &CardAsk<'_>) -> Vec<Line> {
    let (design, nutrition) = (ask.scenario.design, &ask.answer.nutrition);
    let vessel = design.name_of(ask.scenario.pantry, EntryKind::Vessel, &design.pots.vessel);
    let mut words = format!("For {} × {}", design.pots.count, lower(vessel));
    if nutrition.kg > 0.0 {
        words = format!(
            "{words}: {}, {} servings of {}",
            weight(1000.0 * nutrition.kg),
            fixed(nutrition.servings, 1),
            weight(nutrition.serving_g)
        );
    }
    vec![Line::plain(format!("{words}. Spoons are level; a tablespoon is a {}.", design.spoons.words()))]
}
