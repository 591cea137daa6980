//! The house recipes: a folder that a person can see, one file a recipe.
//!
//! What belongs to a recipe and is no recipe (versions, marks, what was thrown away) lies in the folder `.potset` beside them,
//! so that it goes along when the folder is copied or kept in step with another machine's. Nothing is ever written over: a
//! name that is taken gets a number, and what is thrown away is moved.

mod bin;
mod change;
mod versions;

use std::fs;
use std::path::{Path, PathBuf};

pub use bin::Thrown;
pub use change::{Copied, file_name};
pub use versions::Version;

use super::files::{self, Stamp};
use potset_base::Note;
use potset_doc::Design;
use potset_doc::format::{self, MOST_BYTES};
use potset_doc::recipe::RecipeRecord;

/// Ending of a recipe's file.
const ENDING: &str = ".ron";
/// The folder for what is no recipe.
const ASIDE: &str = ".potset";

/// The folder of the house recipes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Library {
    folder: PathBuf,
}

impl Library {
    /// The recipes of a folder, be it there or not.
    pub const fn at(folder: PathBuf) -> Self {
        Self { folder }
    }

    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Makes the folder.
    ///
    /// # Errors
    /// A note that names the folder.
    pub fn make(&self) -> Result<(), Note> {
        fs::create_dir_all(&self.folder).map_err(|e| files::trouble(&self.folder, "made", &e))
    }

    /// The path of a recipe.
    pub fn path(&self, file: &str) -> PathBuf {
        self.folder.join(file)
    }

    /// The file name of a recipe, if a path is one of this folder.
    pub fn file_of(&self, path: &Path) -> Option<String> {
        let file = path.file_name()?.to_str()?;
        (path.parent() == Some(&*self.folder) && is_recipe(file)).then(|| file.to_owned())
    }

    /// Files of recipes with their stamps, by name.
    ///
    /// # Errors
    /// A note if the folder cannot be read.
    pub fn files(&self) -> Result<Vec<(String, Stamp)>, Note> {
        let entries = fs::read_dir(&self.folder).map_err(|e| files::trouble(&self.folder, "read", &e))?;
        let mut all: Vec<(String, Stamp)> = entries
            .flatten()
            .filter_map(|entry| {
                let name = entry.file_name().to_str().filter(|name| is_recipe(name))?.to_owned();
                Some((name, files::stamp(&entry.path())?))
            })
            .collect();
        all.sort_by_cached_key(|(name, _)| (name.to_lowercase(), name.clone()));
        Ok(all)
    }

    /// Reads a recipe.
    ///
    /// # Errors
    /// A note with file, line, field and mend.
    pub fn read(&self, file: &str) -> Result<Design, Note> {
        files::design(&self.path(file))
    }

    /// Takes away temporary files of writers that died, those of versions too.
    pub fn sweep(&self) {
        files::sweep(&self.folder);
        for what in ["marks", "bin", "versions"] {
            let folder = self.aside(what);
            files::sweep(&folder);
            let inside = fs::read_dir(folder).into_iter().flatten().flatten();
            inside.filter(|entry| entry.path().is_dir()).for_each(|entry| files::sweep(&entry.path()));
        }
    }

    fn aside(&self, what: &str) -> PathBuf {
        self.folder.join(ASIDE).join(what)
    }

    fn record_path(&self, file: &str) -> PathBuf {
        self.aside("marks").join(file)
    }

    /// The maker's marks of a recipe; none where there are none, or where they cannot be read.
    pub fn record(&self, file: &str) -> RecipeRecord {
        let read = |path: PathBuf| files::bytes(&path).ok().and_then(|bytes| format::read(&bytes).ok());
        read(self.record_path(file)).unwrap_or_default()
    }

    /// All marks, by file.
    pub fn records(&self) -> Vec<(String, RecipeRecord)> {
        let entries = fs::read_dir(self.aside("marks")).into_iter().flatten().flatten();
        let names = entries.filter_map(|entry| entry.file_name().into_string().ok());
        names.filter(|name| is_recipe(name)).map(|name| (name.clone(), self.record(&name))).collect()
    }

    /// Keeps the maker's marks of a recipe.
    ///
    /// # Errors
    /// As [`files::write`].
    pub fn keep_record(&self, file: &str, record: &RecipeRecord) -> Result<(), Note> {
        files::write(&self.record_path(file), &format::write(record)?)
    }

    /// A name that is free in a folder: the one wanted, else with a number.
    fn free(folder: &Path, wanted: &str) -> String {
        let stem = wanted.strip_suffix(ENDING).unwrap_or(wanted);
        let named = |n: u32| if n == 1 { format!("{stem}{ENDING}") } else { format!("{stem}-{n}{ENDING}") };
        let taken = |name: &String| fs::symlink_metadata(folder.join(name)).is_ok();
        (1..u32::MAX).map(named).find(|name| !taken(name)).unwrap_or_else(|| named(0))
    }
}

/// Whether a file may be a recipe, by its name.
fn is_recipe(name: &str) -> bool {
    name.ends_with(ENDING) && !name.starts_with('.')
}

/// Longest list of known recipes that is read, bytes: a hundred thousand of them. A larger one is made anew.
const MOST_KNOWN: u64 = 64 * (MOST_BYTES as u64 >> 2);

/// The text of the list of known recipes; empty where there is none.
pub fn read_known(path: &Path) -> String {
    let fits = fs::metadata(path).is_ok_and(|meta| meta.is_file() && meta.len() <= MOST_KNOWN);
    if fits { fs::read_to_string(path).unwrap_or_default() } else { String::new() }
}
