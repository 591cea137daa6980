//! Reading and writing one file: bounded, atomic, with a last good copy.

mod whole;

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

pub(super) use self::whole::stands_at;
pub use self::whole::{Over, Stamp, Written, last_good, sweep};
use potset_base::Note;
use potset_doc::evidence::Case;
use potset_doc::format::{self, MOST_BYTES};
use potset_doc::{Design, Pantry, Settings, evidence};

/// Reads a file's bytes, refusing what is far too large to be ours before it is read, and what is no file of its own: a
/// pipe or a device may never end. Files of the system say that they are empty and may wait for ever; they are taken at
/// their word.
///
/// # Errors
/// A note that names the file and what is wrong with it.
pub fn bytes(path: &Path) -> Result<Vec<u8>, Note> {
    let trouble = |e: &io::Error| trouble(path, "read", e);
    let meta = fs::metadata(path).map_err(|e| trouble(&e))?;
    if meta.is_dir() {
        return Err(Note::error(shown(path), "This is a folder", "Open a file in it"));
    }
    if meta.len() > MOST_BYTES as u64 {
        return Err(named(path, format::too_large(meta.len())));
    }
    if !meta.is_file() {
        return Err(Note {
            sentence: format!("Only a file of up to {} MB is read", MOST_BYTES >> 20),
            ..Note::error(
                shown(path),
                "This is a pipe or a device, not a file",
                "Save its content in a file first",
            )
        });
    }
    let mut out = Vec::new();
    if meta.len() == 0 {
        return Ok(out);
    }
    // A bound in case the file grows.
    File::open(path)
        .and_then(|f| f.take(MOST_BYTES as u64 + 1).read_to_end(&mut out))
        .map_err(|e| trouble(&e))?;
    Ok(out)
}

/// Reads a design.
///
/// # Errors
/// A note with file, line, field and mend.
pub fn design(path: &Path) -> Result<Design, Note> {
    format::read_design(&bytes(path)?).map_err(|note| named(path, note))
}

/// Reads shared entries of a pantry.
///
/// # Errors
/// A note with file, line, field and mend.
pub fn shared(path: &Path) -> Result<Pantry, Note> {
    format::read::<Pantry>(&bytes(path)?).map_err(|note| named(path, note))
}

/// Reads cases of evidence that do not ship, which go by a pantry.
///
/// # Errors
/// A note with file, line, field and mend.
pub fn cases(path: &Path, pantry: &Pantry) -> Result<Vec<Case>, Note> {
    evidence::read(&bytes(path)?, pantry).map_err(|note| named(path, note))
}

/// Writes a text so that the file is never half there: into a new file beside it, synced, then renamed.
/// What the file held before is kept as `NAME.last-good`. Its rights stay; a link is followed and stays a link;
/// a device or a pipe is written to and never replaced.
///
/// # Errors
/// A note; the old file is untouched then.
pub fn write(path: &Path, text: &str) -> Result<(), Note> {
    write_over(path, text, Over::Anything).map(|_| ())
}

/// The same, but only over what is known to stand there.
///
/// # Errors
/// As [`write()`].
pub fn write_over(path: &Path, text: &str, over: Over) -> Result<Written, Note> {
    whole::write(path, text.as_bytes(), true, over).map_err(|e| trouble(path, "saved", &e))
}

/// Writes bytes that can be made again (pictures, tables): as whole as [`write()`], without a copy of the old file.
///
/// # Errors
/// As [`write()`].
pub fn write_bytes(path: &Path, bytes: &[u8]) -> Result<(), Note> {
    whole::write(path, bytes, false, Over::Anything).map(|_| ()).map_err(|e| trouble(path, "saved", &e))
}

/// Saves a design.
///
/// # Errors
/// As [`write()`].
pub fn save_design(path: &Path, design: &Design) -> Result<(), Note> {
    write(path, &format::write(design)?)
}

/// Bytes of a file of ours, only over what is known to stand there; without a copy of the old file.
///
/// # Errors
/// As [`write()`].
pub fn write_bytes_over(path: &Path, bytes: &[u8], over: Over) -> Result<Written, Note> {
    whole::write(path, bytes, false, over).map_err(|e| trouble(path, "saved", &e))
}

/// Whether anything stands under this name.
pub fn is_there(path: &Path) -> bool {
    path.exists()
}

/// The stamp of the file under a name; `None` if there is none.
pub fn stamp(path: &Path) -> Option<Stamp> {
    whole::stamp_of(&fs::metadata(path).ok()?)
}

/// What lies in a folder, to be picked from: the names of its folders (true), then of files with one of these endings;
/// what is hidden is left out.
pub fn listing(folder: &Path, endings: &[&str]) -> Vec<(String, bool)> {
    /// More are not looked through by eye.
    const MOST: usize = 500;
    let mut out = Vec::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let Ok(name) = entry.file_name().into_string() else { continue };
        let path = entry.path();
        let ends =
            path.extension().is_some_and(|e| endings.iter().any(|ending| e.eq_ignore_ascii_case(ending)));
        let is_folder = path.is_dir();
        if !name.starts_with('.') && (is_folder || ends) {
            out.push((name, is_folder));
        }
    }
    out.sort_by_key(|(name, is_folder)| (!is_folder, name.to_lowercase()));
    out.truncate(MOST);
    out
}

/// Recent files that are still there, with whether they are.
pub fn recent(settings: &Settings) -> Vec<(String, bool)> {
    settings.recent.iter().map(|p| (p.clone(), Path::new(p).is_file())).collect()
}

/// A path as it is told.
pub(super) fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// The note with the file that it is about.
pub fn named(path: &Path, note: Note) -> Note {
    let field = if note.field.is_empty() { shown(path) } else { format!("{}, {}", shown(path), note.field) };
    Note { field, ..note }
}

pub(super) fn trouble(path: &Path, what: &str, e: &io::Error) -> Note {
    let mend = match e.kind() {
        io::ErrorKind::NotFound => "Check the name and the folder",
        io::ErrorKind::IsADirectory => "Give a file's name in this folder",
        io::ErrorKind::PermissionDenied => "Choose a place where you may write, or ask for the right to",
        io::ErrorKind::StorageFull => "Make room on the disk",
        _ => "Try again, or choose another place",
    };
    Note::error(shown(path), format!("The file could not be {what}: {e}"), mend)
}
