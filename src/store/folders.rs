//! Where settings and recovery copies live.

use std::path::PathBuf;

use directories::ProjectDirs;

/// Folders of this user; `None` where the system names no home.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Folders {
    pub settings: PathBuf,
    pub state: PathBuf,
    pub documents: PathBuf,
    /// The maker's folder: their own pantry, with photos beside it.
    pub own: PathBuf,
}

/// The folders of the user who runs the program.
#[must_use]
pub fn folders() -> Option<Folders> {
    let dirs = ProjectDirs::from("", "", "potset")?;
    let documents = directories::UserDirs::new()
        .and_then(|d| d.document_dir().map(PathBuf::from))
        .unwrap_or_else(|| dirs.data_dir().to_path_buf());
    Some(Folders {
        settings: dirs.config_dir().to_path_buf(),
        state: dirs.state_dir().unwrap_or_else(|| dirs.data_local_dir()).to_path_buf(),
        documents,
        own: dirs.data_dir().to_path_buf(),
    })
}
