//! Where a command writes: into a folder that is there, never over what it reads, nor over a file of another kind.

use std::fs::{self, File};
use std::io::Read;
use std::path::{Path, PathBuf};

use super::files::{self, shown};
use potset_base::Note;
use potset_doc::{Design, format};

/// Bytes of an old file by which it is known what it is.
const HEAD: u64 = 1 << 20;

/// What a command writes.
#[derive(Clone, Copy)]
pub struct Kind {
    /// In a sentence: "a design".
    pub name: &'static str,
    /// Whether a file that begins like this is one, too.
    pub holds: fn(&[u8]) -> bool,
}

/// A design as a file.
pub const DESIGN: Kind = Kind { name: "a design", holds: format::is_design };

/// A place where something may be written.
pub struct Out<'a> {
    path: &'a Path,
    kind: Kind,
    inputs: Vec<&'a Path>,
}

impl<'a> Out<'a> {
    /// A place for a kind of file, which a command names before it begins to work.
    ///
    /// - `inputs` — the files that the command reads
    ///
    /// # Errors
    /// A note if the folder is not there (none is ever made), or if something stands there that is not to be lost: a file
    /// that is read, a design, a file of another kind. An empty file, a device and a pipe lose nothing.
    pub fn at(path: &'a Path, kind: Kind, inputs: Vec<&'a Path>) -> Result<Self, Note> {
        let out = Self { path, kind, inputs };
        out.check()?;
        Ok(out)
    }

    /// Where it is.
    pub const fn path(&self) -> &Path {
        self.path
    }

    /// Writes bytes that can be made again. What stands there is looked at once more.
    ///
    /// # Errors
    /// As [`Out::at`], or if it cannot be written.
    pub fn write(&self, bytes: &[u8]) -> Result<(), Note> {
        self.check()?;
        files::write_bytes(self.path, bytes)
    }

    /// Writes a design, and keeps the one that stood there as its last good copy.
    ///
    /// # Errors
    /// As [`Out::write`].
    pub fn save_design(&self, design: &Design) -> Result<(), Note> {
        self.check()?;
        files::save_design(self.path, design)
    }

    fn check(&self) -> Result<(), Note> {
        let (at, old) =
            files::stands_at(self.path).map_err(|e| files::trouble(self.path, "looked at", &e))?;
        let Some(old) = old else { return has_folder(&at) };
        if old.is_dir() {
            return Err(self.refused("This is a folder", "Give the name of a file in it"));
        }
        if !old.is_file() || old.len() == 0 {
            return Ok(());
        }
        let other = "Give another name";
        if self.inputs.iter().any(|input| same_file(&at, input)) {
            return Err(self.refused("This is the file that is read", other));
        }
        let head = head(&at).map_err(|e| files::trouble(self.path, "looked at", &e))?;
        if (self.kind.holds)(&head) {
            return Ok(());
        }
        let is = if format::is_design(&head) { "A design" } else { "A file of another kind" };
        let title = format!("{is} is there already, and {} would replace it", self.kind.name);
        Err(self.refused(&title, "Give another name, or move that file away first"))
    }

    fn refused(&self, title: &str, mend: &str) -> Note {
        Note::error(format!("--out {}", shown(self.path)), title, mend)
    }
}

/// A slip of the hand makes no new folder.
fn has_folder(path: &Path) -> Result<(), Note> {
    match path.parent().filter(|folder| !folder.as_os_str().is_empty() && !folder.is_dir()) {
        Some(folder) => Err(Note::error(
            "--out",
            format!("There is no folder {}", shown(folder)),
            "Make the folder first, or name another one",
        )),
        None => Ok(()),
    }
}

fn head(path: &Path) -> std::io::Result<Vec<u8>> {
    let mut head = Vec::new();
    File::open(path)?.take(HEAD).read_to_end(&mut head)?;
    Ok(head)
}

/// Whether two names lead to one file: by links of either kind.
fn same_file(a: &Path, b: &Path) -> bool {
    let real: Option<(PathBuf, PathBuf)> = fs::canonicalize(a).ok().zip(fs::canonicalize(b).ok());
    if real.is_some_and(|(a, b)| a == b) {
        return true;
    }
    number(a).is_some_and(|a| number(b) == Some(a))
}

/// The number under which the system keeps a file, whatever its names.
#[cfg(unix)]
fn number(path: &Path) -> Option<(u64, u64)> {
    use std::os::unix::fs::MetadataExt;
    fs::metadata(path).ok().map(|meta| (meta.dev(), meta.ino()))
}

#[cfg(not(unix))]
const fn number(_: &Path) -> Option<(u64, u64)> {
    None
}
