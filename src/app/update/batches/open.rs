//! The open pot: its batch, the forecast before any reading, the forecast ahead, and what is said when its time has come.

use std::sync::Arc;

use crate::batches::{CloudTold, OpenBatch, ReadingLine};
use crate::effect::Effect;
use crate::jobs::Key;
use crate::jobs::batches::ahead::{AheadJob, CloudJob};
use crate::jobs::batches::open::{OpenJob, sigmas};
use crate::state::State;
use potset_base::Note;
use potset_doc::Batch;
use potset_learn::scenario_of;
use potset_report::batch::due;

/// How long the forecast ahead stands before it is looked at anew, h. Source: assumed.
const STANDS_H: f64 = 0.25;

/// Opens a pot, or none.
pub fn open(state: &mut State, file: Option<String>) -> Vec<Effect> {
    let batches = &mut state.batches;
    batches.opening.clone_from(&file);
    batches.open_number += 1;
    let Some(file) = file else {
        batches.open = None;
        return vec![Effect::GiveUp(Key::Cloud), Effect::GiveUp(Key::Ahead)];
    };
    if batches.open_as(&file).is_none() {
        batches.line = ReadingLine { focus: batches.line.focus + 1, ..ReadingLine::default() };
    }
    // Where nothing is remembered, a pot under way is all that there is.
    let running = state.card.running.iter().find(|pot| pot.file == file).map(|pot| pot.batch.clone());
    let open = batches.open_as(&file).map(|open| open.batch.clone());
    let (book, pantry) = (batches.book.clone(), state.pantry.clone());
    vec![Effect::work(OpenJob { file, book, pantry, known: running.or(open) })]
}

/// The batch was read.
pub fn opened(state: &mut State, file: &str, read: Result<Box<OpenBatch>, Note>) -> Vec<Effect> {
    if state.batches.opening.as_deref() != Some(file) {
        return Vec::new();
    }
    match read {
        Ok(open) => {
            let old = state.batches.open_as(file).map(|old| (old.batch.clone(), old.cloud.clone()));
            let cloud = old.and_then(|(batch, cloud)| cloud.filter(|_| alike(&batch, &open.batch)));
            state.batches.open = Some(OpenBatch { cloud, ..*open });
            ahead(state)
        }
        Err(note) => {
            state.batches.open = None;
            super::refuse(state, note)
        }
    }
}

/// Whether two states of a batch have the same possible pots: only readings and words differ.
fn alike(a: &Batch, b: &Batch) -> bool {
    a.design == b.design && a.kitchen == b.kitchen && a.logged == b.logged && a.stopped_h == b.stopped_h
}

/// The open pot was changed.
pub fn changed(state: &mut State, batch: Arc<Batch>) -> Vec<Effect> {
    let Some(open) = &mut state.batches.open else { return Vec::new() };
    let same = alike(&open.batch, &batch);
    open.sigmas = sigmas(&batch);
    open.batch = batch;
    if same {
        // Curves and possible pots stand; readings are another matter.
        state.batches.open_number += 1;
        return ahead(state);
    }
    open.cloud = None;
    let file = open.file.clone();
    self::open(state, Some(file))
}

/// Has the forecast ahead worked out, from possible pots that may have to be drawn first.
pub fn ahead(state: &mut State) -> Vec<Effect> {
    let number = state.batches.open_number;
    let Some(open) = &mut state.batches.open else { return Vec::new() };
    let batch = open.batch.clone();
    if !batch.running() || batch.start().is_none() {
        open.ahead = None;
        return vec![Effect::GiveUp(Key::Cloud), Effect::GiveUp(Key::Ahead)];
    }
    let now_h = state.now.and_then(|now| batch.hours_to(now, &state.zone));
    let now_h = now_h.unwrap_or_else(|| batch.readings.last().map_or(0.0, |last| last.at_h));
    let then = AheadJob { number, cloud: open.cloud.clone(), batch, now_h };
    match &open.cloud {
        Some(_) => vec![Effect::work(then)],
        None => {
            let mut scenario = scenario_of(&then.batch, &state.pantry);
            scenario.learnt = state.learnt.clone();
            vec![Effect::work(CloudJob { scenario, then })]
        }
    }
}

/// The possible pots of the open pot are there.
pub fn cloud(state: &mut State, number: u64, made: Result<Arc<CloudTold>, Note>) -> Vec<Effect> {
    let batches = &mut state.batches;
    if let Some(open) = batches.open.as_mut().filter(|_| number == batches.open_number) {
        match made {
            Ok(cloud) => open.cloud = Some(cloud),
            Err(note) => open.trouble = Some(note),
        }
    }
    Vec::new()
}

/// A minute went by: what is due is said, and the next reading is looked for anew where its time has passed.
pub fn minute(state: &mut State) -> Vec<Effect> {
    let Some(now) = state.now else { return Vec::new() };
    let since = state.batches.reminded.replace(now);
    let Some(since) = since.filter(|since| *since != now) else { return Vec::new() };
    let mut said = Vec::new();
    for pot in &state.card.running {
        said.extend(due(&pot.batch, (since, now), &state.zone));
    }
    let mut effects = Vec::new();
    let stale = state.batches.open.as_ref().and_then(|open| {
        let told = open.ahead.as_ref()?;
        let now_h = open.batch.hours_to(now, &state.zone)?;
        let come = told.next.filter(|next| next.at_h > told.now_h && next.at_h <= now_h);
        said.extend(come.map(|_| potset_report::learn::reading_due(&open.batch.name)));
        Some(come.is_some() || now_h > told.now_h + STANDS_H)
    });
    if stale == Some(true) {
        effects.extend(ahead(state));
    }
    for words in said {
        super::tell(state, Note::done("clock", words));
    }
    effects
}
