//! Fields as the screen names them: a file says `thickeners[0].g_per_l`, a maker reads "Thickener 1, amount".

use std::sync::LazyLock;

use serde::Deserialize;

use potset_base::Note;
use potset_base::lexicon::{self, Table};

/// The text of the shipped words.
const TEXT: &str = include_str!("../../assets/field_words.ron");

/// What the parts of a path are called.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct FieldWords {
    lists: Table<String>,
    fields: Table<String>,
}

static WORDS: LazyLock<FieldWords> = LazyLock::new(|| lexicon::shipped(TEXT));

/// The words of a path; what is no path of a design stays as it is.
pub fn words(path: &str) -> String {
    let parts: Option<Vec<String>> =
        path.split('.').enumerate().map(|(i, part)| part_words(part, i > 0)).collect();
    parts.map_or_else(|| path.to_owned(), |parts| parts.join(", "))
}

fn part_words(part: &str, inside: bool) -> Option<String> {
    let (name, place) = match part.strip_suffix(']').and_then(|p| p.split_once('[')) {
        Some((name, place)) => (name, Some(place.parse::<usize>().ok()?)),
        None => (part, None),
    };
    // A list of lines and the figure of a label share a name.
    let (lists, fields) = (&WORDS.lists, &WORDS.fields);
    let (first, then) = if inside { (fields, lists) } else { (lists, fields) };
    let said = first.get(name).or_else(|| then.get(name))?;
    Some(place.map_or_else(|| said.clone(), |i| format!("{said} {}", i + 1)))
}

/// A note on one line, with its field in words.
pub fn line(note: &Note) -> String {
    Note { field: words(&note.field), ..note.clone() }.line()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{assets, check, format};

    #[test]
    fn the_shipped_words_are_read_strictly_and_counted() {
        let all: FieldWords = format::asset(TEXT).unwrap();
        assert_eq!((all.lists.iter().count(), all.fields.iter().count()), (7, 31));
        let more = TEXT.replacen("  fields:", "  feels: [],\n  fields:", 1);
        assert!(format::asset::<FieldWords>(&more).unwrap_err().title.contains("feels"));
    }

    #[test]
    fn paths_become_words_and_other_words_stay() {
        assert_eq!(words("thickeners[0].g_per_l"), "Thickener 1, amount");
        assert_eq!(words("bases[1].label.sugars"), "Base 2, label, sugars");
        assert_eq!(words("sugars[0].entry"), "Sugar 1, entry");
        assert_eq!(words("steps[3].events[0].at_h"), "Step 4, happening 1, time");
        for same in ["Beside", "pot.ron", "/home/x/pot.ron", "design", "", "Whole milk pot, hold"] {
            assert_eq!(words(same), same);
        }
    }

    #[test]
    fn every_field_that_can_be_at_fault_has_words() {
        let mut design = assets::demo("coconut-with-fruit.ron").unwrap();
        for base in &mut design.bases {
            base.litres = f64::NAN;
            base.label.fat = Some(-1.0);
        }
        design.sugars.iter_mut().for_each(|l| l.g_per_l = -1.0);
        design.thickeners.iter_mut().for_each(|l| l.g_per_l = -1.0);
        design.additives.iter_mut().for_each(|l| l.g_per_l = -1.0);
        design.cultures.iter_mut().for_each(|l| l.rate = -1.0);
        design.hold_mut().unwrap().hours = -1.0;
        let notes = check::faults(&design);
        assert!(notes.len() >= 6, "{notes:?}");
        for note in notes {
            assert!(!words(&note.field).contains(['[', '_']), "{}", note.field);
        }
    }
}
