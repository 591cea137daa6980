//! Looks after the open file while nothing else is to be done: whoever writes it, the window is told, with the focus too.

use std::path::PathBuf;

use super::{At, Job, Key, Step, fault};
use crate::command::{Command, FileCommand, WindowCommand};
use potset_store::files::{self, Stamp};

/// A file as it is known. Told of once, it is not looked at any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watch {
    pub path: PathBuf,
    pub stamp: Stamp,
}

impl Job for Watch {
    fn key(&self) -> Key {
        Key::Watch
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        if files::stamp(&self.path) == Some(self.stamp) {
            return Step::more(*self);
        }
        Step::done(FileCommand::Touched.into())
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(fault("File", "Looking after the open file", "Save the design")).into()
    }
}
