//! Lessons as files: read with their line where one is wrong, written whole.

use std::fs;
use std::path::{Path, PathBuf};

use super::files;
use super::folders::Folders;
use super::out::{Kind, Out};
use potset_base::Note;
use potset_doc::{Lesson, format};

/// A lesson as a file.
pub const LESSON: Kind = Kind { name: "a lesson", holds: is_lesson };

fn is_lesson(head: &[u8]) -> bool {
    format::begins_as::<Lesson>(head)
}

/// Reads a lesson.
///
/// # Errors
/// A note with file, line, field and mend.
pub fn read(path: &Path) -> Result<Lesson, Note> {
    let bytes = files::bytes(path)?;
    format::read_lesson(&bytes).map_err(|note| files::named(path, note))
}

/// Writes a lesson to share it.
///
/// # Errors
/// A note if it cannot be written there.
pub fn write(path: &Path, lesson: &Lesson) -> Result<(), Note> {
    Out::at(path, LESSON, Vec::new())?.write(format::write(lesson)?.as_bytes())
}

/// The maker's own lessons: a folder with a file each.
pub struct Lessons(PathBuf);

impl Lessons {
    /// Those of this user.
    pub fn of(folders: &Folders) -> Self {
        Self(folders.own.join("lessons"))
    }

    /// All of them by file name, and what is wrong with those that cannot be read.
    pub fn all(&self) -> (Vec<(String, Lesson)>, Vec<Note>) {
        let entries = fs::read_dir(&self.0).into_iter().flatten().flatten();
        let mut names: Vec<String> =
            entries.filter_map(|entry| entry.file_name().into_string().ok()).collect();
        names.retain(|name| name.ends_with(".ron") && !name.starts_with('.'));
        names.sort();
        let (mut all, mut notes) = (Vec::new(), Vec::new());
        for name in names {
            match read(&self.0.join(&name)) {
                Ok(lesson) => all.push((name, lesson)),
                Err(note) => notes.push(note),
            }
        }
        (all, notes)
    }

    /// Keeps one under the name of its file.
    ///
    /// # Errors
    /// As [`files::write`].
    pub fn keep(&self, file: &str, text: &str) -> Result<(), Note> {
        files::write(&self.0.join(file), text)
    }

    /// Removes one.
    ///
    /// # Errors
    /// A note if the file cannot be removed.
    pub fn drop(&self, file: &str) -> Result<(), Note> {
        let path = self.0.join(file);
        fs::remove_file(&path).map_err(|e| files::trouble(&path, "removed", &e))
    }
}
