//! The batch book: a folder that a person can see, one file a batch.
//!
//! It lies beside the house recipes, or in the program's own folder where none was chosen. A file is never written over by
//! what does not know it: a name that is taken gets a number, a change is made to the file as it is now, and what is thrown
//! away is moved into the hidden folder, as recipes are.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use super::files::{self, Over, Stamp, Written};
use super::folders::Folders;
use super::library::{Copied, Library, Thrown, read_known as known_text};
use potset_base::Note;
use potset_doc::batch::check;
use potset_doc::batch::known::{BatchSummary, KnownBatch, read_known, write_known};
use potset_doc::batch::rows::BatchRows;
use potset_doc::{Batch, Settings, format};

/// Name of the folder.
const FOLDER: &str = "Batches";
/// Longest name of a pot in the name of its file, characters.
const LONGEST_NAME: usize = 60;
/// So many others cannot have written in between.
const TRIES: usize = 200;

/// The book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Book {
    /// Names, bin and copies go as with recipes.
    files: Library,
    /// The list of what is known of the files.
    known: Option<PathBuf>,
}

/// The batches of a book.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Listed {
    /// The newest first.
    pub all: Vec<KnownBatch>,
    /// Files that cannot be read, and why.
    pub bad: Vec<Note>,
}

impl Book {
    /// The book beside the house recipes; in the program's own folder where there are none.
    pub fn of(settings: &Settings, folders: &Folders) -> Self {
        let place = settings.recipes.as_ref().map_or_else(|| folders.state.clone(), PathBuf::from);
        Self { files: Library::at(place.join(FOLDER)), known: Some(folders.state.join("known-batches.txt")) }
    }

    /// The book in a folder, without a list of what is known.
    pub const fn at(folder: PathBuf) -> Self {
        Self { files: Library::at(folder), known: None }
    }

    pub fn folder(&self) -> &Path {
        self.files.folder()
    }

    /// The path of a batch.
    pub fn path(&self, file: &str) -> PathBuf {
        self.files.path(file)
    }

    /// The file name of a batch, if a path is one of this book.
    pub fn file_of(&self, path: &Path) -> Option<String> {
        self.files.file_of(path)
    }

    /// Files of batches with their stamps; none where there is no folder yet.
    ///
    /// # Errors
    /// A note if the folder cannot be read.
    pub fn files(&self) -> Result<Vec<(String, Stamp)>, Note> {
        if files::is_there(self.folder()) { self.files.files() } else { Ok(Vec::new()) }
    }

    /// All batches. Only what was written since the last time is read.
    ///
    /// # Errors
    /// A note if the folder cannot be read.
    pub fn list(&self) -> Result<Listed, Note> {
        self.list_while(&mut || true).map(Option::unwrap_or_default)
    }

    /// The same, given up as soon as `go_on` says no between two files that are read: nothing comes of it then, but what was
    /// read is known the next time.
    ///
    /// # Errors
    /// As [`Book::list`].
    pub fn list_while(&self, go_on: &mut dyn FnMut() -> bool) -> Result<Option<Listed>, Note> {
        let text = self.known.as_deref().map(known_text).unwrap_or_default();
        let known = read_known(&text);
        let mut before: BTreeMap<String, KnownBatch> =
            known.into_iter().map(|known| (known.file.clone(), known)).collect();
        let count = before.len();
        let (mut listed, mut read, mut whole) = (Listed::default(), 0, true);
        for (file, stamp) in self.files()? {
            if let Some(known) = before.remove(&file).filter(|known| known.stamp == stamp) {
                listed.all.push(known);
                continue;
            }
            whole &= go_on();
            if !whole {
                continue;
            }
            read += 1;
            match self.read(&file) {
                Ok(batch) => {
                    let summary = BatchSummary::of(&batch);
                    listed.all.push(KnownBatch { file, stamp, summary });
                }
                Err(note) => listed.bad.push(note),
            }
        }
        if let Some(path) = self.known.as_ref().filter(|_| read > 0 || listed.all.len() != count) {
            // It can be made anew.
            let _ = files::write_bytes(path, write_known(&listed.all).as_bytes());
        }
        if !whole {
            return Ok(None);
        }
        listed.all.sort_by(|a, b| {
            let when =
                |known: &KnownBatch| (!known.summary.culture_in.is_empty(), known.summary.culture_in.clone());
            // What has not begun stands first, then the newest.
            when(a)
                .0
                .cmp(&when(b).0)
                .then_with(|| when(b).1.cmp(&when(a).1))
                .then_with(|| a.file.cmp(&b.file))
        });
        Ok(Some(listed))
    }

    /// Pots under way, with their files.
    ///
    /// # Errors
    /// As [`Book::list`].
    pub fn running(&self) -> Result<Vec<(String, Batch)>, Note> {
        let all = self.list()?.all.into_iter().filter(|known| !known.summary.ended);
        Ok(all.filter_map(|known| Some((known.file.clone(), self.read(&known.file).ok()?))).collect())
    }

    /// Reads a batch.
    ///
    /// # Errors
    /// A note with file, line, field and mend.
    pub fn read(&self, file: &str) -> Result<Batch, Note> {
        read(&self.path(file))
    }

