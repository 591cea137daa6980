//! What is swapped for what: names of the two entries, and the usual amount of the new one.

use super::wish::SwapAsk;
use potset_base::Note;
use potset_doc::edit::Shelf;
use potset_forecast::lever::lines::key_at;
use potset_forecast::lever::spans;
use potset_forecast::scenario::Ask;
use potset_judge::thickeners::lower;

/// What the two entries are called, and the usual amount of the new one.
pub struct Names {
    pub old: String,
    pub new: String,
    /// It is what is there already.
    pub same: bool,
    /// In the unit of its list; nothing for a base, which keeps its litres.
    pub usual: Option<f64>,
}

impl Names {
    /// Reads them.
    ///
    /// # Errors
    /// A note where there is no such line or entry.
    pub fn of(ask: &Ask<'_>, wish: &SwapAsk) -> Result<Self, Note> {
        if wish.shelf == Shelf::Additives {
            return Err(Note::error(
                "additives",
                "What is also in has no usual substitute",
                "Swap it on the bench, and set its dose there",
            ));
        }
        let (d, word) = (ask.design, wish.shelf.one());
        let fault = |title, mend: &str| Note::error(format!("{word}s[{}]", wish.line), title, mend);
        let old = key_at(d, wish.shelf, wish.line).ok_or_else(|| {
            let title = format!("The design has no {word} number {}", wish.line + 1);
            fault(title, "Pick one of the lines that are there")
        })?;
        let new = d.entry_of(ask.pantry, wish.shelf.kind(), &wish.entry).ok_or_else(|| {
            let title = format!("The pantry has no {word} called {}", wish.entry);
            fault(title, "Pick an entry of the pantry")
        })?;
        let usual = match wish.shelf {
            Shelf::Bases => None,
            Shelf::Sugars => spans::sugar(d.entry(ask.pantry, &wish.entry), d.sugars[wish.line].when).usual,
            _ => Some(new.usual()),
        };
        Ok(Self {
            old: d.name_of(ask.pantry, wish.shelf.kind(), old).to_owned(),
            new: new.name().to_owned(),
            same: old == wish.entry,
            usual: usual.map(|(low, high)| 0.5 * (low + high)),
        })
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
