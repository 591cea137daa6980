//! What is swapped for what: names of the two entries.

use super::wish::SwapAsk;
use potset_base::Note;
use potset_base::words::lower;
use potset_doc::edit::LineKind;
use potset_forecast::lever::lines::{entry, key_at};
use potset_forecast::scenario::Scenario;

/// What the two entries are called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Names {
    pub old: String,
    pub new: String,
    /// It is what is there already.
    pub same: bool,
}

impl Names {
    /// Reads them.
    ///
    /// # Errors
    /// A note where there is no such line or entry.
    pub fn of(ask: &Scenario<'_>, wish: &SwapAsk) -> Result<Self, Note> {
        if wish.shelf == LineKind::Additives {
            let mend = "Swap it on the bench, and set its dose there";
            return Err(Note::error("additives", "Other additions have no usual substitute", mend));
        }
        let word = wish.shelf.one();
        let fault = |title, mend: &str| Note::error(format!("{word}s[{}]", wish.line), title, mend);
        let old = key_at(ask.design, wish.shelf, wish.line).ok_or_else(|| {
            let title = format!("The design has no {word} number {}", wish.line + 1);
            fault(title, "Choose one of the lines of the design")
        })?;
        let name = |key: &str| entry(ask.design, ask.pantry, wish.shelf, key).map(|e| e.name().to_owned());
        let new = name(&wish.entry).ok_or_else(|| {
            let title = format!("The pantry has no {word} called {}", wish.entry);
            fault(title, "Pick an entry of the pantry")
        })?;
        Ok(Self { old: name(old).unwrap_or_else(|| old.to_owned()), new, same: old == wish.entry })
    }

    /// The name of the edit in the undo menu.
    pub fn title(&self, wish: &SwapAsk) -> String {
        let equal = match (wish.equal_thickness, wish.equal_tang) {
            (true, true) => ", as thick and as tangy",
            (true, false) => ", as thick",
            (false, true) => ", as tangy",
            (false, false) => "",
        };
        format!("Swap: {} for {}{equal}", lower(&self.new), lower(&self.old))
    }
}
