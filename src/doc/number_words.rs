//! The words for keys of the data, and on what the law of each parameter acts: data, read once.

use std::sync::LazyLock;

use serde::Deserialize;

use super::in_pot::InPot;
use potset_base::lexicon::{self, Table, Words};

/// The text of the shipped words.
const TEXT: &str = include_str!("../../assets/number_words.ron");

/// All of them; what each list is for stands in the file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NumberWords {
    pub standards: Words,
    pub groups: Table<String>,
    pub shelves: Table<String>,
    pub fields: Table<FieldWords>,
    pub parameters: Table<ParameterWords>,
}

/// The words of a field of pantry entries.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FieldWords {
    /// Empty: passed over.
    pub words: String,
    #[serde(default)]
    pub inside: Inside,
}

/// What stands inside a field, and how it is said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Inside {
    /// More fields.
    #[default]
    Fields,
    /// The key of an entry, said by its name.
    Entry,
    /// A sugar or an inhibitor, even where an entry has the same key.
    Key,
    /// A field that the words go before, or after.
    Before,
    After,
}

/// The words of a parameter.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ParameterWords {
    pub words: String,
    /// On what its law acts, any of these; of none, every pot has it.
    #[serde(default)]
    pub on: Vec<InPot>,
    #[serde(default)]
    pub says: Says,
}

/// What a parameter says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Says {
    /// How pots behave: known within its bounds.
    #[default]
    Law,
    /// What is meant by a word, or by ready.
    Threshold,
    /// How far the texture laws are off: drawn as what they leave out.
    Scatter,
    /// How the maker's hand varies: drawn apart.
    Hand,
}

/// The shipped words.
pub fn words() -> &'static NumberWords {
    static WORDS: LazyLock<NumberWords> = LazyLock::new(|| lexicon::shipped(TEXT));
    &WORDS
}

/// What a parameter says.
pub fn says(key: &str) -> Says {
    words().parameters.get(key).map_or(Says::Law, |parameter| parameter.says)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format;

    #[test]
    fn the_shipped_words_are_read_strictly_and_counted() {
        let all: NumberWords = format::asset(TEXT).unwrap();
        let tables = [all.groups.iter().count(), all.shelves.iter().count(), all.fields.iter().count()];
        assert_eq!((tables, all.standards.iter().count()), ([22, 10, 99], 8));
        let more = TEXT.replacen("on: [lactase]", "onto: [lactase]", 1);
        assert!(format::asset::<NumberWords>(&more).unwrap_err().title.contains("onto"));
        let twice = TEXT.replacen("\"acids.acetic_pka\"", "\"acids.lactic_pka\"", 1);
        assert!(format::asset::<NumberWords>(&twice).unwrap_err().title.contains("stands twice"));
    }
}
