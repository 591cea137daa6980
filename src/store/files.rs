//! Reading and writing one file: bounded, atomic, with a last good copy.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use crate::base::Note;
use crate::doc::format::{self, MOST_BYTES, Saved};
use crate::doc::{Design, Pantry, Settings};

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
                "Save what it gives in a file first",
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

/// Writes a text so that the file is never half there: into a new file beside it, synced, then renamed.
/// What the file held before is kept as `NAME.last-good`. Its rights stay; a link is followed and stays a link;
/// a device or a pipe is written to and never replaced.
///
/// # Errors
/// A note; the old file is untouched then.
pub fn write(path: &Path, text: &str) -> Result<(), Note> {
    write_bytes_keeping(path, text.as_bytes(), true)
}

/// Writes bytes that can be made again (pictures, tables): as whole as [`write()`], without a copy of the old file.
///
/// # Errors
/// As [`write()`].
pub fn write_bytes(path: &Path, bytes: &[u8]) -> Result<(), Note> {
    write_bytes_keeping(path, bytes, false)
}

fn write_bytes_keeping(path: &Path, bytes: &[u8], keep: bool) -> Result<(), Note> {
    write_io(path, bytes, keep).map_err(|e| trouble(path, "saved", &e))
}

fn write_io(path: &Path, bytes: &[u8], keep: bool) -> io::Result<()> {
    let (path, old) = stands_at(path)?;
    match &old {
        Some(meta) if meta.is_dir() => return Err(io::ErrorKind::IsADirectory.into()),
        Some(meta) if !meta.is_file() => {
            // A new file under this name would take a device's place, for everything else on the machine too.
            return fs::OpenOptions::new().write(true).open(path)?.write_all(bytes);
        }
        // Renaming over it would ask only for rights in the folder.
        Some(meta) if meta.permissions().readonly() => return Err(io::ErrorKind::PermissionDenied.into()),
        _ => {}
    }
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(folder)?;
    let mut builder = tempfile::Builder::new();
    builder.prefix(".potset-").suffix(".tmp");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // The umask applies; the crate's own default of 0600 would take a shared file from others.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(bytes)?;
    if let Some(meta) = &old {
        // What its owner keeps from others stays so.
        file.as_file().set_permissions(meta.permissions())?;
    }
    file.as_file().sync_all()?;
    if keep && old.is_some() {
        // A copy, not a rename: the name never points to nothing.
        fs::copy(&path, last_good(&path))?;
    }
    file.persist(&path).map_err(|e| e.error)?;
    #[cfg(unix)]
    File::open(folder)?.sync_all()?;
    Ok(())
}

/// The place that a name leads to, through links, and what stands there.
pub(super) fn stands_at(path: &Path) -> io::Result<(PathBuf, Option<fs::Metadata>)> {
    /// So many links one after the other are a ring.
    const LINKS: usize = 40;
    let mut at = path.to_path_buf();
    for _ in 0..LINKS {
        match fs::metadata(&at) {
            // The system's names for an open pipe lead nowhere that can be spelled.
            Ok(meta) if !meta.is_file() => return Ok((at, Some(meta))),
            Ok(meta) => return Ok((fs::canonicalize(&at)?, Some(meta))),
            Err(e) if e.kind() != io::ErrorKind::NotFound => return Err(e),
            // Nothing there, or a link to what is not there yet.
            Err(_) => match fs::read_link(&at) {
                Ok(to) => at = at.parent().unwrap_or(Path::new("")).join(to),
                Err(_) => return Ok((at, None)),
            },
        }
    }
    Err(io::Error::other("its links lead in a ring"))
}

/// Where the last good copy of a file is.
#[must_use]
pub fn last_good(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".last-good");
    path.with_file_name(name)
}

/// Saves a design.
///
/// # Errors
/// As [`write()`].
pub fn save_design(path: &Path, design: &Design) -> Result<(), Note> {
    write(path, &format::write(design)?)
}

/// Reads something that may not be there yet: settings, kitchen. A file that cannot be read is set aside, not lost.
///
/// The note says where the bad file went.
#[must_use]
pub fn read_or_default<T: Saved + Default>(path: &Path) -> (T, Option<Note>) {
    if !path.exists() {
        return (T::default(), None);
    }
    match bytes(path).and_then(|b| format::read::<T>(&b)) {
        Ok(value) => (value, None),
        Err(note) => {
            let mut aside = path.as_os_str().to_owned();
            aside.push(".bad");
            let aside = PathBuf::from(aside);
            let kept = fs::rename(path, &aside).is_ok();
            let mend =
                if kept { format!("It was set aside as {}", shown(&aside)) } else { note.mend.clone() };
            (T::default(), Some(Note { mend, ..named(path, note) }))
        }
    }
}

/// Whether anything stands under this name.
#[must_use]
pub fn is_there(path: &Path) -> bool {
    path.exists()
}

/// When a file was last changed, as a number that only says whether it is still the same.
#[must_use]
pub fn stamp(path: &Path) -> Option<u128> {
    let changed = fs::metadata(path).ok()?.modified().ok()?;
    Some(changed.duration_since(std::time::UNIX_EPOCH).ok()?.as_nanos())
}

/// Recent files that are still there, with whether they are.
#[must_use]
pub fn recent(settings: &Settings) -> Vec<(String, bool)> {
    settings.recent.iter().map(|p| (p.clone(), Path::new(p).is_file())).collect()
}

pub(super) fn shown(path: &Path) -> String {
    path.display().to_string()
}

pub(super) fn named(path: &Path, note: Note) -> Note {
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
