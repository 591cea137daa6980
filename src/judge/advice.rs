//! Advice: a note on a pot and its mend.

use super::mends::Mend;
use potset_base::{Note, Severity};

/// A note and its mend.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    pub note: Note,
    pub mend: Option<Mend>,
}

pub(super) fn note(
    severity: Severity,
    field: &str,
    title: impl Into<String>,
    sentence: impl Into<String>,
) -> Note {
    Note {
        severity,
        field: field.into(),
        title: title.into(),
        sentence: sentence.into(),
        mend: String::new(),
    }
}
