//! Entries by key: the design's own snapshot first, then the pantry.

use potset_base::Note;
use potset_doc::pantry::{
    Additive, Base, BufferShape, Culture, Keyed, Organism, Sweetener, Thickener, Vessel, Warmer,
    entry as of_either,
};
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_science::params::Laws;

/// All that compiling looks things up in.
#[derive(Clone, Copy)]
pub struct Lookup<'a> {
    pub design: &'a Design,
    pub pantry: &'a Pantry,
    pub kitchen: &'a Kitchen,
    pub learnt: &'a Learnt,
    pub laws: &'a Laws,
}

fn entry<'a, T: Keyed>(own: &'a [T], shipped: &'a [T], kind: &str, key: &str) -> Result<&'a T, Note> {
    of_either(own, shipped, key).ok_or_else(|| {
        Note::error(kind, format!("No {kind} is called {key}"), "Swap it for an entry of the pantry")
    })
}

macro_rules! look {
    ($($(#[$doc:meta])* $name:ident, $list:ident, $kind:ty, $word:literal;)*) => {
        impl<'a> Lookup<'a> {
            $($(#[$doc])*
            /// # Errors
            /// A note that names the missing entry.
            pub fn $name(&self, key: &str) -> Result<&'a $kind, Note> {
                entry(&self.design.snapshot.$list, &self.pantry.$list, $word, key)
            })*
        }
    };
}

look! {
    /// The base with this key.
    base, bases, Base, "base";
    /// The buffer shape with this key.
    shape, buffer_shapes, BufferShape, "buffer shape";
    /// The sugar with this key.
    sweetener, sugars, Sweetener, "sugar";
    /// The thickener with this key.
    thickener, thickeners, Thickener, "thickener";
    /// The additive with this key.
    additive, additives, Additive, "additive";
    /// The culture with this key.
    culture, cultures, Culture, "culture";
    /// The organism with this key.
    organism, organisms, Organism, "organism";
    /// The vessel with this key.
    vessel, vessels, Vessel, "vessel";
    /// The warmer with this key.
    warmer, warmers, Warmer, "warmer";
}
