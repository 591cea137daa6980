//! One pot of the book: its file, and its forecast before any reading.

use std::sync::Arc;

use super::super::{At, Job, Key, Step};
use super::broken;
use crate::batches::{Frozen, OpenBatch};
use crate::command::{BatchesCommand, Command};
use potset_base::Note;
use potset_doc::{Batch, Pantry};
use potset_forecast::params;
use potset_learn::{data, scenario_of, stop_of};
use potset_logger::thin;
use potset_store::book::Book;

/// Points of a logger's course that are drawn: about two a point of the chart's width.
const DRAWN: usize = 1200;

/// How far the curve before any reading is followed, h: as far as a pot is looked after.
const SHOWN_H: f64 = 36.0;

/// Opens a pot.
pub struct OpenJob {
    pub file: String,
    pub book: Option<Book>,
    pub pantry: Arc<Pantry>,
    /// The batch where no book is kept.
    pub known: Option<Arc<Batch>>,
}

impl OpenJob {
    fn read(&self) -> Result<Arc<Batch>, Note> {
        match (&self.book, &self.known) {
            (Some(book), _) => book.read(&self.file).map(Arc::new),
            (None, Some(known)) => Ok(known.clone()),
            (None, None) => Err(broken("Opening the pot")),
        }
    }

    fn opened(&self) -> Result<Box<OpenBatch>, Note> {
        Ok(Box::new(OpenBatch::of(self.file.clone(), self.read()?, &self.pantry)))
    }
}

impl OpenBatch {
    /// A batch as its page shows it, with its forecast before any reading.
    pub fn of(file: String, batch: Arc<Batch>, pantry: &Arc<Pantry>) -> Self {
        // As it was planned: neither what the logger told nor when it was really stopped is known before.
        let planned = Batch { logged: None, stopped_h: None, ..(*batch).clone() };
        let run = scenario_of(&planned, pantry).scenario().run_to(SHOWN_H);
        let (frozen, trouble) = match run {
            Ok(run) => {
                let f = run.forecast;
                (Some(Arc::new(Frozen { t: f.t, ph: f.ph, warmth: f.temperature })), None)
            }
            Err(notes) => (None, notes.into_iter().next()),
        };
        let logged = batch.logged.iter().flat_map(|logged| &logged.course);
        let course: Vec<(f64, f64)> = logged.map(|point| (point.at_h, point.c)).collect();
        Self {
            file,
            frozen,
            course: Arc::new(thin(&course, DRAWN)),
            cloud: None,
            ahead: None,
            trouble,
            sigmas: sigmas(&batch),
            batch,
        }
    }
}

/// One sigma of each reading of pH, by its place among the readings.
pub fn sigmas(batch: &Batch) -> Vec<(usize, f64)> {
    let Ok(params) = params::shipped() else { return Vec::new() };
    let laws = params.laws();
    let all = data(batch, stop_of(batch), &laws.learning, &laws.words);
    all.into_iter().map(|datum| (datum.reading, datum.sigma)).collect()
}

impl Job for OpenJob {
    fn key(&self) -> Key {
        Key::OpenBatch
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let read = self.opened();
        Step::done(BatchesCommand::Opened(self.file, read).into())
    }

    fn fault(&self) -> Command {
        BatchesCommand::Opened(self.file.clone(), Err(broken("Opening the pot"))).into()
    }
}
