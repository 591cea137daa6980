//! Words everybody uses: quantities, numbers in words and back, cited values, notes. Imports nothing of ours.

pub mod acidity;
pub mod allergen;
pub mod chance;
mod choices;
pub mod clock;
pub mod constants;
pub mod hash;
pub mod inhibitor;
pub mod label_rule;
pub mod lexicon;
pub mod measures;
pub mod note;
pub mod number;
pub mod palette;
pub mod shares;
pub mod source;
pub mod sugar;
pub mod typeface;
pub mod units;
pub mod words;

pub use inhibitor::Inhibitor;
pub use note::{Note, Severity};
pub use source::{Cited, Source, SourceKind, Spread};
pub use sugar::Sugar;
