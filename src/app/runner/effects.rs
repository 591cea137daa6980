//! What the runner does on the disk: designs, settings, the maker's pantry, recovery copies, and what others did there.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::disk::Disk;
use super::{AppRunner, Hands};
use crate::book::{BookChange, BookDone};
use crate::clock;
use crate::command::{
    BatchesCommand, BesideCommand, ClassCommand, Command, FileCommand, MishapCommand, PantryCommand,
    RecipeTo, RecipesCommand, WindowCommand,
};
use crate::effect::DiskEffect;
use crate::jobs::watch::Watch;
use crate::jobs::{Key, Order};
use crate::recipes::RecipeChange;
use crate::session::Outside;
use crate::state::State;
use potset_base::Note;
use potset_base::clock::Moment;
use potset_doc::calls::CallLog;
use potset_doc::learnt::LearntBook;
use potset_doc::recipe::RecipeRecord;
use potset_store::book::Book;
use potset_store::folders::spelled_out;
use potset_store::lessons::{self, Lessons};
use potset_store::library::Library;
use potset_store::memory::LearntKept;
use potset_store::{files, memory};

/// Makes a change of the folder of the house recipes.
fn recipe(library: &Library, change: &RecipeChange) -> Result<RecipeTo, Note> {
    let nowhere = |()| RecipeTo::Nowhere;
    match change {
        RecipeChange::Rename(file, name) => library.rename(file, name).map(RecipeTo::File),
        RecipeChange::Tags(file, tags) => {
            library.change(file, |design| tags.clone_into(&mut design.tags)).map(nowhere)
        }
        RecipeChange::Stars(file, stars) => {
            let record = RecipeRecord { stars: *stars, ..library.record(file) };
            library.keep_record(file, &record).map(nowhere)
        }
        RecipeChange::Made(file, made) => {
            let record = RecipeRecord { made: made.clone(), ..library.record(file) };
            library.keep_record(file, &record).map(nowhere)
        }
        RecipeChange::Duplicate(file) => library.duplicate(file).map(RecipeTo::File),
        RecipeChange::ThrowAway(file) => library.throw_away(file).map(RecipeTo::Bin),
        RecipeChange::PutBack(number) => library.put_back(*number).map(RecipeTo::File),
        RecipeChange::Delete(number) => library.delete(*number).map(nowhere),
        RecipeChange::Restore(file, number) => library.restore(file, *number).map(nowhere),
    }
}

/// Makes a change of the batch book.
fn book(book: &Book, change: &BookChange, today: &str) -> Result<BookDone, Note> {
    Ok(match change {
        BookChange::Begin(batch) => {
            let file = book.begin(batch, today)?;
            BookDone { file, batch: Some(Arc::new((**batch).clone())), bin: None }
        }
        BookChange::Change(file, changes) => {
            let batch = book.change(file, |batch| changes.iter().for_each(|change| change.apply(batch)))?;
            BookDone { file: file.clone(), batch: Some(Arc::new(batch)), bin: None }
        }
        BookChange::ThrowAway(file) => {
            BookDone { file: file.clone(), batch: None, bin: Some(book.throw_away(file)?) }
        }
        BookChange::PutBack(number) => {
            let file = book.put_back(*number)?;
            BookDone { batch: Some(Arc::new(book.read(&file)?)), file, bin: None }
        }
        BookChange::Delete(number) => book.delete(*number).map(|()| BookDone::default())?,
    })
}

impl AppRunner {
    /// Looks at the clock; a runner without folders (tests, pictures) has none.
    pub fn look_at_the_clock(&mut self) {
        if self.disk.is_none() {
            return;
        }
        self.state.now = clock::now(&self.state.zone);
        if self.state.now != self.state.batches.reminded {
            self.run(BatchesCommand::Minute);
        }
    }

    /// Where designs are kept when nothing else is known.
    pub fn documents(&self) -> Option<PathBuf> {
        self.disk.as_ref().map(|disk| disk.folders.documents.clone())
    }

    /// Whether a file stands under a path.
    pub fn is_there(&self, path: &Path) -> bool {
        files::is_there(path)
    }

    /// What lies in a folder: its folders (true), and files with one of these endings.
    pub fn listing(&self, folder: &Path, endings: &[&str]) -> Vec<(String, bool)> {
        files::listing(folder, endings)
    }

    /// The whole path of one that was typed while `folder` was shown.
    pub fn spelled_out(&self, typed: &str, folder: &Path) -> PathBuf {
        spelled_out(typed, folder)
    }

