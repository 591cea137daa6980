//! Looks after the open file while nothing else is to be done: whoever writes it, the window is told, with the focus too.

use std::path::PathBuf;
use std::time::Duration;

use potset_store::files::{self, Stamp};

/// How often the file is looked at. The screen is woken only when it is another one.
pub const EVERY: Duration = Duration::from_secs(2);

/// A file as it is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watch {
    pub path: PathBuf,
    pub stamp: Stamp,
}

impl Watch {
    /// Whether another file stands there by now, or none.
    #[must_use]
    pub fn changed(&self) -> bool {
        files::stamp(&self.path) != Some(self.stamp)
    }
}
