//! What is remembered between sessions: settings, the kitchen, what pots taught, the call log, the maker's own pantry.
//!
//! Reading moves nothing. The window, which will write, first sets aside what is broken ([`mend`]); a file that cannot be
//! read or is of a newer version is never written over.

use std::fs;
use std::path::{Path, PathBuf};

use super::files::{self, Over, Written, last_good};
use super::folders::Folders;
use super::library::Library;
use potset_base::Note;
use potset_doc::calls::CallLog;
use potset_doc::format::{self, Saved};
use potset_doc::learnt::LearntBook;
use potset_doc::own::Merged;
use potset_doc::{Kitchen, OwnPantry, Settings};

/// So many other windows cannot have written in between.
const TRIES: usize = 50;

/// What stands under a name.
enum Found<T> {
    Nothing,
    Whole(Box<T>),
    /// It is one of ours, and its content cannot be read.
    Broken(Note),
    /// It cannot be read at all, or belongs to another or a newer program.
    Barred(Note),
}

fn look<T: Saved>(path: &Path) -> Found<T> {
    if matches!(path.try_exists(), Ok(false)) {
        return Found::Nothing;
    }
    let bytes = match files::bytes(path) {
        Ok(bytes) => bytes,
        Err(note) => return Found::Barred(note),
    };
    match format::read::<T>(&bytes) {
        Ok(value) => Found::Whole(Box::new(value)),
        Err(note) if format::foreign::<T>(&bytes) => Found::Barred(files::named(path, note)),
        Err(note) => Found::Broken(files::named(path, note)),
    }
}

/// Reads something that may not be there yet. Of a broken file the last good copy is read.
fn read<T: Saved + Default>(path: &Path) -> (T, Option<Note>) {
    match look::<T>(path) {
        Found::Nothing => (T::default(), None),
        Found::Whole(value) => (*value, None),
        Found::Barred(note) => (T::default(), Some(note)),
        Found::Broken(note) => match look::<T>(&last_good(path)) {
            Found::Whole(value) => {
                let mend = format!("Its last good copy is used: {}", files::shown(&last_good(path)));
                (*value, Some(Note { mend, ..note }))
            }
            _ => (T::default(), Some(note)),
        },
    }
}

/// Sets a broken file aside under a name of its own, and puts its last good copy in its place, if that is whole.
fn set_aside<T: Saved>(path: &Path) -> Option<Note> {
    let Found::Broken(note) = look::<T>(path) else { return None };
    let aside = free_name(path);
    if let Err(e) = fs::rename(path, &aside) {
        return Some(Note { sentence: format!("It could not be set aside: {e}"), ..note });
    }
    let mut mend = format!("It was set aside as {}", files::shown(&aside));
    if let Found::Whole(value) = look::<T>(&last_good(path))
        && format::write(&*value).and_then(|text| files::write(path, &text)).is_ok()
    {
        mend.push_str("; its last good copy is used now");
    }
    Some(Note { mend, ..note })
}

/// The first of `NAME.bad-1`, `NAME.bad-2` and so on that is free.
fn free_name(path: &Path) -> PathBuf {
    let named = |n: u32| {
        let mut name = path.as_os_str().to_owned();
        name.push(format!(".bad-{n}"));
        PathBuf::from(name)
    };
    (1..u32::MAX).map(named).find(|aside| fs::symlink_metadata(aside).is_err()).unwrap_or_else(|| named(0))
}

/// Before a window opens: broken files are set aside, and temporary files of writers that died are taken away.
pub fn mend(folders: &Folders) -> Vec<Note> {
    for folder in [&folders.settings, &folders.own] {
        files::sweep(folder);
    }
    let settings = set_aside::<Settings>(&settings_file(folders));
    if let Some(recipes) = read::<Settings>(&settings_file(folders)).0.recipes {
        Library::at(recipes.into()).sweep();
    }
    let kitchen = set_aside::<Kitchen>(&kitchen_file(folders));
    let learnt = set_aside::<LearntBook>(&learnt_file(folders));
    let calls = set_aside::<CallLog>(&calls_file(folders));
    let own = set_aside::<OwnPantry>(&own_file(folders));
    settings.into_iter().chain(kitchen).chain(learnt).chain(calls).chain(own).collect()
}