    /// Recent files, and whether each is still there.
    pub fn recent(&self) -> Vec<(String, bool)> {
        files::recent(&self.state.settings)
    }

    /// Looks whether another window or program wrote the open file or the maker's pantry, or took the file away.
    pub fn look_outside(&mut self) {
        let session = &self.state.session;
        if let (Some(path), Some(known)) = (&session.path, session.stamp) {
            let outside = match files::stamp(path) {
                None => Outside::Gone,
                Some(now) if now == known => Outside::Untouched,
                Some(_) => Outside::Changed,
            };
            if outside != session.outside {
                self.run(FileCommand::Outside(outside));
            }
        }
        self.run(BatchesCommand::Touched);
        let own_stamp = self.disk.as_ref().map(|disk| (disk.own_stamp, memory::own_stamp(&disk.folders)));
        if let Some((known, Some(now))) = own_stamp
            && known != Some(now)
            && let Some(command) = self.save_own()
        {
            self.run(command);
        }
    }

    /// Has the worker look after the file that is open, if it is another one than before.
    pub(super) fn watch(&mut self) {
        let session = &self.state.session;
        let wanted =
            session.path.as_ref().zip(session.stamp).filter(|_| session.outside == Outside::Untouched);
        let wanted = wanted.map(|(path, stamp)| Watch { path: path.clone(), stamp });
        if wanted != self.watched && matches!(self.hands, Hands::Worker(_)) {
            let units = self.units();
            let order =
                wanted.clone().map_or(Order::GiveUp(Key::Watch), |watch| Order::Work(Box::new(watch), units));
            self.watched = wanted;
            // Only a worker looks after it, and later.
            let _ = self.order(order);
        }
    }

    /// Effects on the disk that are done here and now.
    pub(super) fn on_disk(&mut self, effect: DiskEffect) -> Option<Command> {
        match effect {
            DiskEffect::Read(path) => {
                path.parent().into_iter().for_each(files::sweep);
                // Before it is read: what is written in between is told as a change.
                let stamp = files::stamp(&path);
                let read = files::design(&path).map(|design| (Box::new(design), stamp));
                // Shared entries may be opened or dropped like a design.
                match (read.is_err()).then(|| files::shared(&path)) {
                    Some(Ok(entries)) => {
                        Some(Command::Pantry(PantryCommand::TakenIn(path, Ok(Box::new(entries)))))
                    }
                    _ => Some(Command::File(FileCommand::Opened(path, read))),
                }
            }
            DiskEffect::Write { path, text, revision, over } => {
                let library = self.state.library();
                let recipe = library.as_ref().and_then(|l| Some((l, l.file_of(&path)?)));
                // What another program wrote there is a version, too.
                let kept = |recipe: &Option<(&Library, String)>| {
                    recipe.as_ref().map_or(Ok(()), |(library, file)| library.keep_version(file))
                };
                let before = kept(&recipe);
                let written = files::write_over(&path, &text, over);
                if let Err(note) = before.and_then(|()| kept(&recipe)) {
                    self.run(WindowCommand::Failed(note));
                }
                Some(Command::File(FileCommand::Saved(path, revision, written)))
            }
            DiskEffect::WriteShared { path, text } => Some(match files::write(&path, &text) {
                Ok(()) => Command::Window(WindowCommand::Said(format!("Shared to {}", path.display()))),
                Err(note) => Command::Window(WindowCommand::Failed(note)),
            }),
            DiskEffect::SaveOwn => self.save_own(),
            DiskEffect::SaveSettings => {
                self.with_disk(|disk, state| memory::save_settings(&disk.folders, &state.settings))
            }
            DiskEffect::SaveKitchen => {
                self.with_disk(|disk, state| memory::save_kitchen(&disk.folders, &state.kitchen))
            }
            DiskEffect::KeepRecovery => self.with_disk(|disk, state| disk.keep(&state.unsaved(true))),
            DiskEffect::DropRecovery => self.with_disk(|disk, state| disk.keep(&state.unsaved(false))),
            DiskEffect::Recovered(copy) => {
                // Ours is on the disk before the other one goes.
                let failed = self.with_disk(|disk, state| disk.keep(&state.unsaved(true)));
                if failed.is_none() {
                    self.drop_lost(&copy);
                }
                failed
            }
            DiskEffect::DropLost(copy) => {
                self.drop_lost(&copy);
                None
            }
            DiskEffect::LeaveLost => {
                if let Some(recovery) = self.disk.as_mut().and_then(|disk| disk.recovery.as_mut()) {
                    recovery.leave();
                }
                None
            }
            DiskEffect::ReadBeside(path) => {
                let stamp = files::stamp(&path);
                let read = files::design(&path).map(|design| (Box::new(design), stamp));
                Some(BesideCommand::Read(path, read).into())
            }
            DiskEffect::ReadTheirs(path) => {
                Some(FileCommand::Theirs(files::design(&path).map(Box::new)).into())
            }
            DiskEffect::ReadShared(path) => {
                let read = files::shared(&path).map(Box::new);
                Some(PantryCommand::TakenIn(path, read).into())
            }
            DiskEffect::Recipe(change) => {
                let library = self.state.library()?;
                let done = recipe(&library, &change);
                Some(RecipesCommand::Changed(change, done).into())
            }
            DiskEffect::MakeLibrary => self.make_library(),
            DiskEffect::Book(change) => {
                let done = self.book(&change);
                Some(BatchesCommand::Changed(change, done).into())
            }
            DiskEffect::Unbook(change) => {
                let done = self.book(&change);
                Some(BatchesCommand::Unbooked(change, done).into())
            }
            DiskEffect::KeepLearnt(new) => Some(self.keep_learnt(new)),
            DiskEffect::SaveCalls(both) => Some(self.save_calls(&both.0, both.1)),
            DiskEffect::KeepLesson { file, text } => {
                self.with_disk(|disk, _| Lessons::of(&disk.folders).keep(&file, &text))
            }
            DiskEffect::DropLesson(file) => self.with_disk(|disk, _| Lessons::of(&disk.folders).drop(&file)),
            DiskEffect::ReadLesson(path) => {
                let read = lessons::read(&path).map(Box::new);
                Some(ClassCommand::Imported(path, read).into())
            }
            DiskEffect::LookOutside => {
                self.look_outside();
                None
            }
        }
    }

