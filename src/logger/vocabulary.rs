//! Words of logger files: titles of columns, units, names of months, marks for a missing value. A list, read strictly.

use std::sync::LazyLock;

use potset_base::lexicon::{self, Lexicon, Words};
use potset_base::units::Degrees;
use serde::Deserialize;

use crate::layout::Role;

/// The text of the shipped words.
const TEXT: &str = include_str!("../../assets/logger_words.ron");

/// A span of time that a unit names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Span {
    Day,
    Hour,
    Minute,
    Second,
    Millisecond,
}

impl Span {
    /// How long it is, s.
    pub const fn seconds(self) -> f64 {
        match self {
            Self::Day => 86_400.0,
            Self::Hour => 3600.0,
            Self::Minute => 60.0,
            Self::Second => 1.0,
            Self::Millisecond => 1e-3,
        }
    }
}

/// All words, in small letters.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vocabulary {
    /// Words in titles of columns.
    pub titles: Lexicon<Role>,
    /// Units of time, in titles and behind numbers.
    pub spans: Lexicon<Span>,
    pub degrees: Lexicon<Degrees>,
    pub months: Lexicon<i64>,
    /// What stands where there is no value.
    pub missing: Words,
}

/// The shipped words.
pub fn vocabulary() -> &'static Vocabulary {
    static WORDS: LazyLock<Vocabulary> = LazyLock::new(|| lexicon::shipped(TEXT));
    &WORDS
}

/// Whether a cell says that there is no value.
pub fn is_missing(cell: &str) -> bool {
    cell.chars().all(|sign| matches!(sign, '-' | '–' | '.' | '?' | '*' | '_' | '#'))
        || (cell.len() <= 24 && vocabulary().missing.has(&cell.to_lowercase()))
}

/// The degrees that a unit behind a number names.
pub fn degrees(unit: &str) -> Option<Degrees> {
    let small = unit.to_lowercase();
    vocabulary().degrees.get(small.trim_end_matches('.')).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shipped_words_are_read_strictly_and_counted() {
        let all: Vocabulary = lexicon::options().from_str(TEXT).unwrap();
        let counts = [
            all.titles.iter().count(),
            all.spans.iter().count(),
            all.degrees.iter().count(),
            all.months.iter().count(),
            all.missing.iter().count(),
        ];
        assert_eq!(counts, [171, 47, 28, 90, 41]);
        let small = |word: &str| word == word.to_lowercase();
        assert!(all.titles.iter().all(|(word, _)| small(word)) && all.missing.iter().all(small));
        let more = TEXT.replacen("  missing:", "  misssing: [],\n  missing:", 1);
        assert!(lexicon::options().from_str::<Vocabulary>(&more).is_err());
    }

    #[test]
    fn marks_of_no_value() {
        for cell in ["", "---", "ERR", "NaN", "n/a", "Open", "–"] {
            assert!(is_missing(cell), "{cell}");
        }
        for cell in ["0", "41.2", "hot", "-1"] {
            assert!(!is_missing(cell), "{cell}");
        }
        assert_eq!(
            (degrees("°C"), degrees("F"), degrees("K")),
            (Some(Degrees::Celsius), Some(Degrees::Fahrenheit), None)
        );
    }
}
