//! What is kept of a house recipe beside its file: the maker's marks, and what it is listed by.
//!
//! The marks have a file of their own in the folder of the recipes. What a recipe is listed by can be worked out anew at any
//! time; it is kept so that thousands of them are there at once, a line each.

use serde::{Deserialize, Serialize};

use super::Design;
use super::known;
use super::pantry::{EntryKind, Pantry};
use potset_base::words::{Style, SweetLevel, TangWord, TextureWord};

/// Most stars of a recipe.
pub const MOST_STARS: u8 = 5;

/// The maker's own marks of a recipe.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct RecipeRecord {
    /// None to [`MOST_STARS`].
    #[serde(skip_serializing_if = "none")]
    pub stars: u8,
    /// Days on which it was made, "2026-11-26", the oldest first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub made: Vec<String>,
}

const fn none(stars: &u8) -> bool {
    *stars == 0
}

/// What stands in the file of a recipe, as far as the list shows it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecipeSummary {
    pub name: String,
    /// Names of its bases.
    pub bases: Vec<String>,
    pub tags: Vec<String>,
    pub style: Style,
    pub litres: f64,
    /// How long it is kept warm, h.
    pub hold_h: f64,
}

impl RecipeSummary {
    /// Of a design.
    pub fn of(design: &Design, pantry: &Pantry) -> Self {
        let base = |key: &str| design.name_of(pantry, EntryKind::Base, key).to_owned();
        Self {
            name: design.name.clone(),
            bases: design.bases.iter().map(|line| base(&line.entry)).collect(),
            tags: design.tags.clone(),
            style: design.style,
            litres: design.litres(),
            hold_h: design.hold().map_or(0.0, |hold| hold.hours),
        }
    }
}

/// What comes of a recipe, as far as the list shows it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecipeAnswer {
    /// The signs that find it again from its card.
    pub code: String,
    pub texture: Option<TextureWord>,
    pub tang: Option<TangWord>,
    pub sweet: Option<SweetLevel>,
    /// It would have to be thrown away as planned.
    pub discard: bool,
    pub vegan: bool,
    pub gluten_free: bool,
    /// pH over the hold at even times, each as a letter: see [`letter`].
    pub curve: String,
    /// Why there is no forecast; empty where there is one.
    pub why_not: String,
}

/// pH that the first letter stands for, and between two letters.
const LETTERS: (f64, f64) = (3.0, 0.1);
/// Letters that there are.
const ALPHABET: &[u8] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnop";

/// The letter of a pH in [`RecipeAnswer::curve`], to a tenth: it is drawn a few points high.
pub fn letter(ph: f64) -> char {
    let step = ((ph - LETTERS.0) / LETTERS.1).round().clamp(0.0, (ALPHABET.len() - 1) as f64);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held inside of the alphabet")]
    let place = step as usize;
    char::from(ALPHABET[place])
}

impl RecipeAnswer {
    /// pH at even times of the hold.
    pub fn points(&self) -> impl Iterator<Item = f64> + '_ {
        let places = self.curve.bytes().filter_map(|b| ALPHABET.iter().position(|a| *a == b));
        places.map(|place| LETTERS.0 + LETTERS.1 * place as f64)
    }
}

/// A recipe as it was listed before, by its file and the stamp that this had.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KnownRecipe {
    pub file: String,
    pub stamp: u64,
    pub summary: RecipeSummary,
    pub answer: Option<RecipeAnswer>,
}

/// First line of the list. Another one, of another version or of another kitchen, is not read.
const HEAD: &str = "potset known recipes 1";

/// The text of a list, a recipe a line.
///
/// - `of` — what the answers hang on; read back with another one, they are left out.
pub fn write_known(of: &str, all: &[KnownRecipe]) -> String {
    known::write(&format!("{HEAD}\n{of}"), all)
}

/// Reads the list; lines that cannot be read are left out: they are only worked out anew.
pub fn read_known(of: &str, text: &str) -> Vec<KnownRecipe> {
    let mut lines = text.lines();
    if lines.next() != Some(HEAD) {
        return Vec::new();
    }
    let same = lines.next() == Some(of);
    let all = known::read::<KnownRecipe>(lines);
    all.map(|known| if same { known } else { KnownRecipe { answer: None, ..known } }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_read_back_and_torn_lines_are_left_out() {
        let known = KnownRecipe {
            file: "a \"pot\".ron".to_owned(),
            stamp: 7,
            summary: RecipeSummary { name: "Line\nend".to_owned(), ..RecipeSummary::default() },
            answer: Some(RecipeAnswer { curve: "Zab".to_owned(), ..RecipeAnswer::default() }),
        };
        let two = [known.clone(), known];
        let text = write_known("now", &two);
        assert_eq!(read_known("now", &text), two);
        assert_eq!(read_known("now", &text[..text.len() - 9]), two[..1]);
        // Answers of another kitchen are not taken over.
        assert_eq!(read_known("then", &text)[0].answer, None);
        assert_eq!(read_known("now", "something else\n"), []);
    }

    #[test]
    fn a_curve_is_kept_to_a_tenth() {
        let told = [6.6, 5.04, 4.0, 3.0, 9.9];
        let answer = RecipeAnswer { curve: told.map(letter).iter().collect(), ..RecipeAnswer::default() };
        for (ph, kept) in told.iter().zip(answer.points()) {
            assert!((ph.min(8.1) - kept).abs() <= 0.051, "{ph} {kept}");
        }
    }
}
