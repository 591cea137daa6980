//! The few words that stand for a measured range: texture, tang, sweetness, style.

use crate::choices;
use std::borrow::Cow;

use serde::{Deserialize, Serialize};

/// A text with its first letter large; "pH" stays as it is.
pub fn capital(text: &str) -> String {
    if text.starts_with("pH") {
        return text.to_owned();
    }
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A text with its first letter small, as a name stands inside a sentence.
pub fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// A text of at most about so many characters: where it is longer, its middle is left out, and that is said.
pub fn shortened(text: &str, most: usize) -> Cow<'_, str> {
    let long = text.chars().count();
    if long <= most {
        return Cow::Borrowed(text);
    }
    let end = most / 4;
    let head: String = text.chars().take(most - end).collect();
    let tail: String = text.chars().skip(long - end).collect();
    Cow::Owned(format!("{head} … ({} characters left out) … {tail}", long - most))
}

choices! {
    /// Texture words, thin to thick. Thresholds are in the parameter file.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum TextureWord: word {
        Pours => "pours",
        Ribbons => "ribbons",
        Dollops => "dollops",
        Stands => "stands",
        Cuts => "cuts",
    }
}

/// Where the texture words that are drawn as bands begin, Pa·s at 50 1/s: ribbons, dollops, stands.
///
/// The same as `words.pours_below`, `words.ribbons_below` and `words.dollops_below` of the
/// parameters; a test compares them with the words of a forecast.
pub const WORD_BOUNDS: [f64; 3] = [0.05, 0.35, 1.75];

/// The pH that is drawn as a line. The same as `ready.acid_line_ph` of the parameters.
pub const ACID_LINE_PH: f64 = 4.6;

choices! {
    /// Tang words, by undissociated lactic acid.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum TangWord: word {
        Flat => "flat",
        Mild => "mild",
        Bright => "bright",
        Sharp => "sharp",
        Biting => "biting",
    }
}

choices! {
    /// Whether sugar or acid leads on the tongue.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum SweetWord: word {
        SweetnessLeads => "more sweet than sour",
        Balanced => "as sour as sweet",
        AcidLeads => "more sour than sweet",
    }
}

choices! {
    /// How sweet it is by itself. Thresholds are in the parameter file.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum SweetLevel: word {
        NotSweet => "not sweet",
        ALittle => "a little sweet",
        Sweet => "sweet",
        VerySweet => "very sweet",
    }
}

choices! {
    /// How the pot is to be served.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Style: word {
        #[default]
        Set => "set",
        Stirred => "stirred",
        Strained => "strained",
        Drinking => "drinking",
    }
}

/// A span of words, "ribbons" or "ribbons to dollops".
pub fn span(low: &str, high: &str) -> String {
    if low == high { low.to_owned() } else { format!("{low} to {high}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_first_letter_is_made_large_but_for_ph() {
        assert_eq!(
            ["ready from", "pH 4.6", "éclair", ""].map(capital),
            ["Ready from", "pH 4.6", "Éclair", ""]
        );
    }

    #[test]
    fn a_long_text_loses_its_middle() {
        assert_eq!(shortened("Éclair", 6), "Éclair");
        assert_eq!(
            shortened(&format!("Éc{}lé", "-".repeat(600_000)), 8),
            "Éc---- … (599996 characters left out) … lé"
        );
    }
}
