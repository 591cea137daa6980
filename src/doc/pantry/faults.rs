//! What cannot be true of an entry: figures out of range, more than the whole, no name.

use std::sync::LazyLock;

use super::{EntryKind, Pantry, all_sugars};
use crate::range;
use potset_base::lexicon::{self, Table};
use potset_base::{Cited, Note, number};

/// The text of the shipped ranges.
const TEXT: &str = include_str!("../../../assets/pantry_ranges.ron");

/// Least and most of a figure, by how its path ends.
static RANGES: LazyLock<Table<(f64, f64)>> = LazyLock::new(|| lexicon::shipped(TEXT));

/// Everything that cannot be true of an entry.
pub fn faults(pantry: &Pantry, kind: EntryKind, key: &str) -> Vec<Note> {
    let Some(entry) = pantry.entry(kind, key) else { return Vec::new() };
    let mut notes = Vec::new();
    if entry.name().trim().is_empty() || key.trim().is_empty() {
        notes.push(Note::error(format!("{key}: name"), "The entry has no name", "Give it a name"));
    }
    let name = entry.name().to_owned();
    for (path, cited) in pantry.figures_of(kind, key) {
        if let Some(note) = figure(&name, &path, &cited) {
            notes.push(note);
        }
    }
    if let Some(base) = pantry.bases.iter().find(|b| kind == EntryKind::Base && b.key == key) {
        let c = &base.composition;
        let whole = c.fat.value + c.protein.value + c.carbohydrate.value + c.fibre.value + c.ash.value;
        let sugars = all_sugars(&c.sugars);
        if whole > 100.5 {
            notes.push(more(&name, "composition", whole, "fat, protein, carbohydrate, fibre and ash", 100.0));
        }
        if sugars + c.starch.value > c.carbohydrate.value + 0.5 {
            notes.push(more(
                &name,
                "composition.sugars",
                sugars + c.starch.value,
                "sugars and starch",
                c.carbohydrate.value,
            ));
        }
    }
    notes
}

fn figure(name: &str, path: &str, cited: &Cited) -> Option<Note> {
    let field = format!("{name}: {path}");
    if let Some(fault) = cited.fault() {
        return Some(Note::error(field, format!("The figure is faulty: {fault}"), "Mend the figure"));
    }
    let share = path.starts_with("composition.") || path.starts_with("nutrients.");
    let range = RANGES
        .iter()
        .find(|(end, _)| path.ends_with(end))
        .map(|(_, range)| *range)
        .or_else(|| share.then_some((0.0, 100.0)))
        .unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
    range::fault(field, "The figure", &cited.unit, cited.value, range)
}

fn more(name: &str, field: &str, is: f64, what: &str, of: f64) -> Note {
    Note::error(
        format!("{name}: {field}"),
        format!("Its {what} come to {} g of {}", number::fixed(is, 1), number::fixed(of, 1)),
        "Check the figures against the label",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{assets, format};

    #[test]
    fn the_shipped_ranges_are_read_strictly_and_counted() {
        let all: Table<(f64, f64)> = format::asset(TEXT).unwrap();
        assert_eq!(all.iter().count(), 23);
        let paths = assets::pantry().unwrap().figures();
        for (end, (least, most)) in all.iter() {
            assert!(least < most && paths.iter().any(|(path, _)| path.ends_with(end)), "{end}");
        }
        let twice = TEXT.replacen("\"lumps\"", "\"water\"", 1);
        assert!(format::asset::<Table<(f64, f64)>>(&twice).unwrap_err().title.contains("twice"));
    }

    #[test]
    fn the_shipped_pantry_has_none() {
        let shipped = assets::pantry().unwrap();
        let mut all = Vec::new();
        for kind in EntryKind::ALL {
            for entry in shipped.entries(kind) {
                all.extend(faults(&shipped, kind, entry.key()));
            }
        }
        assert!(all.is_empty(), "{all:#?}");
    }

    #[test]
    fn more_than_the_whole_is_told() {
        let mut pantry = assets::pantry().unwrap();
        pantry.bases[0].composition.protein.value = 96.0;
        pantry.bases[0].composition.protein.spread = potset_base::Spread::Exact;
        let key = pantry.bases[0].key.clone();
        let notes = faults(&pantry, EntryKind::Base, &key);
        assert!(notes.iter().any(|n| n.field.ends_with(": composition")), "{notes:?}");
    }
}
