//! A law of the model by name: formula, source and the file that holds it. A test compares it with that file.

use potset_base::SourceKind;
use potset_doc::in_pot::InPot;
use serde::Deserialize;

/// One law.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Law {
    pub name: String,
    /// Empty where there is none.
    pub formula: String,
    pub kind: SourceKind,
    /// Reference, or how the form was chosen.
    pub source: String,
    /// Where it stands below `src/`.
    pub file: String,
    /// What must be in the pot for it to act; `None`: always.
    pub on: Option<InPot>,
}

impl Law {
    /// Kind and reference in one line.
    pub fn source_line(&self) -> String {
        let text = self.source.replace(['`', '[', ']'], "");
        let told = SourceKind::SHIPPED.iter().any(|kind| text.starts_with(kind.words()))
            || text.contains("published");
        if told { text } else { format!("{}: {text}", self.kind.words()) }
    }

    /// The formula without the marks of the source text.
    pub fn formula_line(&self) -> String {
        self.formula.replace('`', "")
    }
}
