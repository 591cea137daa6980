//! The Batches view: the batch book, the open pot, its reading line, and what is done with its files.

mod done;
mod learning;
mod logger;
mod open;

use std::path::PathBuf;

use self::open::minute;
use super::tell;
use crate::batches::{BatchesPage, ReadingLine};
use crate::book::BookChange;
use crate::command::{BatchFile, BatchesCommand, WindowCommand};
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::batches::begin::{BeginJob, Begins};
use crate::jobs::batches::files::{BatchFileJob, CopyBatchesJob};
use crate::jobs::batches::list::ListJob;
use crate::jobs::recipes::BinJob;
use crate::state::{State, View};
use potset_base::Note;
use potset_doc::Batch;
use potset_doc::batch::change::BatchChange;
use potset_doc::batch::spoken::Heard;
use potset_store::library::{Copied, file_name};

/// Commands of the Batches view.
pub fn batches(state: &mut State, command: BatchesCommand) -> Vec<Effect> {
    match command {
        BatchesCommand::Page(page) => {
            state.batches.page = page;
            shown(state)
        }
        BatchesCommand::Find(text) => {
            state.batches.find = text;
            state.batches.number += 1;
            Vec::new()
        }
        BatchesCommand::Open(file) => open::open(state, file),
        BatchesCommand::Opened(file, read) => open::opened(state, &file, read),
        BatchesCommand::Begin(from) => begin(state, from),
        BatchesCommand::Begun(Ok(batch)) => {
            state.batches.arriving = true;
            vec![DiskEffect::Book(BookChange::Begin(batch)).into()]
        }
        BatchesCommand::Begun(Err(note)) => refuse(state, note),
        BatchesCommand::Listed(number, listed, running) => done::listed(state, number, *listed, running),
        BatchesCommand::NotListed(number, note) => {
            if number == state.batches.question {
                state.batches.trouble = Some(note);
            }
            Vec::new()
        }
        BatchesCommand::Touched => list(state),
        BatchesCommand::Type(text) => {
            state.batches.line.text = text;
            state.batches.line.refused = None;
            Vec::new()
        }
        BatchesCommand::Put(text, replaces) => {
            let focus = state.batches.line.focus + 1;
            state.batches.line = ReadingLine { text, focus, replaces, ..ReadingLine::default() };
            Vec::new()
        }
        BatchesCommand::Save => save(state),
        BatchesCommand::Change(file, changes) => {
            vec![DiskEffect::Book(BookChange::Change(file, changes)).into()]
        }
        BatchesCommand::ThrowAway => {
            let open = state.batches.open.as_ref().map(|open| open.file.clone());
            open.map(|file| DiskEffect::Book(BookChange::ThrowAway(file)).into()).into_iter().collect()
        }
        BatchesCommand::Bin(thrown) => {
            state.batches.bin = thrown;
            Vec::new()
        }
        BatchesCommand::Book(change) => vec![DiskEffect::Book(change).into()],
        BatchesCommand::Changed(change, came) => done::changed(state, &change, came),
        BatchesCommand::Undo => undo(state),
        BatchesCommand::Unbooked(change, came) => done::taken_back(state, &change, came),
        BatchesCommand::Cloud(number, made) => open::cloud(state, number, made),
        BatchesCommand::Ahead(number, told) => {
            if number == state.batches.open_number
                && let Some(open) = &mut state.batches.open
            {
                open.ahead = Some(told);
            }
            Vec::new()
        }
        BatchesCommand::Minute => minute(state),
        BatchesCommand::Learn => learning::learn(state, true),
        BatchesCommand::Learnt(number, told) => learning::learnt(state, number, told),
        BatchesCommand::Keep => learning::keep(state),
        BatchesCommand::UndoKept => learning::undo(state),
        BatchesCommand::Forget => learning::forget(state),
        BatchesCommand::Kept(new, kept) => learning::kept(state, *new, kept),
        BatchesCommand::AskLogger => vec![ScreenEffect::AskLogger.into()],
        BatchesCommand::Logger(path) => logger::choose(state, path),
        BatchesCommand::LoggerWish(wish) => logger::wish(state, wish),
        BatchesCommand::LoggerRead(number, told) => logger::read(state, number, told),
        BatchesCommand::UseLogger(with_ph) => logger::take(state, with_ph),
        BatchesCommand::CloseLogger => {
            state.batches.logger = None;
            Vec::new()
        }
        BatchesCommand::ImportDemos => demos(state),
        BatchesCommand::AskImport => vec![ScreenEffect::AskImportBatches.into()],
        BatchesCommand::Import(other) => match &state.batches.book {
            Some(book) => vec![Effect::work(CopyBatchesJob { book: book.clone(), other })],
            None => Vec::new(),
        },
        BatchesCommand::Copied(other, copied) => copied_in(state, &other, copied),
        BatchesCommand::AskExport(what) => {
            let Some(open) = &state.batches.open else { return Vec::new() };
            vec![
                ScreenEffect::AskBatchFile(what, format!("{}.{}", stem(&open.batch, what), what.ending()))
                    .into(),
            ]
        }
        BatchesCommand::ExportTo(what, path) => export(state, what, path, false),
        BatchesCommand::Print => print(state),
        BatchesCommand::Exported(path, Ok(())) => {
            state.said = Some(format!("Written to {}", path.display()));
            Vec::new()
        }
        BatchesCommand::Exported(_, Err(note)) => tell(state, note),
    }
}

