//! Fields as the screen names them: a file says `thickeners[0].g_per_l`, a maker reads "Thickener 1, amount".

use potset_base::Note;

/// What the parts of a path are called. A number after the name counts from 1.
const PARTS: [(&str, &str); 38] = [
    ("bases", "Base"),
    ("sugars", "Sugar"),
    ("thickeners", "Thickener"),
    ("additives", "Also in"),
    ("cultures", "Culture"),
    ("steps", "Step"),
    ("events", "happening"),
    ("measured", "reading"),
    ("label", "label"),
    ("entry", "entry"),
    ("by", "measured by"),
    ("litres", "amount"),
    ("g_per_l", "amount"),
    ("rate", "dose"),
    ("share", "share"),
    ("age_days", "age"),
    ("kept_c", "kept at"),
    ("fat", "fat"),
    ("protein", "protein"),
    ("sugars", "sugars"),
    ("carbohydrate", "carbohydrate"),
    ("fibre", "fibre"),
    ("saturates", "saturates"),
    ("from_c", "warmth"),
    ("to_c", "warmth"),
    ("set_c", "warmth"),
    ("at_c", "warmth"),
    ("c", "warmth"),
    ("minutes", "minutes"),
    ("hours", "hours"),
    ("at_h", "time"),
    ("days", "days"),
    ("removed", "whey removed"),
    ("goals", "Goals"),
    ("ph_at_most", "pH"),
    ("sugar_left_at_most", "sugar left"),
    ("whey_at_most", "whey"),
    ("thin_layer_at_most", "thin layer"),
];

/// The words of a path; what is no path of a design stays as it is.
#[must_use]
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
    let mut all = PARTS.iter().filter(|(of, _)| *of == name);
    let (_, said) = if inside { all.next_back()? } else { all.next()? };
    Some(place.map_or_else(|| (*said).to_owned(), |i| format!("{said} {}", i + 1)))
}

/// A note on one line, with its field in words.
#[must_use]
pub fn line(note: &Note) -> String {
    Note { field: words(&note.field), ..note.clone() }.line()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{assets, check};

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
