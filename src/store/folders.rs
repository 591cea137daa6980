//! Where settings and recovery copies live, and where a maker's own files go.

use std::path::{Path, PathBuf};

use directories::{BaseDirs, ProjectDirs, UserDirs};

/// Folders of this user; `None` where the system names no home.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Folders {
    pub settings: PathBuf,
    pub state: PathBuf,
    /// Where new designs go unless another place is chosen: a folder that a person can see.
    pub documents: PathBuf,
    /// The maker's folder: their own pantry, with photos beside it.
    pub own: PathBuf,
}

/// The folders of the user who runs the program.
pub fn folders() -> Option<Folders> {
    let dirs = ProjectDirs::from("", "", "potset")?;
    let home = BaseDirs::new()?.home_dir().to_path_buf();
    // Some systems name a folder of documents that is not there, others have one and do not name it.
    let named = UserDirs::new().and_then(|d| d.document_dir().map(PathBuf::from));
    let documents =
        named.into_iter().chain([home.join("Documents")]).find(|path| path.is_dir()).unwrap_or(home);
    Some(Folders {
        settings: dirs.config_dir().to_path_buf(),
        state: dirs.state_dir().unwrap_or_else(|| dirs.data_local_dir()).to_path_buf(),
        documents,
        own: dirs.data_dir().to_path_buf(),
    })
}

/// The whole path of one that was typed: `~` is the home, and a name alone lies in `folder`.
pub fn spelled_out(typed: &str, folder: &Path) -> PathBuf {
    let typed = typed.trim();
    let in_home = typed.strip_prefix('~').filter(|rest| rest.is_empty() || rest.starts_with('/'));
    match (in_home, BaseDirs::new()) {
        (Some(rest), Some(dirs)) => dirs.home_dir().join(rest.trim_start_matches('/')),
        _ => folder.join(typed),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typed_path_is_spelled_out() {
        let folder = Path::new("/kitchen/pots");
        assert_eq!(spelled_out(" pot.ron ", folder), folder.join("pot.ron"));
        assert_eq!(spelled_out("/else/pot.ron", folder), Path::new("/else/pot.ron"));
        assert_eq!(spelled_out("~pot.ron", folder), folder.join("~pot.ron"));
        let home = BaseDirs::new().unwrap().home_dir().to_path_buf();
        assert_eq!(spelled_out("~/pot.ron", folder), home.join("pot.ron"));
    }
}
