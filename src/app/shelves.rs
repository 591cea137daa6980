//! What the Pantry view works on: the shipped and the maker's pantry, what is open in it, the label being read.

use std::sync::Arc;

use potset_base::choices;
use potset_catalogue::label::LabelStudy;
use potset_catalogue::making::Making;
use potset_doc::own::{Merged, OwnEdit, OwnPantry};
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Pantry};

choices! {
    /// What the Pantry view shows.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum PantryPage: words {
        /// The table of entries, and the page of one.
        #[default]
        Entries => "Entries",
        /// The label reader.
        Label => "Read a label",
        /// A base made from starting ingredients.
        Making => "Make a base",
    }
}

/// A label that is being read.
#[derive(Clone, Debug, Default)]
pub struct LabelDesk {
    pub text: String,
    /// Goes up with every text; answers to older ones are dropped.
    pub question: u64,
    pub answered: u64,
    /// What was read from the newest text that was answered.
    pub read: Option<Arc<(potset_doc::label::LabelReading, LabelStudy)>>,
}

/// A design that is looked through for the entries that it uses.
#[derive(Clone, Debug)]
pub struct LookedThrough {
    pub name: String,
    /// File name, or what kind of design it is.
    pub place: String,
    pub design: Arc<Design>,
}

/// Both pantries and what is open.
#[derive(Clone, Debug)]
pub struct PantryState {
    pub shipped: Arc<Pantry>,
    pub own: Arc<OwnPantry>,
    /// The maker's pantry as it was read from the disk or written to it last.
    pub kept: Arc<OwnPantry>,
    /// Goes up with every change of what all entries are.
    pub number: u64,
    /// The entry whose page is open.
    pub open: Option<(EntryKind, String)>,
    pub page: PantryPage,
    pub label: LabelDesk,
    pub making: Making,
    /// Designs on the disk and among the demos, to tell where an entry is used.
    pub seen: Arc<Vec<LookedThrough>>,
    past: Vec<(Arc<OwnPantry>, &'static str)>,
    future: Vec<(Arc<OwnPantry>, &'static str)>,
}

/// Most changes that can be taken back.
const MOST_PAST: usize = 200;

impl PantryState {
    /// Shelves with the shipped pantry and what the maker added to it.
    pub fn new(shipped: Pantry, own: OwnPantry) -> Self {
        let own = Arc::new(own);
        Self {
            shipped: Arc::new(shipped),
            kept: Arc::clone(&own),
            own,
            number: 1,
            open: None,
            page: PantryPage::default(),
            label: LabelDesk::default(),
            making: Making::default(),
            seen: Arc::default(),
            past: Vec::new(),
            future: Vec::new(),
        }
    }

    /// All entries together.
    pub fn all(&self) -> Pantry {
        self.own.over(&self.shipped)
    }

    /// Makes a change of the maker's pantry.
    ///
    /// # Errors
    /// As [`OwnPantry::apply`].
    pub fn change(&mut self, edit: &OwnEdit) -> Result<(), potset_base::Note> {
        let (new, shown) = self.own.apply(&self.shipped, edit)?;
        if new == *self.own {
            return Ok(());
        }
        self.past.push((Arc::clone(&self.own), edit.words()));
        if self.past.len() > MOST_PAST {
            self.past.remove(0);
        }
        self.future.clear();
        self.set(Arc::new(new));
        if shown.is_some() {
            self.open = shown;
        }
        Ok(())
    }

    /// The change that would be taken back, in words.
    pub fn can_undo(&self) -> Option<&'static str> {
        self.past.last().map(|(_, words)| *words)
    }

    /// The change that would be made again, in words.
    pub fn can_redo(&self) -> Option<&'static str> {
        self.future.last().map(|(_, words)| *words)
    }

    /// Takes the last change back. False if there is none.
    pub fn undo(&mut self) -> bool {
        let Some((before, words)) = self.past.pop() else { return false };
        self.future.push((Arc::clone(&self.own), words));
        self.set(before);
        true
    }

    /// Makes the last change again that was taken back. False if there is none.
    pub fn redo(&mut self) -> bool {
        let Some((after, words)) = self.future.pop() else { return false };
        self.past.push((Arc::clone(&self.own), words));
        self.set(after);
        true
    }

    /// Takes in what stands on the disk now, with the changes of other windows in it; what can be taken back keeps them.
    /// False if nothing is new.
    pub fn settle(&mut self, merged: &Merged) -> bool {
        let base = std::mem::replace(&mut self.kept, Arc::new(merged.own.clone()));
        if merged.theirs != *base {
            for (own, _) in self.past.iter_mut().chain(&mut self.future) {
                *own = Arc::new(own.merged(&base, &merged.theirs).own);
            }
        }
        let new = merged.own != *self.own;
        if new {
            self.set(Arc::clone(&self.kept));
        }
        new
    }

    fn set(&mut self, own: Arc<OwnPantry>) {
        self.own = own;
        self.number += 1;
        if let Some((kind, key)) = &self.open
            && !self.own.owns(*kind, key)
            && self.shipped.entry(*kind, key).is_none()
        {
            self.open = None;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::assets;

    #[test]
    fn changes_are_taken_back_and_made_again() {
        let mut shelves = PantryState::new(assets::pantry().unwrap(), OwnPantry::default());
        let copy = OwnEdit::Copy(EntryKind::Sugar, "white_sugar".into(), "Corner shop sugar".into());
        shelves.change(&copy).unwrap();
        assert_eq!(shelves.open, Some((EntryKind::Sugar, "corner_shop_sugar".into())));
        let number = shelves.number;
        assert!(shelves.undo() && !shelves.undo());
        assert_eq!((shelves.own.count(), shelves.open.clone()), (0, None));
        assert!(shelves.redo() && !shelves.redo());
        assert_eq!(shelves.own.count(), 1);
        assert!(shelves.number > number);
    }
}
