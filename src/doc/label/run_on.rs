//! Labels in one line: text that was copied, and small packs. A line is parted where a new part of a label begins.

/// Words with which a part begins, in small letters; those in the first list part a line wherever they stand, the others after
/// a full stop, a semicolon or a bar.
const ANYWHERE: [&str; 3] = ["ingredients:", "nutrition information", "nutritional information"];
const AFTER_A_STOP: [&str; 13] = [
    "ingredients",
    "per 100",
    "nutrition",
    "typical values",
    "energy",
    "fat ",
    "carbohydrate",
    "protein",
    "salt",
    "may contain",
    "contains",
    "allergy",
    "allergen",
];

/// Of these, words that nothing else begins with.
const LONG: [&str; 5] = ["ingredients", "nutrition", "typical values", "may contain", "carbohydrate"];

/// The parts of a line; the line itself where it is one part.
///
/// What the writer marks as unread stays as it is.
pub fn parts(line: &str) -> Vec<&str> {
    if line.starts_with("? ") {
        return vec![line];
    }
    // Letters keep their places: only those of ASCII are made small.
    let small = line.to_ascii_lowercase();
    let mut cuts: Vec<usize> = Vec::new();
    for word in ANYWHERE {
        cuts.extend(small.match_indices(word).map(|(at, _)| at).filter(|at| begins_a_word(&small, *at)));
    }
    for word in AFTER_A_STOP {
        cuts.extend(small.match_indices(word).map(|(at, _)| at).filter(|at| after_a_stop(&small, *at)));
    }
    cuts.retain(|at| *at > 0 && closed(&line[..*at]));
    cuts.sort_unstable();
    cuts.dedup();
    if cuts.is_empty() {
        return if line.is_empty() { Vec::new() } else { vec![line] };
    }
    let mut parts = Vec::new();
    let mut from = 0;
    for at in cuts.into_iter().chain([line.len()]) {
        let part = line[from..at].trim().trim_end_matches(['|', ';']).trim_end();
        if !part.is_empty() {
            parts.push(part);
        }
        from = at;
    }
    parts
}

fn begins_a_word(text: &str, at: usize) -> bool {
    text[..at].chars().next_back().is_none_or(|c| !c.is_alphanumeric())
}

/// Whether a full stop, a semicolon or a bar stands before it; not the point of a number.
fn after_a_stop(text: &str, at: usize) -> bool {
    let before = &text[..at];
    let bare = before.trim_end();
    // Copied text loses the space after a stop; the point of a number or of a short form is no stop.
    let glued = bare.len() == before.len()
        && bare.ends_with('.')
        && bare[..bare.len() - 1].ends_with(|c: char| c.is_alphabetic() || c == ')')
        && LONG.iter().any(|word| text[at..].starts_with(word));
    glued || (bare.len() < before.len() && bare.ends_with(['.', ';', '|']))
}

/// Whether every bracket of a text is closed again.
fn closed(text: &str) -> bool {
    text.chars().filter(|c| matches!(c, '(' | '[')).count()
        == text.chars().filter(|c| matches!(c, ')' | ']')).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_parted_where_a_part_of_a_label_begins() {
        let line = "Coconut milk. Per 100 g: fat 16 g, salt 0.1 g. Ingredients: coconut (68 %), water. May contain soy.";
        let told = [
            "Coconut milk.",
            "Per 100 g: fat 16 g, salt 0.1 g.",
            "Ingredients: coconut (68 %), water.",
            "May contain soy.",
        ];
        assert_eq!(parts(line), told);
        assert_eq!(parts("Fat 3.0 g of which saturates 0.3 g. Carbohydrate 5 g").len(), 2);
        // Copied text loses spaces.
        assert_eq!(parts("Ingredients: coconut, guar gum.Nutrition per 100 g: fat 18 g").len(), 2);
    }

    #[test]
    fn what_is_one_part_stays_one() {
        for line in [
            "Ingredients: water, coconut (contains sulphites), guar gum",
            "Coconut extract min. 60 %, water",
            "Protein 1.4 g",
            "",
            "Crème de coco. Ingrédients : noix de coco",
        ] {
            assert!(parts(line).len() <= 1, "{line}: {:?}", parts(line));
        }
    }
}