    /// Makes the folder of the house recipes.
    fn make_library(&mut self) -> Option<Command> {
        let made = self.state.library()?.make();
        if let Some(disk) = &self.disk {
            disk.gather(&self.state.settings);
            // The batch book lies beside the recipes from now on.
            self.state.batches.book = Some(disk.book(&self.state.settings));
        }
        Some(match made {
            Ok(()) => BatchesCommand::Touched.into(),
            Err(note) => RecipesCommand::NotListed(self.state.recipes.question, note).into(),
        })
    }

    /// Changes the batch book; where nothing is remembered, the pots under way.
    fn book(&self, change: &BookChange) -> Result<BookDone, Note> {
        let state = &self.state;
        match &state.batches.book {
            Some(own) => book(own, change, &state.now.map_or_else(String::new, Moment::day)),
            None => Ok(change.apply(&state.card.running)),
        }
    }

    /// Saves the call log, with what another window wrote to it since.
    fn save_calls(&self, base: &CallLog, new: CallLog) -> Command {
        let saved = match &self.disk {
            Some(disk) => memory::save_calls(&disk.folders, base, &new),
            None => Ok(new),
        };
        MishapCommand::LogSaved(saved.map(Box::new)).into()
    }

    /// Keeps what pots taught, unless another window kept something since.
    fn keep_learnt(&self, new: Box<LearntBook>) -> Command {
        let known = &self.state.batches.learning.kept;
        let kept = match &self.disk {
            Some(disk) => memory::keep_learnt(&disk.folders, known, &new),
            None => Ok(LearntKept::Done),
        };
        BatchesCommand::Kept(new, kept).into()
    }

    fn save_own(&mut self) -> Option<Command> {
        let disk = self.disk.as_mut()?;
        let shelves = &self.state.shelves;
        let saved = memory::save_own(&disk.folders, &shelves.kept, &shelves.own);
        disk.own_stamp = memory::own_stamp(&disk.folders);
        Some(match saved {
            Ok(merged) => Command::Pantry(PantryCommand::OwnSaved(Box::new(merged))),
            Err(note) => Command::Window(WindowCommand::Failed(note)),
        })
    }

    fn drop_lost(&mut self, copy: &Path) {
        if let Some(recovery) = self.disk.as_mut().and_then(|disk| disk.recovery.as_mut()) {
            recovery.drop_lost(copy);
        }
    }

    fn with_disk(&self, save: impl Fn(&Disk, &State) -> Result<(), Note>) -> Option<Command> {
        save(self.disk.as_ref()?, &self.state).err().map(|note| WindowCommand::Failed(note).into())
    }
}