/// Reads settings and kitchen; bad files are told of.
pub fn load(folders: &Folders) -> (Settings, Kitchen, Vec<Note>) {
    let (settings, bad_settings) = read::<Settings>(&settings_file(folders));
    let (kitchen, bad_kitchen) = read::<Kitchen>(&kitchen_file(folders));
    (settings, kitchen, bad_settings.into_iter().chain(bad_kitchen).collect())
}

/// Reads what pots taught in this kitchen; a bad file is told of.
pub fn learnt(folders: &Folders) -> (LearntBook, Option<Note>) {
    read::<LearntBook>(&learnt_file(folders))
}

/// What became of keeping what pots taught.
#[derive(Clone, Debug, PartialEq)]
pub enum LearntKept {
    Done,
    /// Another window kept something since; it was not written over.
    Others(Box<LearntBook>),
}

/// Keeps what pots taught, unless something else stands there than `known`.
///
/// # Errors
/// A note if it could not be written; what stands there is untouched then.
pub fn keep_learnt(folders: &Folders, known: &LearntBook, new: &LearntBook) -> Result<LearntKept, Note> {
    let path = learnt_file(folders);
    for _ in 0..TRIES {
        let stamp = files::stamp(&path);
        let there = match look::<LearntBook>(&path) {
            Found::Whole(there) => *there,
            // Gone, or nothing that could be lost: the last good copy was read in its place.
            Found::Nothing | Found::Broken(_) => known.clone(),
            Found::Barred(note) => return Err(untouched(note, "What pots taught was not kept")),
        };
        if there != *known {
            return Ok(LearntKept::Others(Box::new(there)));
        }
        if let Written::Done(_) = files::write_over(&path, &format::write(new)?, Over::Same(stamp))? {
            return Ok(LearntKept::Done);
        }
    }
    Err(Note::error(files::shown(&path), "Other windows keep changing this file", "Try again"))
}

/// Reads the call log; a bad file is told of.
pub fn calls(folders: &Folders) -> (CallLog, Option<Note>) {
    read::<CallLog>(&calls_file(folders))
}

/// Saves the call log, with the calls that another window wrote to it since `base` was read or written; what stands there now.
///
/// # Errors
/// A note if it could not be written; what stands there is untouched then.
pub fn save_calls(folders: &Folders, base: &CallLog, mine: &CallLog) -> Result<CallLog, Note> {
    let merge = |theirs: &CallLog| mine.merged(base, theirs);
    merge_over(&calls_file(folders), base, "The call was not saved", merge, |merged| merged)
}

/// Reads the maker's own pantry; a bad file is told of.
pub fn own(folders: &Folders) -> (OwnPantry, Option<Note>) {
    let (own, bad) = read::<OwnPantry>(&own_file(folders));
    match own.fault() {
        None => (own, bad),
        // It is kept as it is: a forecast would not be true with it, but nothing is lost.
        Some(fault) => (own, bad.or(Some(fault))),
    }
}

/// The stamp of the file of the maker's own pantry.
pub fn own_stamp(folders: &Folders) -> Option<files::Stamp> {
    files::stamp(&own_file(folders))
}

/// Saves the maker's own pantry, with what another window wrote to it since `base` was read or written.
///
/// # Errors
/// A note if it could not be written; what stands there is untouched then.
pub fn save_own(folders: &Folders, base: &OwnPantry, mine: &OwnPantry) -> Result<Merged, Note> {
    let merge = |theirs: &OwnPantry| mine.merged(base, theirs);
    merge_over(&own_file(folders), base, "Your pantry was not saved", merge, |merged| &merged.own)
}

/// Writes what this window holds merged with what stands in the file, however often others write meanwhile.
fn merge_over<T: Saved + Clone + PartialEq, M>(
    path: &Path,
    base: &T,
    refused: &str,
    merge: impl Fn(&T) -> M,
    whole: impl Fn(&M) -> &T,
) -> Result<M, Note> {
    for _ in 0..TRIES {
        let stamp = files::stamp(path);
        let (theirs, stamp) = match look::<T>(path) {
            Found::Whole(theirs) => (*theirs, stamp),
            // Gone: what this window holds of it is all there is.
            Found::Nothing => (base.clone(), None),
            Found::Barred(note) => return Err(untouched(note, refused)),
            Found::Broken(_) => {
                let _ = fs::rename(path, free_name(path));
                (base.clone(), None)
            }
        };
        let merged = merge(&theirs);
        if stamp.is_some() && *whole(&merged) == theirs {
            return Ok(merged);
        }
        let text = format::write(whole(&merged))?;
        if let Written::Done(_) = files::write_over(path, &text, Over::Same(stamp))? {
            return Ok(merged);
        }
    }
    Err(Note::error(files::shown(path), "Other windows keep changing this file", "Try again"))
}

