//! Writing a file whole: a locked temporary file beside it, synced, held against what is expected there, renamed.

use std::fs::{self, File, Metadata};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

/// Says whether a file is still the same one: made of its time, its length and its place on the disk.
pub type Stamp = u64;

/// What may stand under a name when it is written to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// Whatever is there.
    Anything,
    /// The file of this stamp, or none; without a stamp: no file at all.
    Same(Option<Stamp>),
}

/// How a write ended that was no failure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Written {
    /// The stamp of the new file; a device or a pipe has none.
    Done(Option<Stamp>),
    /// Something else stands there by now; nothing was written.
    Changed,
}

const PREFIX: &str = ".potset-";
const SUFFIX: &str = ".tmp";

/// Writes bytes so that a file is never half there. `keep`: what it held before stays as its last good copy.
pub fn write(path: &Path, bytes: &[u8], keep: bool, over: Over) -> io::Result<Written> {
    let (path, old) = stands_at(path)?;
    match &old {
        Some(meta) if meta.is_dir() => return Err(io::ErrorKind::IsADirectory.into()),
        Some(meta) if !meta.is_file() => {
            // A new file under this name would take a device's place, for everything else on the machine too.
            fs::OpenOptions::new().write(true).open(path)?.write_all(bytes)?;
            return Ok(Written::Done(None));
        }
        // Renaming over it would ask only for rights in the folder.
        Some(meta) if meta.permissions().readonly() => return Err(io::ErrorKind::PermissionDenied.into()),
        _ => {}
    }
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(folder)?;
    sweep(folder);
    let mut file = temporary(folder, old.as_ref())?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    let stamp = stamp_of(&file.as_file().metadata()?);
    // Held until the new file is in its place: two that write at once go one after the other.
    let _held = hold(&path);
    if let Over::Same(known) = over
        && fs::metadata(&path).is_ok_and(|meta| known != stamp_of(&meta))
    {
        return Ok(Written::Changed);
    }
    if keep {
        keep_copy(&path, folder, bytes)?;
    }
    if over == Over::Same(None) {
        match file.persist_noclobber(&path) {
            Err(e) if e.error.kind() == io::ErrorKind::AlreadyExists => return Ok(Written::Changed),
            done => done.map_err(|e| e.error)?,
        };
    } else {
        file.persist(&path).map_err(|e| e.error)?;
    }
    #[cfg(unix)]
    File::open(folder)?.sync_all()?;
    Ok(Written::Done(stamp))
}

/// Copies a file to its last good copy, as whole as the file itself. Nothing is done where it holds these bytes already:
/// saving twice would lose the older of the two.
fn keep_copy(path: &Path, folder: &Path, new: &[u8]) -> io::Result<()> {
    let meta = match fs::metadata(path) {
        Ok(meta) => meta,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(e) => return Err(e),
    };
    if meta.len() == new.len() as u64 && fs::read(path)? == new {
        return Ok(());
    }
    let mut copy = temporary(folder, Some(&meta))?;
    io::copy(&mut File::open(path)?, &mut copy)?;
    copy.as_file().sync_all()?;
    copy.persist(last_good(path)).map_err(|e| e.error)?;
    Ok(())
}

/// A new file in a folder, locked for as long as it is written, so that it is not swept; with the rights of `old`.
fn temporary(folder: &Path, old: Option<&Metadata>) -> io::Result<NamedTempFile> {
    /// Each is swept between its making and its locking at most once in a rare while.
    const TRIES: usize = 20;
    let mut builder = tempfile::Builder::new();
    builder.prefix(PREFIX).suffix(SUFFIX);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // The umask applies; the crate's own default of 0600 would take a shared file from others.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    for _ in 0..TRIES {
        let file = builder.tempfile_in(folder)?;
        // Where a file system knows no locks, nothing is swept either.
        let _ = file.as_file().lock();
        if fs::symlink_metadata(file.path()).is_ok() {
            if let Some(meta) = old {
                // What its owner keeps from others stays so.
                file.as_file().set_permissions(meta.permissions())?;
            }
            return Ok(file);
        }
    }
    Err(io::Error::other("its temporary file was taken away"))
}

/// Takes away temporary files whose writer has died; one that is still written is locked.
pub fn sweep(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let Some(name) = name.to_str() else { continue };
        if !(name.starts_with(PREFIX) && name.ends_with(SUFFIX)) {
            continue;
        }
        if let Ok(file) = File::open(entry.path())
            && file.try_lock().is_ok()
        {
            // It may be swept by another one at the same time.
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Locks the file that stands under a name, if there is one and it can be locked.
fn hold(path: &Path) -> Option<File> {
    /// So many others cannot have written in between.
    const TRIES: usize = 100;
    for _ in 0..TRIES {
        let file = File::open(path).ok()?;
        file.lock().ok()?;
        let (held, there) = (file.metadata().ok()?, fs::metadata(path).ok()?);
        // Whoever held it before may have put another one in its place.
        if stamp_of(&held) == stamp_of(&there) {
            return Some(file);
        }
    }
    None
}

/// The stamp of a file; `None` where the system tells no time of it.
pub fn stamp_of(meta: &Metadata) -> Option<Stamp> {
    /// An odd number without pattern (2^64 over the golden ratio), so that what is added up does not cancel out.
    const MIX: u64 = 0x9E37_79B9_7F4A_7C15;
    let changed = meta.modified().ok()?.duration_since(std::time::UNIX_EPOCH).ok()?;
    let mut stamp = (changed.as_nanos() as u64).wrapping_mul(MIX) ^ meta.len().rotate_left(32);
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        stamp = stamp.wrapping_mul(MIX) ^ meta.ino();
    }
    Some(stamp)
}

/// The place that a name leads to, through links, and what stands there.
pub(crate) fn stands_at(path: &Path) -> io::Result<(PathBuf, Option<Metadata>)> {
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
pub fn last_good(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".last-good");
    path.with_file_name(name)
}
