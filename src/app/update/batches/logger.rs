//! A logger's file: chosen, its columns corrected, taken into the open pot.

use std::path::PathBuf;

use crate::batches::{BatchesPage, LoggerState, LoggerTold, LoggerWish};
use crate::book::BookChange;
use crate::effect::{DiskEffect, Effect};
use crate::jobs::batches::logger::LoggerJob;
use crate::state::State;
use potset_base::Note;
use potset_doc::batch::change::BatchChange;
use potset_doc::batch::check::MOST_LOGGED;
use potset_doc::batch::{BatchReading, Logged, Observed};
use potset_doc::steps::Reading;
use potset_logger::thin;

/// A logger's pH is taken in as a reading so often, h. Source: assumed: readings that lie nearer tell the same error twice.
const PH_EVERY_H: f64 = 2.0;

/// Chooses a file.
pub fn choose(state: &mut State, path: PathBuf) -> Vec<Effect> {
    let question = state.batches.logger.as_ref().map_or(0, |logger| logger.question);
    state.batches.page = BatchesPage::Import;
    state.batches.logger =
        Some(LoggerState { path, question, wish: LoggerWish::default(), told: None, trouble: None });
    ask(state)
}

/// Another way to read it.
pub fn wish(state: &mut State, wish: LoggerWish) -> Vec<Effect> {
    let Some(logger) = &mut state.batches.logger else { return Vec::new() };
    logger.wish = wish;
    ask(state)
}

fn ask(state: &mut State) -> Vec<Effect> {
    let batch = state.batches.open.as_ref().map(|open| open.batch.clone());
    let Some(logger) = &mut state.batches.logger else { return Vec::new() };
    logger.question += 1;
    vec![Effect::work(LoggerJob {
        number: logger.question,
        path: logger.path.clone(),
        bytes: logger.told.as_ref().map(|told| told.bytes.clone()),
        wish: logger.wish.clone(),
        batch,
        zone: state.zone.clone(),
    })]
}

/// It was read, or cannot be.
pub fn read(state: &mut State, number: u64, told: Result<Box<LoggerTold>, Note>) -> Vec<Effect> {
    let Some(logger) = state.batches.logger.as_mut().filter(|logger| logger.question == number) else {
        return Vec::new();
    };
    match told {
        Ok(told) => {
            logger.wish.layout.get_or_insert_with(|| told.layout.clone());
            (logger.told, logger.trouble) = (Some((*told).into()), None);
        }
        Err(note) => logger.trouble = Some(note),
    }
    Vec::new()
}

/// Takes its warmth into the open pot, and some of its pH as readings if asked.
pub fn take(state: &mut State, with_ph: bool) -> Vec<Effect> {
    let batches = &mut state.batches;
    let (Some(open), Some(logger)) = (&batches.open, &batches.logger) else { return Vec::new() };
    let Some(told) = &logger.told else { return Vec::new() };
    let name = logger.path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let mut changes = Vec::new();
    if !told.course.is_empty() {
        // A file holds so many points and no more: every peak stays.
        let course = thin(&told.course, MOST_LOGGED).into_iter().map(|(at_h, c)| Reading { at_h, c });
        let logged = Logged { file: name.clone(), course: course.collect() };
        changes.push(BatchChange::Logged(Some(Box::new(logged))));
    }
    if with_ph {
        let mut next_h = 0.0;
        let mut readings = Vec::new();
        for (at_h, ph) in told.ph.iter().filter(|(at_h, _)| *at_h >= 0.0) {
            if *at_h + 1e-9 >= next_h {
                next_h = at_h + PH_EVERY_H;
                let note = format!("from {name}");
                readings.push(BatchReading { note, ..BatchReading::new(*at_h, Observed::Ph(*ph)) });
            }
        }
        changes.push(BatchChange::Add(readings));
    }
    let change = BookChange::Change(open.file.clone(), changes);
    (batches.logger, batches.page) = (None, BatchesPage::Pot);
    vec![DiskEffect::Book(change).into()]
}
