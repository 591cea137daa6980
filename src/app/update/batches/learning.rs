//! What pots taught: worked out, kept, taken back, forgotten. Whatever is kept, forecasts are asked anew.

use std::sync::Arc;

use super::super::asked;
use super::{open, refuse};
use crate::batches::{Taught, TaughtOf};
use crate::effect::{DiskEffect, Effect};
use crate::jobs::batches::learn::LearnJob;
use crate::state::State;
use potset_base::Note;
use potset_doc::Learnt;
use potset_doc::learnt::LearntBook;
use potset_store::memory::LearntKept;

/// Has it worked out, if the book is another one than before or it is asked for.
pub fn learn(state: &mut State, anew: bool) -> Vec<Effect> {
    let files = state.batches.listed.all.iter().map(|known| (known.file.clone(), known.stamp));
    let of = TaughtOf { files: files.collect(), units: state.kitchen.units() };
    let learning = &mut state.batches.learning;
    if !anew && learning.asked == of && learning.question > 0 {
        return Vec::new();
    }
    let Some(book) = state.batches.book.clone() else { return Vec::new() };
    learning.question += 1;
    learning.asked = of;
    learning.trouble = None;
    let (number, pantry) = (learning.question, state.pantry.clone());
    let day = state.now.map_or_else(String::new, potset_base::clock::Moment::day);
    vec![Effect::work(LearnJob { number, book, pantry, day })]
}

/// It is worked out, or cannot be.
pub fn learnt(state: &mut State, number: u64, told: Result<Arc<Taught>, Note>) -> Vec<Effect> {
    let learning = &mut state.batches.learning;
    if number != learning.question {
        return Vec::new();
    }
    learning.answered = number;
    match told {
        Ok(told) => learning.told = Some(told),
        Err(note) => learning.trouble = Some(note),
    }
    Vec::new()
}

/// Forecasts use what pots taught from now on.
pub fn keep(state: &State) -> Vec<Effect> {
    let learning = &state.batches.learning;
    let (None, Some(told)) = (learning.disabled_keep(), &learning.told) else { return Vec::new() };
    let mut new = learning.kept.clone();
    new.keep(told.learning.learnt.clone());
    write(new)
}

/// What stood there before is used again.
pub fn undo(state: &State) -> Vec<Effect> {
    let mut new = state.batches.learning.kept.clone();
    if new.undo() { write(new) } else { Vec::new() }
}

/// Nothing that pots taught is used any more; it can be put back.
pub fn forget(state: &State) -> Vec<Effect> {
    let mut new = state.batches.learning.kept.clone();
    new.keep(Learnt::default());
    write(new)
}

fn write(new: LearntBook) -> Vec<Effect> {
    vec![DiskEffect::KeepLearnt(Box::new(new)).into()]
}

/// It was kept, or another window kept something since, or it could not be.
pub fn kept(state: &mut State, new: LearntBook, kept: Result<LearntKept, Note>) -> Vec<Effect> {
    let (book, other) = match kept {
        Ok(LearntKept::Done) => (new, false),
        Ok(LearntKept::Others(theirs)) => (*theirs, true),
        Err(note) => return refuse(state, note),
    };
    state.learnt = book.now.clone();
    state.batches.learning.kept = book;
    let effects = forecasts_change(state);
    if other {
        let title = "Another window kept something else meanwhile, and that is used now";
        state.refused =
            Some(Note::error("learnt", title, "Look at it, then keep yours if you still want it"));
    } else {
        let used = potset_report::learn::used(&state.learnt);
        state.said = Some(used.unwrap_or_else(|| "Forecasts use nothing that pots taught".to_owned()));
    }
    effects
}

/// Everything that rests on what was learnt is asked anew.
fn forecasts_change(state: &mut State) -> Vec<Effect> {
    let mut effects = asked(state);
    if let Some(pot) = &mut state.batches.open {
        pot.cloud = None;
        effects.extend(open::ahead(state));
    }
    effects
}
