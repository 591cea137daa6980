//! Changes of the folder: recipes changed in place, renamed, duplicated, copied in and out.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::{ENDING, Library, is_recipe};
use crate::files::{self, Over, Written};
use potset_base::Note;
use potset_doc::Design;
use potset_doc::format;

/// What came of copying recipes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Copied {
    pub copied: usize,
    /// They are there already, the same to the byte.
    pub there: usize,
    /// What is no recipe, and why.
    pub left: Vec<Note>,
}

/// A file name for a design: its name in lower case, what is not a letter or figure as a dash.
pub fn file_name(name: &str) -> String {
    let mut out: String =
        name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).take(80).collect();
    while out.contains("--") {
        out = out.replace("--", "-");
    }
    let out = out.trim_matches('-');
    if out.is_empty() { format!("design{ENDING}") } else { format!("{out}{ENDING}") }
}

impl Library {
    /// Changes a recipe in its file, and keeps both versions.
    ///
    /// # Errors
    /// A note if it cannot be read or written, or if another program wrote it meanwhile; nothing is changed then.
    pub fn change(&self, file: &str, change: impl FnOnce(&mut Design)) -> Result<(), Note> {
        let path = self.path(file);
        let stamp = files::stamp(&path);
        let mut design = files::design(&path)?;
        self.keep_version(file)?;
        change(&mut design);
        self.write(file, &format::write(&design)?, Over::Same(stamp))
    }

    /// Puts a version back in the place of what the file holds, and keeps both.
    ///
    /// # Errors
    /// As [`Library::change`].
    pub fn restore(&self, file: &str, number: u32) -> Result<(), Note> {
        let version = self.versions(file).into_iter().find(|version| version.number == number);
        let Some(version) = version else {
            return Err(Note::error(file, "This version is gone", "Choose another version"));
        };
        let stamp = files::stamp(&self.path(file));
        self.keep_version(file)?;
        // Tags are the maker's marks of the recipe, and of no version.
        let tags = self.read(file).map(|now| now.tags);
        let mut design = version.read()?;
        if let Ok(tags) = tags {
            design.tags = tags;
        }
        let text = format::write(&design)?;
        self.write(file, &text, Over::Same(stamp))
    }

    fn write(&self, file: &str, text: &str, over: Over) -> Result<(), Note> {
        match files::write_over(&self.path(file), text, over)? {
            Written::Done(_) => self.keep_version(file),
            Written::Changed => {
                let title = "Another window or program changed it just now";
                Err(Note::error(file, title, "Look at it again, then make the change once more"))
            }
        }
    }

    /// A copy of a recipe under a name of its own; its file.
    ///
    /// # Errors
    /// As [`Library::change`].
    pub fn duplicate(&self, file: &str) -> Result<String, Note> {
        let mut design = self.read(file)?;
        design.name = format!("{} (copy)", design.name);
        self.add(&design)
    }

    /// A new recipe; its file.
    ///
    /// # Errors
    /// As [`Library::change`].
    pub fn add(&self, design: &Design) -> Result<String, Note> {
        let file = self.add_as(&file_name(&design.name), &format::write(design)?)?;
        self.keep_version(&file).map(|()| file)
    }

    /// A text in a new file of a name, with a number where that is taken; the file.
    ///
    /// # Errors
    /// As [`files::write`].
    pub fn add_as(&self, wanted: &str, text: &str) -> Result<String, Note> {
        loop {
            let file = Self::free(&self.folder, wanted);
            // Where the name was taken in between: the next one.
            if let Written::Done(_) = files::write_over(&self.path(&file), text, Over::Same(None))? {
                return Ok(file);
            }
        }
    }

    /// Renames a recipe and its file; the new file.
    ///
    /// # Errors
    /// As [`Library::change`].
    pub fn rename(&self, file: &str, name: &str) -> Result<String, Note> {
        self.change(file, |design| name.clone_into(&mut design.name))?;
        let wanted = file_name(name);
        if wanted == file {
            return Ok(wanted);
        }
        let new = Self::free(&self.folder, &wanted);
        rename_new(&self.path(file), &self.path(&new))
            .map_err(|e| files::trouble(&self.path(file), "renamed", &e))?;
        // Without them the recipe is still whole.
        let _ = fs::rename(self.versions_folder(file), self.versions_folder(&new));
        let _ = fs::rename(self.record_path(file), self.record_path(&new));
        Ok(new)
    }

    /// Copies all recipes of another folder into this one.
    ///
    /// # Errors
    /// A note if the other folder cannot be read.
    pub fn import(&self, from: &Path) -> Result<Copied, Note> {
        self.copy_in(from, is_design)
    }

    /// Copies all recipes of this folder into another one.
    ///
    /// # Errors
    /// A note if a folder cannot be read.
    pub fn export(&self, to: &Path) -> Result<Copied, Note> {
        Self::at(to.to_path_buf()).copy_in(&self.folder, is_design)
    }

    /// Copies a file, or the files of a folder, into this one, if they are what is asked for.
    ///
    /// # Errors
    /// A note if the other folder cannot be read.
    pub(crate) fn copy_in(&self, from: &Path, is_one: Check) -> Result<Copied, Note> {
        let mut done = Copied::default();
        let paths = if from.is_file() { vec![from.to_path_buf()] } else { recipes_in(from)? };
        for path in paths {
            match self.copy_one(&path, is_one) {
                Ok(true) => done.copied += 1,
                Ok(false) => done.there += 1,
                Err(note) => done.left.push(note),
            }
        }
        Ok(done)
    }

    /// Copies one; false if the same is there already.
    fn copy_one(&self, path: &Path, is_one: Check) -> Result<bool, Note> {
        let bytes = files::bytes(path)?;
        is_one(&bytes).map_err(|note| files::named(path, note))?;
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        if files::bytes(&self.path(name)).is_ok_and(|there| there == bytes) {
            return Ok(false);
        }
        loop {
            let free = self.path(&Self::free(&self.folder, name));
            if let Written::Done(_) = files::write_bytes_over(&free, &bytes, Over::Same(None))? {
                return Ok(true);
            }
        }
    }
}

/// Says why bytes are not what is asked for, if they are not.
type Check = fn(&[u8]) -> Result<(), Note>;

fn is_design(bytes: &[u8]) -> Result<(), Note> {
    format::read_design(bytes).map(drop)
}

fn recipes_in(folder: &Path) -> Result<Vec<PathBuf>, Note> {
    let entries = fs::read_dir(folder).map_err(|e| files::trouble(folder, "read", &e))?;
    let mut names: Vec<String> = entries
        .flatten()
        .filter_map(|entry| entry.file_name().into_string().ok())
        .filter(|name| is_recipe(name))
        .collect();
    names.sort();
    Ok(names.into_iter().map(|name| folder.join(name)).collect())
}

/// Renames a file to a name that nothing has, and never over another file.
fn rename_new(from: &Path, to: &Path) -> io::Result<()> {
    match fs::hard_link(from, to) {
        Ok(()) => fs::remove_file(from),
        Err(e) if e.kind() == io::ErrorKind::AlreadyExists => Err(e),
        // Some file systems know no second name of a file.
        Err(_) if fs::symlink_metadata(to).is_err() => fs::rename(from, to),
        Err(e) => Err(e),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_make_file_names() {
        assert_eq!(file_name("Thursday coconut pot"), "thursday-coconut-pot.ron");
        assert_eq!(file_name("  ./.. "), "design.ron");
    }
}
