//! Entries by key: the design's own snapshot first, then the pantry.

use potset_base::Note;
use potset_doc::pantry::Listed;
use potset_doc::{Design, Kitchen, Pantry};
use potset_science::params::Laws;

/// All that compiling looks things up in.
#[derive(Clone, Copy)]
pub struct Lookup<'a> {
    pub design: &'a Design,
    pub pantry: &'a Pantry,
    pub kitchen: &'a Kitchen,
    pub laws: &'a Laws,
}

impl<'a> Lookup<'a> {
    /// The entry with this key.
    ///
    /// # Errors
    /// A note that names the missing entry.
    pub fn entry<T: Listed>(&self, key: &str) -> Result<&'a T, Note> {
        self.design.entry(self.pantry, key).ok_or_else(|| {
            let title = format!("No {} is called {key}", T::ONE);
            Note::error(T::ONE, title, "Swap it for an entry of the pantry")
        })
    }
}
