//! A file shown by the program that the system has for it.

use std::path::Path;
use std::process::{Command, Stdio};

use super::files::shown;
use potset_base::Note;

/// Has the system's own viewer open a file.
///
/// # Errors
/// A note that says where the file is, if there is none.
pub fn open(path: &Path) -> Result<(), Note> {
    let mut command = match std::env::consts::OS {
        "macos" => Command::new("open"),
        "windows" => Command::new("explorer"),
        _ => Command::new("xdg-open"),
    };
    let started = command.arg(path).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
    started.map(|_| ()).map_err(|e| {
        let mend = format!("Open the file yourself: {}", path.display());
        Note::error(shown(path), format!("Your system has no viewer for it: {e}"), mend)
    })
}
