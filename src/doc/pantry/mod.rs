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

pub use additive::*;
pub use base::*;
pub use culture::*;
pub use differ::{Changed, Outdated, outdated};
pub use dry::*;
pub use entry::{Entry, Food, FoodMut, HeadMut, contradiction};
pub use faults::faults;
use figures::figures;
pub use figures::{At, Figures};
pub use kit::*;
pub use lists::{EntryKind, Keyed, Listed, either, find, key_for};
pub use nutrients::{EnergyRule, Nutrients};
pub use raw::*;
pub use ticket::*;

figures! {
    /// All entries.
    #[derive(Default)]
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
}
