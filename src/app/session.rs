//! The open design: its history, its file, and whether the file changed under it.

use std::path::PathBuf;
use std::sync::atomic::{AtomicU64, Ordering};

use potset_doc::{Design, History, Unsaved};
use potset_store::files::Stamp;

/// What became of the file since it was read or written here.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Outside {
    #[default]
    Untouched,
    /// Another window or program wrote it.
    Changed,
    /// It is not there any more.
    Gone,
}

/// The open design.
#[derive(Clone, Debug)]
pub struct Session {
    /// Names its recovery copy, wherever it is moved; no two sessions of a window share it.
    pub number: u64,
    pub history: History,
    pub path: Option<PathBuf>,
    /// Stamp of the file as it was read or written last.
    pub stamp: Option<Stamp>,
    /// What the maker was told of the file last.
    pub outside: Outside,
    /// Its unsaved work is to be thrown away if the program is really quit.
    pub discarded: bool,
}

impl Session {
    fn new(design: Design, saved: bool, path: Option<PathBuf>, stamp: Option<Stamp>) -> Self {
        static NEXT: AtomicU64 = AtomicU64::new(1);
        Self {
            number: NEXT.fetch_add(1, Ordering::Relaxed),
            history: History::new(design, saved),
            path,
            stamp,
            outside: Outside::default(),
            discarded: false,
        }
    }

    /// A design that stands in a file.
    pub fn of_file(design: Design, path: PathBuf, stamp: Option<Stamp>) -> Self {
        Self::new(design, true, Some(path), stamp)
    }

    /// A copy that belongs to no file yet. It counts as saved until it is changed: nothing is lost by closing it.
    pub fn copy(design: Design) -> Self {
        Self::new(design, true, None, None)
    }

    /// A design that was just made of what the maker said: unsaved from the start.
    pub fn made(design: Design) -> Self {
        Self::new(design, false, None, None)
    }

    /// A recovered design: unsaved from the start, and still of its file.
    pub fn recovered(unsaved: Unsaved) -> Self {
        Self::new(unsaved.design, false, unsaved.path, unsaved.stamp)
    }

    /// Whether it holds work that would be lost.
    pub fn at_stake(&self) -> bool {
        self.history.unsaved() && !self.discarded
    }

    /// What its recovery copy holds.
    pub fn unsaved(&self) -> Unsaved {
        Unsaved {
            // Only text can be written; a path that is none is asked for again.
            path: self.path.as_ref().filter(|path| path.to_str().is_some()).cloned(),
            stamp: self.stamp,
            design: Design::clone(self.history.design()),
        }
    }
}
