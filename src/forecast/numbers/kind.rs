//! Kinds of source as a reader tells them apart: standards and regulations stand apart from other published sources.

use potset_base::{Source, SourceKind, choices};
use potset_doc::number_words::words;

choices! {
    /// A kind of source in the list of numbers, from the firmest to the weakest.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Kind: meaning {
        /// A paper or a food table.
        Published => "A paper or a food table says so",
        /// A published source that is a standard or a regulation, named with its clause.
        Standard => "A standard or a regulation says so",
        Derived => "Worked out from published figures; the text says how",
        Fitted => "Fitted to data that the text names",
        CommonPractice => "A fact of the trade without a single source",
        FromMemory => "Known to the author, not found in a source",
        Assumed => "Chosen so that the model closes",
        /// Of the maker's own entries, or measured by them.
        Own => "The maker's own: of an entry of theirs, or as they measured it",
    }
}

impl Kind {
    /// The kind of a source.
    pub fn of(source: &Source) -> Self {
        match source.kind {
            SourceKind::Published if words().standards.within(&source.text) => Self::Standard,
            SourceKind::Published => Self::Published,
            SourceKind::Derived => Self::Derived,
            SourceKind::Fitted => Self::Fitted,
            SourceKind::CommonPractice => Self::CommonPractice,
            SourceKind::FromMemory => Self::FromMemory,
            SourceKind::Assumed => Self::Assumed,
            SourceKind::Own => Self::Own,
        }
    }

    /// The kind in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => SourceKind::Published.words(),
            Self::Standard => "standard",
            Self::Derived => SourceKind::Derived.words(),
            Self::Fitted => SourceKind::Fitted.words(),
            Self::CommonPractice => SourceKind::CommonPractice.words(),
            Self::FromMemory => SourceKind::FromMemory.words(),
            Self::Assumed => SourceKind::Assumed.words(),
            Self::Own => SourceKind::Own.words(),
        }
    }

    /// Whether nothing but memory or a choice stands behind it.
    pub const fn weak(self) -> bool {
        matches!(self, Self::FromMemory | Self::Assumed)
    }

    /// Place in [`Kind::ALL`].
    pub const fn index(self) -> usize {
        self as usize
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn standards_stand_apart_and_an_assumption_stays_one() {
        let of = |kind, text: &str| Kind::of(&Source { kind, text: text.into() });
        assert_eq!(of(SourceKind::Published, "Codex CXS 240-2003 3.1.3"), Kind::Standard);
        assert_eq!(of(SourceKind::Published, "Rosso et al. 1993"), Kind::Published);
        // It names a standard to say that the standard does not give the number.
        assert_eq!(of(SourceKind::Assumed, "Codex CXS 243 asks for acidity, not this"), Kind::Assumed);
        for (place, kind) in Kind::ALL.into_iter().enumerate() {
            assert_eq!(kind.index(), place);
        }
    }
}
