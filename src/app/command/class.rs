//! Commands of the Class view.

use std::path::PathBuf;
use std::sync::Arc;

use crate::class::{ClassFile, DraftWish};
use potset_base::Note;
use potset_class::{Press, Shown, ShownPot};
use potset_doc::Lesson;

/// What the Class view asks for. Lessons are named by their key.
#[derive(Clone, Debug)]
pub enum ClassCommand {
    /// Puts a lesson on the wall.
    Open(String),
    /// The pots of the lesson on the wall were run, or cannot be made.
    Shown(u64, Result<Arc<Shown>, Note>),
    Press(Press),
    /// So many seconds went by.
    Tick(f64),
    /// What came of the levers of free play at these values.
    Freed(u64, Vec<f64>, Result<Arc<ShownPot>, Note>),
    /// Back to the list; from the list to the view before.
    Leave,
    /// Begins a lesson of the maker's own.
    New,
    Wish(DraftWish),
    /// Writes the first texts of the draft.
    Write,
    /// The texts as the maker has them.
    Words(Box<Lesson>),
    /// Plays the draft.
    Preview,
    Keep,
    GiveUp,
    /// Changes a lesson: one that ships gets a copy of the maker's own.
    Change(String),
    Remove(String),
    PutBack,
    /// Sooner (true) or later in the order.
    Move(String, bool),
    People(u32),
    /// Reduced motion: nothing moves by itself.
    Still(bool),
    AskFile(ClassFile, String),
    FileTo(ClassFile, String, PathBuf),
    Written(PathBuf, Result<(), Note>),
    AskImport,
    Import(PathBuf),
    Imported(PathBuf, Result<Box<Lesson>, Note>),
}
