//! Commands, which views push, and effects, which the shell carries out.

use std::path::PathBuf;

use super::action::Action;
use crate::base::Note;
use crate::doc::history::Gesture;
use crate::doc::settings::Theme;
use crate::doc::{Design, Edit, Kitchen};
use crate::study::Answer;
use crate::study::explain::Reading;
use crate::study::influence::Influence;
use crate::study::next_pots::LineAsk;

/// What a view, a key or a finished job asks for.
#[derive(Clone, Debug)]
pub enum Command {
    /// Something from the table of actions.
    Do(Action),
    /// A change of the design; edits of one gesture are one step of undo.
    Edit(Edit, Option<Gesture>),
    /// A drag begins: what is shown now stays as a ghost.
    Began(Gesture),
    /// The drag is over.
    EndGesture,
    /// The drag under way is taken back; without one, the ghost goes.
    TakeBackDrag,
    /// Opens a file, after the question about unsaved work.
    Open(PathBuf),
    /// Opens a demo design as an unsaved copy.
    OpenDemo(&'static str),
    /// Saves under a name.
    SaveAs(PathBuf),
    /// The answer to the question about unsaved work.
    Unsaved(Choice),
    /// The file was read, or could not be.
    Opened(PathBuf, Result<(Box<Design>, Option<u128>), Note>),
    /// The file was written, or could not be; the revision is the one that was written.
    Saved(PathBuf, u64, Result<Option<u128>, Note>),
    /// A forecast is there.
    Answered(u64, Box<Answer>),
    /// What the answer to a question rests on is there.
    Rested(u64, Vec<Influence>),
    /// A job ended in a fault of the program.
    Failed(Note),
    Dismiss(usize),
    Theme(Theme),
    Zoom(f32),
    Fold(&'static str),
    Kitchen(Kitchen),
    /// How the next pots are started.
    Line(LineAsk),
    /// Explains a value of a time, h.
    Explain(Reading, f64),
    CloseDialog,
    /// Text for the clipboard.
    Copy(String),
    /// The window wants to close.
    CloseAsked,
    /// Work of an earlier session: take it up or throw it away.
    Recover(bool),
    /// The file on the disk is not the one that was read.
    ChangedOutside,
    /// Takes a recent file off the list.
    Forget(String),
}

/// What to do about unsaved work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    Save,
    Discard,
    Cancel,
}

/// What must be done outside `update`.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// Forecast the design now.
    Forecast,
    Read(PathBuf),
    Write {
        path: PathBuf,
        text: String,
        revision: u64,
    },
    SaveSettings,
    SaveKitchen,
    KeepRecovery,
    DropRecovery,
    AskOpen,
    AskSave,
    /// Text for the clipboard.
    Copy(String),
    Quit,
}
