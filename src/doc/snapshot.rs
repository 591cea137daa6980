//! The pantry entries that a design carries with it, shared by all its copies until one of them is changed.
//!
//! A drag makes a new design for every step of the mouse, and the history keeps two hundred of them: the entries are the
//! largest part of a design and hardly ever change.

use std::ops::{Deref, DerefMut};
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::pantry::Pantry;

/// Entries of a design.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Snapshot(Arc<Pantry>);

impl From<Pantry> for Snapshot {
    fn from(entries: Pantry) -> Self {
        Self(Arc::new(entries))
    }
}

impl Deref for Snapshot {
    type Target = Pantry;

    fn deref(&self) -> &Pantry {
        &self.0
    }
}

impl DerefMut for Snapshot {
    /// The entries to change: a copy of its own, where others share them.
    fn deref_mut(&mut self) -> &mut Pantry {
        Arc::make_mut(&mut self.0)
    }
}

impl PartialEq for Snapshot {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0 == other.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assets::demo;

    #[test]
    fn a_copy_shares_the_entries_until_it_is_changed() {
        let design = demo("coconut-pot.ron").unwrap();
        let mut copy = design.clone();
        assert!(Arc::ptr_eq(&design.snapshot.0, &copy.snapshot.0));
        copy.snapshot.bases[0].name.push('!');
        assert!(!Arc::ptr_eq(&design.snapshot.0, &copy.snapshot.0));
        assert_ne!(design, copy);
        assert!(!design.snapshot.bases[0].name.ends_with('!'));
    }

    #[test]
    fn a_snapshot_that_is_whole_stays_the_same_one() {
        let pantry = crate::assets::pantry().unwrap();
        let design = demo("oat-and-coconut.ron").unwrap();
        let mut again = design.clone();
        again.refresh_snapshot(&pantry);
        assert!(Arc::ptr_eq(&design.snapshot.0, &again.snapshot.0));
        // In another order it is written anew, in the order of use.
        again.bases.swap(0, 1);
        again.refresh_snapshot(&pantry);
        let keys: Vec<&str> = again.snapshot.bases.iter().map(|b| b.key.as_str()).collect();
        assert_eq!(keys, again.bases.iter().map(|b| b.entry.as_str()).collect::<Vec<_>>());
    }
}