/// Saves the settings.
///
/// # Errors
/// A note if they could not be written.
pub fn save_settings(folders: &Folders, settings: &Settings) -> Result<(), Note> {
    save(&settings_file(folders), settings)
}

/// Saves the kitchen.
///
/// # Errors
/// A note if it could not be written.
pub fn save_kitchen(folders: &Folders, kitchen: &Kitchen) -> Result<(), Note> {
    save(&kitchen_file(folders), kitchen)
}

fn save<T: Saved>(path: &Path, value: &T) -> Result<(), Note> {
    if let Found::Barred(note) = look::<T>(path) {
        return Err(untouched(note, "It was not saved"));
    }
    files::write(path, &format::write(value)?)
}

fn untouched(note: Note, what: &str) -> Note {
    Note { sentence: format!("{what}, and the file was left as it is"), ..note }
}

fn settings_file(folders: &Folders) -> PathBuf {
    folders.settings.join("settings.ron")
}

fn own_file(folders: &Folders) -> PathBuf {
    folders.own.join("pantry.ron")
}

fn learnt_file(folders: &Folders) -> PathBuf {
    folders.settings.join("learnt.ron")
}

fn calls_file(folders: &Folders) -> PathBuf {
    folders.own.join("calls.ron")
}

fn kitchen_file(folders: &Folders) -> PathBuf {
    folders.settings.join("kitchen.ron")
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::Learnt;
    use potset_doc::calls::Call;

    fn folders(home: &Path) -> Folders {
        let at = |name: &str| home.join(name);
        Folders { settings: at("settings"), state: at("state"), documents: at("documents"), own: at("own") }
    }

    #[test]
    fn what_another_window_kept_is_not_written_over() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        let of = |pots: u32| {
            let mut book = LearntBook::default();
            book.keep(Learnt { pots, ..Learnt::default() });
            book
        };
        assert_eq!(learnt(&folders), (LearntBook::default(), None));
        assert_eq!(keep_learnt(&folders, &LearntBook::default(), &of(1)), Ok(LearntKept::Done));
        assert_eq!(learnt(&folders), (of(1), None));
        // The other window still knows of nothing.
        let kept = keep_learnt(&folders, &LearntBook::default(), &of(2));
        assert_eq!(kept, Ok(LearntKept::Others(Box::new(of(1)))));
        assert_eq!(learnt(&folders), (of(1), None));
        assert_eq!(keep_learnt(&folders, &of(1), &of(2)), Ok(LearntKept::Done));
        fs::write(learnt_file(&folders), "(format: \"potset learnt\", version: 99, body: ())").unwrap();
        assert!(keep_learnt(&folders, &of(2), &of(3)).is_err());
    }

    #[test]
    fn two_windows_lose_no_call() {
        let home = tempfile::tempdir().unwrap();
        let folders = folders(home.path());
        let log = |days: &[&str]| {
            let call = |day: &&str| Call { day: (*day).to_owned(), ..Call::default() };
            CallLog { calls: days.iter().map(call).collect() }
        };
        let none = CallLog::default();
        assert_eq!(calls(&folders), (none.clone(), None));
        assert_eq!(save_calls(&folders, &none, &log(&["2026-12-01"])), Ok(log(&["2026-12-01"])));
        // The other window still knows of none.
        let both = log(&["2026-12-01", "2026-12-02"]);
        assert_eq!(save_calls(&folders, &none, &log(&["2026-12-02"])), Ok(both.clone()));
        assert_eq!(calls(&folders), (both, None));
        fs::write(calls_file(&folders), "(format: \"potset calls\", version: 99, body: ())").unwrap();
        assert!(save_calls(&folders, &none, &log(&["2026-12-03"])).is_err());
    }
}
