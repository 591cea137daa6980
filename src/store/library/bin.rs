//! What was thrown away: moved aside with its versions and marks, until it is put back.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use super::{Library, is_recipe};
use crate::files;
use potset_base::Note;
use potset_doc::format;

/// A recipe in the bin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thrown {
    /// Its place in the bin.
    pub number: u32,
    pub file: String,
    /// The name of the design or the batch in it, if it can be read.
    pub name: Option<String>,
    /// When it was thrown away, seconds since 1970 by the world's clock.
    pub at_s: i64,
}

impl Library {
    fn place(&self, number: u32) -> PathBuf {
        self.aside("bin").join(format!("{number:04}"))
    }

    /// Moves a recipe to the bin, with its versions and marks; its place there.
    ///
    /// # Errors
    /// A note; the recipe is where it was then.
    pub fn throw_away(&self, file: &str) -> Result<u32, Note> {
        let trouble = |e: &std::io::Error| files::trouble(&self.path(file), "thrown away", e);
        fs::create_dir_all(self.aside("bin")).map_err(|e| trouble(&e))?;
        let mut number = 1;
        // The folder is made by one only, whoever else throws something away.
        while let Err(e) = fs::create_dir(self.place(number)) {
            if e.kind() != std::io::ErrorKind::AlreadyExists {
                return Err(trouble(&e));
            }
            number += 1;
        }
        let place = self.place(number);
        if let Err(e) = fs::rename(self.path(file), place.join(file)) {
            let _ = fs::remove_dir(&place);
            return Err(trouble(&e));
        }
        // The recipe is what counts: without these it would still be whole.
        let _ = fs::rename(self.versions_folder(file), place.join("versions"));
        let _ = fs::rename(self.record_path(file), place.join(".marks"));
        Ok(number)
    }

    /// What is in the bin, the last first.
    pub fn bin(&self) -> Vec<Thrown> {
        let places = fs::read_dir(self.aside("bin")).into_iter().flatten().flatten();
        let mut all: Vec<Thrown> = places
            .filter_map(|place| {
                let number = place.file_name().to_str()?.parse().ok()?;
                let files = fs::read_dir(place.path()).ok()?.flatten();
                let file =
                    files.filter_map(|f| f.file_name().into_string().ok()).find(|name| is_recipe(name))?;
                let at = place.metadata().ok()?.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
                let name = name_in(&place.path().join(&file));
                Some(Thrown { number, file, name, at_s: i64::try_from(at.as_secs()).ok()? })
            })
            .collect();
        all.sort_by_key(|thrown| (std::cmp::Reverse(thrown.at_s), std::cmp::Reverse(thrown.number)));
        all
    }

    /// Puts a recipe back, under another name where its own is taken; the name.
    ///
    /// # Errors
    /// A note; it stays in the bin then.
    pub fn put_back(&self, number: u32) -> Result<String, Note> {
        let place = self.place(number);
        let thrown = self.bin().into_iter().find(|thrown| thrown.number == number);
        let Some(thrown) = thrown else {
            return Err(Note::error("bin", "It is not in the bin any more", "Look for it among the recipes"));
        };
        let file = Self::free(&self.folder, &thrown.file);
        fs::rename(place.join(&thrown.file), self.path(&file))
            .map_err(|e| files::trouble(&place, "put back", &e))?;
        let versions = self.versions_folder(&file);
        if let Some(parent) = versions.parent() {
            let _ = fs::create_dir_all(parent);
        }
        let _ = fs::rename(place.join("versions"), versions);
        let _ = fs::rename(place.join(".marks"), self.record_path(&file));
        let _ = fs::remove_dir(&place);
        Ok(file)
    }

    /// Deletes one recipe of the bin for good, with its versions and marks.
    ///
    /// # Errors
    /// A note that names it.
    pub fn delete(&self, number: u32) -> Result<(), Note> {
        let place = self.place(number);
        fs::remove_dir_all(&place).map_err(|e| files::trouble(&place, "deleted", &e))
    }
}

/// The name of the design or of the batch in a file.
fn name_in(path: &Path) -> Option<String> {
    let bytes = files::bytes(path).ok()?;
    let design = format::read_design(&bytes).map(|design| design.name);
    design.or_else(|_| format::read_batch(&bytes).map(|batch| batch.name)).ok()
}