    /// Begins a batch in a file of its own; the file.
    ///
    /// - `today` — "2026-11-30", for the name of a pot whose culture is not in yet.
    ///
    /// # Errors
    /// A note if the batch is at fault or cannot be written.
    pub fn begin(&self, batch: &Batch, today: &str) -> Result<String, Note> {
        let wanted = file_name(batch, today);
        self.files.add_as(&wanted, &text(batch)?)
    }

    /// Changes a batch in its file, as others left it; the batch then.
    ///
    /// # Errors
    /// As [`change`].
    pub fn change(&self, file: &str, how: impl Fn(&mut Batch)) -> Result<Batch, Note> {
        change(&self.path(file), how)
    }

    /// Puts readings of a table into the batches that they are of, and none twice; how many batches were found.
    ///
    /// # Errors
    /// As [`change`]; and for rows of a batch that is not in the book.
    pub fn merge(&self, rows: &[BatchRows]) -> Result<usize, Note> {
        let listed = self.list()?.all;
        for rows in rows {
            let found = listed.iter().find(|k| rows.are_of(&k.summary.name, &k.summary.culture_in));
            let found = found.ok_or_else(|| {
                let title = format!("There is no batch “{}” of {}", rows.name, rows.culture_in);
                Note::error("table", title, "Begin it from its design first, with this name and time")
            })?;
            self.change(&found.file, |batch| rows.missing_in(batch).apply(batch))?;
        }
        Ok(rows.len())
    }

    /// Moves a batch to the bin; its place there.
    ///
    /// # Errors
    /// A note; the batch is where it was then.
    pub fn throw_away(&self, file: &str) -> Result<u32, Note> {
        self.files.throw_away(file)
    }

    /// What is in the bin, the last first.
    pub fn bin(&self) -> Vec<Thrown> {
        self.files.bin()
    }

    /// Puts a batch back, under another name where its own is taken; the name.
    ///
    /// # Errors
    /// A note; it stays in the bin then.
    pub fn put_back(&self, number: u32) -> Result<String, Note> {
        self.files.put_back(number)
    }

    /// Deletes a batch of the bin for good.
    ///
    /// # Errors
    /// A note that names it.
    pub fn delete(&self, number: u32) -> Result<(), Note> {
        self.files.delete(number)
    }

    /// Copies a batch, or all batches of a folder, into the book.
    ///
    /// # Errors
    /// A note if the folder cannot be read.
    pub fn import(&self, from: &Path) -> Result<Copied, Note> {
        self.files.copy_in(from, is_batch)
    }

    /// Copies all batches into another folder.
    ///
    /// # Errors
    /// A note if a folder cannot be read.
    pub fn export(&self, to: &Path) -> Result<Copied, Note> {
        if !files::is_there(self.folder()) {
            return Ok(Copied::default());
        }
        Library::at(to.to_path_buf()).copy_in(self.folder(), is_batch)
    }

    /// Moves batches of another book here: those of the time before there was a folder of recipes.
    pub fn take_over(&self, other: &Self) {
        if other.folder() == self.folder() {
            return;
        }
        for (file, stamp) in other.files().unwrap_or_default() {
            let from = other.path(&file);
            let copied = self.files.copy_in(&from, is_batch);
            // Only what is here whole, and was not written to meanwhile, goes there.
            if copied.is_ok_and(|copied| copied.left.is_empty()) && files::stamp(&from) == Some(stamp) {
                let _ = fs::remove_file(&from);
            }
        }
    }
}

/// Reads a batch.
///
/// # Errors
/// A note with file, line, field and mend.
pub fn read(path: &Path) -> Result<Batch, Note> {
    format::read_batch(&files::bytes(path)?).map_err(|note| files::named(path, note))
}

/// Changes a batch in its file: it is read, changed and written, and that once more where another window or program wrote it in
/// between; the batch then.
///
/// # Errors
/// A note if it cannot be read or written, or if it would be at fault then. What stands there is untouched.
pub fn change(path: &Path, how: impl Fn(&mut Batch)) -> Result<Batch, Note> {
    for _ in 0..TRIES {
        let stamp = files::stamp(path);
        let old = read(path)?;
        let mut new = old.clone();
        how(&mut new);
        if new == old {
            return Ok(new);
        }
        let text = text(&new).map_err(|note| files::named(path, note))?;
        if let Written::Done(_) = files::write_over(path, &text, Over::Same(stamp))? {
            return Ok(new);
        }
    }
    let title = "It was not saved: others write there all the time";
    Err(Note::error(files::shown(path), title, "Try once more"))
}

/// The text of a batch that is in order.
fn text(batch: &Batch) -> Result<String, Note> {
    match check::faults(batch).into_iter().next() {
        Some(fault) => Err(fault),
        None => format::write(batch),
    }
}

fn is_batch(bytes: &[u8]) -> Result<(), Note> {
    format::read_batch(bytes).map(drop)
}

/// The name of a file for a batch: its day and its name, without signs that some system does not take.
fn file_name(batch: &Batch, today: &str) -> String {
    let day = batch.start().map_or_else(|| today.to_owned(), |start| start.day());
    let plain = |c: char| if c.is_alphanumeric() || matches!(c, ' ' | '-' | '_' | '\'') { c } else { ' ' };
    let name: String = batch.name.chars().map(plain).collect();
    let words: Vec<&str> = name.split_whitespace().collect();
    let name: String = words.join(" ").chars().take(LONGEST_NAME).collect();
    format!("{day} {}", name.trim()).trim().to_owned()
}

#[cfg(test)]
mod tests;
