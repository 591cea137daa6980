//! What is swapped for what: names of the two entries, and the usual amount of the new one.

use super::wish::SwapAsk;
use potset_base::Note;
use potset_base::words::lower;
use potset_doc::edit::Shelf;
use potset_doc::pantry::{self, Keyed};
use potset_forecast::lever::spans;
use potset_forecast::scenario::Ask;

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
        let (d, own, shelves) = (ask.design, &ask.design.snapshot, ask.pantry);
        let middle = |(low, high): (f64, f64)| 0.5 * (low + high);
        match wish.shelf {
            Shelf::Bases => {
                let old = d.bases.get(wish.line).map(|l| l.entry.as_str());
                Self::found(wish, old, &own.bases, &shelves.bases, |e| (e.name.clone(), None))
            }
            Shelf::Sugars => {
                let line = d.sugars.get(wish.line);
                let when = line.map(|l| l.when).unwrap_or_default();
                let usual = |e: &pantry::Sweetener| spans::sugar(Some(e), when).usual.map(middle);
                let old = line.map(|l| l.entry.as_str());
                Self::found(wish, old, &own.sugars, &shelves.sugars, |e| (e.name.clone(), usual(e)))
            }
            Shelf::Thickeners => {
                let old = d.thickeners.get(wish.line).map(|l| l.entry.as_str());
                let read = |e: &pantry::Thickener| (e.name.clone(), Some(middle(e.usual)));
                Self::found(wish, old, &own.thickeners, &shelves.thickeners, read)
            }
            Shelf::Cultures => {
                let old = d.cultures.get(wish.line).map(|l| l.entry.as_str());
                let read = |e: &pantry::Culture| (e.name.clone(), Some(middle(e.usual)));
                Self::found(wish, old, &own.cultures, &shelves.cultures, read)
            }
            Shelf::Additives => Err(Note::error(
                "additives",
                "What is also in has no usual substitute",
                "Swap it on the bench, and set its dose there",
            )),
        }
    }

    fn found<T: Keyed>(
        wish: &SwapAsk,
        old: Option<&str>,
        own: &[T],
        shipped: &[T],
        read: impl Fn(&T) -> (String, Option<f64>),
    ) -> Result<Self, Note> {
        let word = wish.shelf.one();
        let fault = |title, mend: &str| Note::error(format!("{word}s[{}]", wish.line), title, mend);
        let old = old.ok_or_else(|| {
            let title = format!("The design has no {word} number {}", wish.line + 1);
            fault(title, "Pick one of the lines that are there")
        })?;
        let entry = |key: &str| pantry::find(own, key).or_else(|| pantry::find(shipped, key)).map(&read);
        let (new, usual) = entry(&wish.entry).ok_or_else(|| {
            let title = format!("The pantry has no {word} called {}", wish.entry);
            fault(title, "Pick an entry of the pantry")
        })?;
        let same = old == wish.entry;
        Ok(Self { old: entry(old).map_or_else(|| old.to_owned(), |e| e.0), new, same, usual })
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
