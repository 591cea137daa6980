//! The open design: its history, its file, and whether the file changed under it.

use std::path::PathBuf;

use crate::doc::{Design, History};

/// The open design.
#[derive(Clone, Debug)]
pub struct Session {
    pub history: History,
    pub path: Option<PathBuf>,
    /// Stamp of the file as it was read or written last.
    pub stamp: Option<u128>,
    /// Its unsaved work is to be thrown away if the program is really quit.
    pub discarded: bool,
}

impl Session {
    /// A design that stands in a file.
    #[must_use]
    pub fn of_file(design: Design, path: PathBuf, stamp: Option<u128>) -> Self {
        Self { history: History::new(design, true), path: Some(path), stamp, discarded: false }
    }

    /// A copy that belongs to no file yet. It counts as saved until it is changed: nothing is lost by closing it.
    #[must_use]
    pub fn copy(design: Design) -> Self {
        Self { history: History::new(design, true), path: None, stamp: None, discarded: false }
    }

    /// A recovered design: unsaved from the start.
    #[must_use]
    pub fn recovered(design: Design) -> Self {
        Self { history: History::new(design, false), path: None, stamp: None, discarded: false }
    }

    /// Whether it holds work that would be lost.
    #[must_use]
    pub fn at_stake(&self) -> bool {
        self.history.unsaved() && !self.discarded
    }
}
