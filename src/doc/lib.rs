//! What is saved and how it changes: designs, pantry, kitchen, settings; edits and history; the file format; evidence.
//!
//! Invariant: nothing here knows the model, reads a disk or a clock. Saved types are a promise; the model has its own.

pub mod assets;
pub mod batch;
pub mod calls;
pub mod card_text;
pub mod check;
pub mod culture_in;
mod demos;
pub mod design;
pub mod edit;
pub mod evidence;
pub mod fields;
pub mod format;
pub mod goals;
pub mod history;
pub mod in_pot;
pub mod kitchen;
mod known;
pub mod label;
pub mod learnt;
pub mod lesson;
pub mod lines;
pub mod measured;
pub mod number_words;
pub mod own;
pub mod packets;
pub mod pantry;
mod parts;
pub mod range;
pub mod readings;
pub mod recipe;
pub mod said;
pub mod settings;
pub mod shelf;
pub mod snapshot;
pub mod steps;
pub mod unsaved;

pub use batch::Batch;
pub use design::Design;
pub use edit::Edit;
pub use history::History;
pub use kitchen::Kitchen;
pub use learnt::Learnt;
pub use lesson::Lesson;
pub use own::{OwnEdit, OwnPantry};
pub use pantry::Pantry;
pub use settings::Settings;
pub use unsaved::Unsaved;
