//! Versions of a recipe: what its file held at each save, numbered.

use std::fs;
use std::path::PathBuf;
use std::time::UNIX_EPOCH;

use super::{ENDING, Library, is_recipe};
use crate::files::{self, Over, Written};
use potset_base::Note;
use potset_doc::Design;

/// One version of a recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Version {
    /// From 1.
    pub number: u32,
    /// When it was kept, seconds since 1970 by the world's clock.
    pub at_s: i64,
    path: PathBuf,
}

impl Version {
    /// Reads it.
    ///
    /// # Errors
    /// A note with file, line, field and mend.
    pub fn read(&self) -> Result<Design, Note> {
        files::design(&self.path)
    }

    /// Its bytes.
    ///
    /// # Errors
    /// As [`files::bytes`].
    pub fn bytes(&self) -> Result<Vec<u8>, Note> {
        files::bytes(&self.path)
    }
}

impl Library {
    pub(super) fn versions_folder(&self, file: &str) -> PathBuf {
        self.aside("versions").join(file.strip_suffix(ENDING).unwrap_or(file))
    }

    /// The versions of a recipe, the oldest first.
    pub fn versions(&self, file: &str) -> Vec<Version> {
        let entries = fs::read_dir(self.versions_folder(file)).into_iter().flatten().flatten();
        let mut all: Vec<Version> = entries
            .filter_map(|entry| {
                let name = entry.file_name().into_string().ok().filter(|name| is_recipe(name))?;
                let at = entry.metadata().ok()?.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
                Some(Version {
                    number: name.strip_suffix(ENDING)?.parse().ok()?,
                    at_s: i64::try_from(at.as_secs()).ok()?,
                    path: entry.path(),
                })
            })
            .collect();
        all.sort_by_key(|version| version.number);
        all
    }

    /// Keeps what the file of a recipe holds as its newest version, unless that is the same already. Nothing is done where
    /// there is no file.
    ///
    /// # Errors
    /// A note if it could not be kept.
    pub fn keep_version(&self, file: &str) -> Result<(), Note> {
        /// So many others cannot keep a version at the same time.
        const TRIES: u32 = 50;
        let path = self.path(file);
        if !files::is_there(&path) {
            return Ok(());
        }
        let bytes = files::bytes(&path)?;
        for _ in 0..TRIES {
            let last = self.versions(file).pop();
            if last.as_ref().is_some_and(|last| last.bytes().is_ok_and(|kept| kept == bytes)) {
                return Ok(());
            }
            let number = last.map_or(1, |last| last.number + 1);
            let to = self.versions_folder(file).join(format!("{number:04}{ENDING}"));
            match files::write_bytes_over(&to, &bytes, Over::Same(None))? {
                Written::Done(_) => return Ok(()),
                Written::Changed => {}
            }
        }
        Err(Note::error(file, "Its version was not kept: others write there too", "Save it once more"))
    }
}
