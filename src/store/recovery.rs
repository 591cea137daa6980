//! Recovery copies of unsaved work: a folder for each window, locked while the window lives.
//!
//! The system lets go of the lock when a program ends, however it ends: a folder that can be locked is of a window that
//! is gone, and what is in it was lost. No window touches the folder of another that lives.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use super::files::{self, last_good};
use super::folders::Folders;
use potset_base::Note;
use potset_doc::{Unsaved, format};

/// A copy that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Lost {
    /// The file of the copy.
    pub copy: PathBuf,
    pub unsaved: Unsaved,
}

/// A folder with its lock.
#[derive(Debug)]
struct Held {
    folder: PathBuf,
    _lock: File,
}

/// This window's copies, and those of windows that are gone.
#[derive(Debug)]
pub struct Recovery {
    own: Held,
    left: Vec<Held>,
}

const LOCK: &str = "lock";

impl Recovery {
    /// Makes the folder of this window, and takes hold of those whose windows are gone.
    ///
    /// # Errors
    /// A note if no folder can be made: then no copies are kept.
    pub fn open(folders: &Folders) -> Result<Self, Note> {
        let all = folders.state.join("recovery");
        let failed = |e: std::io::Error| Note {
            sentence: e.to_string(),
            ..Note::error(
                files::shown(&all),
                "No recovery copies can be kept",
                "Make this folder writable, and save often until then",
            )
        };
        fs::create_dir_all(&all).map_err(failed)?;
        // Windows that start at once do so one after the other: a folder that is not locked yet is not taken for a lost one.
        let starting = File::create(all.join(LOCK)).map_err(failed)?;
        let _ = starting.lock();
        let mut left = Vec::new();
        for entry in fs::read_dir(&all).map_err(failed)?.flatten() {
            let folder = entry.path();
            let Some(held) = Held::take(&folder) else { continue };
            files::sweep(&folder);
            if copies(&folder).is_empty() {
                held.remove();
            } else {
                left.push(held);
            }
        }
        let folder = tempfile::Builder::new().prefix("window-").tempdir_in(&all).map_err(failed)?.keep();
        let lock = File::create(folder.join(LOCK)).map_err(failed)?;
        let _ = lock.lock();
        Ok(Self { own: Held { folder, _lock: lock }, left })
    }

    /// What was lost, the newest first; copies that cannot be read are told of and stay where they are.
    pub fn lost(&self) -> (Vec<Lost>, Vec<Note>) {
        let mut paths: Vec<PathBuf> = self.left.iter().flat_map(|held| copies(&held.folder)).collect();
        paths.sort_by_key(|path| fs::metadata(path).and_then(|meta| meta.modified()).ok());
        let (mut found, mut told) = (Vec::new(), Vec::new());
        for copy in paths.into_iter().rev() {
            let either = read(&copy).or_else(|note| read(&last_good(&copy)).map_err(|_| note));
            match either {
                Ok(unsaved) => found.push(Lost { copy, unsaved }),
                Err(note) => told.push(Note {
                    title: format!("A recovery copy cannot be read: {}", note.title),
                    ..files::named(&copy, note)
                }),
            }
        }
        (found, told)
    }

    /// Keeps these copies by their numbers, and no others.
    ///
    /// # Errors
    /// A note if one could not be written; older ones stay then.
    pub fn keep(&self, designs: &[(u64, Unsaved)]) -> Result<(), Note> {
        for (number, unsaved) in designs {
            files::write(&self.path(*number), &format::write(unsaved)?)?;
        }
        let kept: Vec<PathBuf> = designs.iter().map(|(number, _)| self.path(*number)).collect();
        for path in copies(&self.own.folder).into_iter().filter(|path| !kept.contains(path)) {
            remove(&path);
        }
        Ok(())
    }

    fn path(&self, number: u64) -> PathBuf {
        self.own.folder.join(format!("design-{number}.ron"))
    }

    /// Takes away a copy of a window that is gone, and its folder when it was the last one.
    pub fn drop_lost(&mut self, copy: &Path) {
        if self.left.iter().any(|held| copy.parent() == Some(held.folder.as_path())) {
            remove(copy);
        }
        let (left, empty) = self.left.drain(..).partition(|held| !copies(&held.folder).is_empty());
        self.left = left;
        let empty: Vec<Held> = empty;
        for held in empty {
            held.remove();
        }
    }

    /// Lets go of what was lost: the next window that starts finds it again.
    pub fn leave(&mut self) {
        self.left.clear();
    }
}

impl Drop for Recovery {
    fn drop(&mut self) {
        if copies(&self.own.folder).is_empty() {
            let _ = fs::remove_dir_all(&self.own.folder);
        }
    }
}

impl Held {
    /// Locks a folder; `None` if its window lives, or if it is none.
    fn take(folder: &Path) -> Option<Self> {
        let lock = File::open(folder.join(LOCK)).or_else(|_| {
            // Its window died before it made one.
            if folder.is_dir() {
                File::create(folder.join(LOCK))
            } else {
                Err(std::io::ErrorKind::NotFound.into())
            }
        });
        let lock = lock.ok()?;
        // Where the system knows no locks, it is offered: to be asked twice is better than to lose it.
        let lives = matches!(lock.try_lock(), Err(fs::TryLockError::WouldBlock));
        (!lives).then(|| Self { folder: folder.to_path_buf(), _lock: lock })
    }

    /// Takes an empty folder away.
    fn remove(self) {
        let _ = fs::remove_file(self.folder.join(LOCK));
        let _ = fs::remove_dir(&self.folder);
    }
}

/// The copies in a folder. One whose last good copy alone is left counts too.
fn copies(folder: &Path) -> Vec<PathBuf> {
    let mut out: Vec<PathBuf> = Vec::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let name = name.strip_suffix(".last-good").unwrap_or(&name);
        if name.starts_with("design-") {
            out.push(folder.join(name));
        }
    }
    out.sort();
    out.dedup();
    out
}

fn read(copy: &Path) -> Result<Unsaved, Note> {
    format::read_unsaved(&files::bytes(copy)?)
}

/// The last good copy goes last, so that a fault in between leaves one that can be read.
fn remove(copy: &Path) {
    for file in [copy.to_path_buf(), last_good(copy)] {
        // It may never have been there.
        let _ = fs::remove_file(file);
    }
}
