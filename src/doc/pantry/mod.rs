//! The pantry: what designs are made from. Every figure is cited.

mod additive;
mod base;
mod culture;
mod differ;
mod dry;
mod entry;
mod faults;
mod figures;
mod kit;
mod lists;
mod nutrients;
mod raw;
mod ticket;

use serde::{Deserialize, Serialize};

pub use additive::*;
pub use base::*;
pub use culture::*;
pub use differ::{Changed, Outdated, outdated};
pub use dry::*;
pub use entry::{Entry, EntryKind, WordsMut, contradiction};
pub use faults::faults;
pub use figures::{Figures, See, SeeBare};
pub use kit::*;
pub use lists::key_for;
pub use nutrients::{EnergyRule, Nutrients};
pub use raw::*;
pub use ticket::*;

/// All entries.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pantry {
    #[serde(default)]
    pub buffer_shapes: Vec<BufferShape>,
    #[serde(default)]
    pub bases: Vec<Base>,
    #[serde(default)]
    pub sugars: Vec<Sweetener>,
    #[serde(default)]
    pub thickeners: Vec<Thickener>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub additives: Vec<Additive>,
    #[serde(default)]
    pub organisms: Vec<Organism>,
    #[serde(default)]
    pub cultures: Vec<Culture>,
    #[serde(default)]
    pub vessels: Vec<Vessel>,
    #[serde(default)]
    pub warmers: Vec<Warmer>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub raws: Vec<Raw>,
}

/// Anything with a key.
pub trait Keyed {
    fn key(&self) -> &str;
}

macro_rules! keyed {
    ($($kind:ty),*) => { $(impl Keyed for $kind { fn key(&self) -> &str { &self.key } })* };
}
keyed!(BufferShape, Base, Sweetener, Thickener, Additive, Organism, Culture, Vessel, Warmer, Raw);

/// The entry with this key.
pub fn find<'a, T: Keyed>(list: &'a [T], key: &str) -> Option<&'a T> {
    list.iter().find(|entry| entry.key() == key)
}

/// The entry with this key: a design's own copy, or else that of the pantry.
pub fn entry<'a, T: Keyed>(own: &'a [T], shipped: &'a [T], key: &str) -> Option<&'a T> {
    find(own, key).or_else(|| find(shipped, key))
}

/// Adds a copy of an entry unless one with its key is there.
pub fn keep<T: Keyed + Clone>(list: &mut Vec<T>, entry: Option<&T>) {
    if let Some(entry) = entry
        && find(list, entry.key()).is_none()
    {
        list.push(entry.clone());
    }
}
