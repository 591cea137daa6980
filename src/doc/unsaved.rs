//! A recovery copy: a design with changes that are in no file, and the file that it belongs to.

use std::path::PathBuf;

use serde::{Deserialize, Serialize};

use super::Design;

/// What is kept of a design while it has unsaved changes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Unsaved {
    /// The file that it was opened from or saved to last; a path that is no text is left out.
    pub path: Option<PathBuf>,
    /// The stamp of that file as it was read or written: another one now means that someone else wrote it.
    pub stamp: Option<u64>,
    pub design: Design,
}
