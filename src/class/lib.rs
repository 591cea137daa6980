//! A lesson before a room: its pots are run once, its claims are read off them, its steps are played, a class is prepared.
//!
//! Invariant: a lesson is the same in every room. Its pots are run with the usual kitchen and without what a maker's batches
//! taught, so what was tested is what is shown. Nothing here knows a screen, a clock or a key: `play` is told how many seconds
//! went by.

pub mod claims;
pub mod curves;
pub mod draft;
pub mod play;
pub mod pots;
pub mod prepare;

pub use play::{Play, Press, Step};
#[cfg(test)]
mod tests;

pub use pots::{Shown, ShownPot, show};