/// Takes the last change of the book back, and says which: the pot may not be the one on view.
fn undo(state: &mut State) -> Vec<Effect> {
    let Some(undo) = state.batches.undo.pop() else { return Vec::new() };
    state.said = Some(format!("Taken back: {}", potset_base::words::lower(&undo.words)));
    vec![DiskEffect::Unbook(undo.change).into()]
}

/// What the view needs as it is shown: the book as it is now, and what follows from that.
pub fn shown(state: &mut State) -> Vec<Effect> {
    list(state)
}

/// Reads the book.
pub fn list(state: &mut State) -> Vec<Effect> {
    let Some(book) = state.batches.book.clone() else { return Vec::new() };
    state.batches.question += 1;
    state.batches.trouble = None;
    let bin = (state.batches.page == BatchesPage::Bin).then(|| Effect::work(BinJob::Batches(book.clone())));
    std::iter::once(Effect::work(ListJob { number: state.batches.question, book })).chain(bin).collect()
}

/// Says why what was asked for was not done.
fn refuse(state: &mut State, note: Note) -> Vec<Effect> {
    state.refused = Some(note);
    Vec::new()
}

/// Begins a pot, frozen as its design is now.
fn begin(state: &State, from: Option<String>) -> Vec<Effect> {
    let from = match from {
        None => Begins::Bench,
        Some(file) => match state.library() {
            Some(library) => Begins::Recipe(library, file),
            None => return Vec::new(),
        },
    };
    let (zone, now) = (state.zone.clone(), state.now);
    vec![Effect::work(BeginJob { scenario: state.owned_scenario(), from, zone, now })]
}

/// The typed line goes into the file at once; what is not understood stays as it was typed.
fn save(state: &mut State) -> Vec<Effect> {
    let Some(understood) = state.batches.understood(state.now, &state.zone) else { return Vec::new() };
    let Some(file) = state.batches.open.as_ref().map(|open| open.file.clone()) else { return Vec::new() };
    match understood {
        Ok(heard) => {
            let changes = changes(state, &heard);
            let line = &mut state.batches.line;
            (line.saving, line.refused) = (true, None);
            vec![DiskEffect::Book(BookChange::Change(file, changes)).into()]
        }
        Err(note) => {
            state.batches.line.refused = Some(note);
            Vec::new()
        }
    }
}

/// What a line changes: new readings, or one in the place of the one that is corrected.
fn changes(state: &State, heard: &Heard) -> Vec<BatchChange> {
    let mut changes = heard.all();
    let open = state.batches.open.as_ref();
    let place = state.batches.line.replaces;
    let old = open.zip(place).and_then(|(open, place)| open.batch.readings.get(place));
    if let Some(old) = old {
        changes.insert(0, BatchChange::Remove(Box::new(old.clone())));
    }
    changes
}

/// The demo pots, as if the last of them had been begun this morning.
fn demos(state: &mut State) -> Vec<Effect> {
    let made = crate::jobs::batches::begin::demos(state.now, &state.zone);
    match made {
        Ok(all) => {
            all.into_iter().map(|pot| DiskEffect::Book(BookChange::Begin(Box::new(pot))).into()).collect()
        }
        Err(note) => refuse(state, note),
    }
}

/// What came of copying, said.
fn copied_in(state: &mut State, other: &std::path::Path, copied: Result<Copied, Note>) -> Vec<Effect> {
    match copied {
        Ok(copied) => {
            let there = match copied.there {
                0 => String::new(),
                n => format!(", {n} were there already"),
            };
            let left = match copied.left.len() {
                0 => String::new(),
                n => format!(", {n} could not be read"),
            };
            state.said = Some(format!("{} pots copied from {}{there}{left}", copied.copied, other.display()));
            for note in copied.left {
                tell(state, note);
            }
        }
        Err(note) => state.refused = Some(note),
    }
    list(state)
}

/// The name of a file of a pot, without its ending.
fn stem(batch: &Batch, what: BatchFile) -> String {
    let name = file_name(&batch.name);
    let name = name.strip_suffix(".ron").unwrap_or(&name);
    match what {
        BatchFile::Record => format!("{name}-record"),
        BatchFile::Readings => format!("{name}-readings"),
    }
}

fn export(state: &State, what: BatchFile, path: PathBuf, open: bool) -> Vec<Effect> {
    let Some(pot) = &state.batches.open else { return Vec::new() };
    let (batch, pantry) = (pot.batch.clone(), state.pantry.clone());
    vec![Effect::work(BatchFileJob { batch, pantry, size: state.card.wish.size, path, what, open })]
}

/// Has the system's viewer open the record, which prints.
fn print(state: &State) -> Vec<Effect> {
    let (Some(folder), Some(open)) = (&state.aside, &state.batches.open) else { return Vec::new() };
    let path = folder.join("print").join(format!("{}.pdf", stem(&open.batch, BatchFile::Record)));
    export(state, BatchFile::Record, path, true)
}

/// Shows the view on the pot that was begun.
fn arrive(state: &mut State) -> Vec<Effect> {
    state.batches.page = BatchesPage::Pot;
    state.batches.line = ReadingLine { focus: state.batches.line.focus + 1, ..ReadingLine::default() };
    super::update(state, WindowCommand::Show(View::Batches))
}
