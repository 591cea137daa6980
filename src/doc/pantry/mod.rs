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
    #[serde(default)]
    pub struct Pantry {
        pub buffer_shapes: Vec<BufferShape>,
        pub bases: Vec<Base>,
        pub sugars: Vec<Sweetener>,
        pub thickeners: Vec<Thickener>,
        pub additives: Vec<Additive> = default,
        pub organisms: Vec<Organism>,
        pub cultures: Vec<Culture>,
        pub vessels: Vec<Vessel>,
        pub warmers: Vec<Warmer>,
        pub raws: Vec<Raw> = default,
    }
}
