//! What came of changes of the batch book.

use super::{arrive, learning, list, open, refuse};
use crate::batches::{BatchesPage, BookUndo, ReadingLine};
use crate::book::{BookChange, BookDone, UnderWay};
use crate::effect::Effect;
use crate::state::{State, View};
use potset_base::Note;
use potset_doc::Batch;
use potset_doc::batch::change::BatchChange;
use potset_doc::batch::known::{BatchSummary, KnownBatch};
use potset_store::book::Listed;

/// Most changes that are taken back.
const MOST_UNDO: usize = 100;

/// The book was read.
pub fn listed(state: &mut State, number: u64, listed: Listed, running: Vec<UnderWay>) -> Vec<Effect> {
    if number != state.batches.question {
        return Vec::new();
    }
    let batches = &mut state.batches;
    (batches.listed, batches.known) = (listed, true);
    batches.number += 1;
    let other = running != state.card.running;
    state.card.running = running;
    let mut effects = Vec::new();
    // Another window or `potset log` wrote to the open pot, or threw it away.
    if let Some(open) = &state.batches.open {
        let file = open.file.clone();
        let stays = state.batches.listed.all.iter().any(|known| known.file == file);
        let summary = BatchSummary::of(&open.batch);
        let same =
            state.batches.listed.all.iter().any(|known| known.file == file && known.summary == summary);
        if !same {
            effects.extend(open::open(state, stays.then_some(file)));
        }
    }
    let page = state.batches.page;
    if state.view == View::Batches && matches!(page, BatchesPage::Taught | BatchesPage::Drift) {
        effects.extend(learning::learn(state, false));
    }
    if other && state.view == View::Card {
        effects.extend(super::super::card::shown(state));
    }
    effects
}

/// What takes a change back, and what that is called.
fn back(state: &State, change: &BookChange, came: &BookDone) -> Option<BookUndo> {
    let name = came.batch.as_ref().map(|batch| batch.name.clone());
    Some(match change {
        BookChange::Begin(batch) => BookUndo {
            words: format!("Began {}", batch.name),
            change: BookChange::ThrowAway(came.file.clone()),
        },
        BookChange::Change(file, changes) => {
            let open = state.batches.open_as(file).map(|open| &*open.batch);
            let running = || state.card.running.iter().find(|pot| pot.file == *file).map(|pot| &*pot.batch);
            let mut before: Batch = open.or_else(running)?.clone();
            let mut back = Vec::new();
            for change in changes {
                let mut these = change.back(&before);
                these.append(&mut back);
                back = these;
                change.apply(&mut before);
            }
            let words = format!("{} {}", what(changes), name?);
            BookUndo { words, change: BookChange::Change(file.clone(), back) }
        }
        BookChange::ThrowAway(file) => {
            let known = state.batches.listed.all.iter().find(|known| known.file == *file);
            let name = known.map_or_else(|| file.clone(), |known| known.summary.name.clone());
            BookUndo { words: format!("Moved {name} to the bin"), change: BookChange::PutBack(came.bin?) }
        }
        BookChange::PutBack(_) => BookUndo {
            words: format!("Put back {}", name?),
            change: BookChange::ThrowAway(came.file.clone()),
        },
        BookChange::Delete(_) => return None,
    })
}

/// What a change did, for the line that says it.
fn what(changes: &[BatchChange]) -> &'static str {
    match changes.first() {
        Some(BatchChange::Add(_)) => "Saved a reading of",
        Some(BatchChange::Remove(_)) if changes.len() == 1 => "Removed a reading of",
        Some(BatchChange::Remove(_) | BatchChange::Replace(..)) => "Corrected a reading of",
        Some(BatchChange::Stopped(_)) => "Changed when it stopped:",
        Some(BatchChange::CultureIn(..)) => {
            "Readings keep their clock times; changed when the culture went into"
        }
        Some(BatchChange::Ended(true)) => "Ended",
        Some(BatchChange::Ended(false)) => "Follows again",
        Some(BatchChange::Name(_)) => "Renamed to",
        Some(BatchChange::Logged(Some(_))) => "Took the logger's warmth into",
        Some(BatchChange::WentIn(..)) => "Changed what went into",
        _ => "Changed",
    }
}

/// A change was made, or could not be.
pub fn changed(state: &mut State, change: &BookChange, came: Result<BookDone, Note>) -> Vec<Effect> {
    let arriving = std::mem::take(&mut state.batches.arriving);
    let came = match came {
        Ok(came) => came,
        Err(note) => {
            // What was typed stays in its line, with the reason below it.
            if std::mem::take(&mut state.batches.line.saving) {
                state.batches.line.refused = Some(note);
                return Vec::new();
            }
            return refuse(state, note);
        }
    };
    let undo = back(state, change, &came);
    state.said = undo.as_ref().map(|undo| undo.words.clone());
    state.batches.undo.extend(undo);
    let over = state.batches.undo.len().saturating_sub(MOST_UNDO);
    state.batches.undo.drain(..over);
    if std::mem::take(&mut state.batches.line.saving) {
        state.batches.line = ReadingLine { focus: state.batches.line.focus + 1, ..ReadingLine::default() };
    }
    let mut effects = taken_in(state, change, came, arriving);
    if arriving {
        effects.extend(arrive(state));
    }
    effects
}

/// A change was taken back, or could not be.
pub fn taken_back(state: &mut State, change: &BookChange, came: Result<BookDone, Note>) -> Vec<Effect> {
    match came {
        Ok(came) => {
            let put_back = matches!(change, BookChange::PutBack(_));
            taken_in(state, change, came, put_back)
        }
        Err(note) => refuse(state, note),
    }
}

/// The window as the book is now.
fn taken_in(state: &mut State, change: &BookChange, came: BookDone, show: bool) -> Vec<Effect> {
    let BookDone { file, batch, .. } = came;
    state.card.running.retain(|pot| pot.file != file || batch.is_some());
    if let Some(batch) = &batch {
        let place = state.card.running.iter().position(|pot| pot.file == file);
        match (place, batch.running()) {
            (Some(at), true) => state.card.running[at].batch = batch.clone(),
            (None, true) => state.card.running.push(UnderWay { file: file.clone(), batch: batch.clone() }),
            (Some(at), false) => drop(state.card.running.remove(at)),
            (None, false) => {}
        }
    }
    keep_listed(state, &file, batch.as_deref());
    let open = state.batches.open_as(&file).is_some();
    let mut effects = match (change, batch) {
        (BookChange::ThrowAway(_), _) if open => open::open(state, None),
        (_, Some(batch)) if open => open::changed(state, batch),
        (BookChange::Begin(_) | BookChange::PutBack(_), Some(_)) if show => open::open(state, Some(file)),
        _ => Vec::new(),
    };
    effects.extend(list(state));
    if state.view == View::Card {
        effects.extend(super::super::card::shown(state));
    }
    effects
}

/// The list shows it at once; the worker lists the book anew.
fn keep_listed(state: &mut State, file: &str, batch: Option<&Batch>) {
    let batches = &mut state.batches;
    let place = batches.listed.all.iter().position(|known| known.file == file);
    let known = |batch| KnownBatch { file: file.to_owned(), stamp: 0, summary: BatchSummary::of(batch) };
    match (place, batch) {
        (Some(at), Some(batch)) => batches.listed.all[at] = known(batch),
        (None, Some(batch)) => batches.listed.all.insert(0, known(batch)),
        (Some(at), None) => drop(batches.listed.all.remove(at)),
        (None, None) => {}
    }
    batches.number += 1;
}
