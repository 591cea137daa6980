//! A logger's file: read, its columns guessed or as they were corrected, and its course by the clock of the open pot.

use std::path::PathBuf;
use std::sync::Arc;

use super::super::{At, Job, Key, Step};
use super::broken;
use crate::batches::{LoggerTold, LoggerWish};
use crate::command::{BatchesCommand, Command};
use potset_base::Note;
use potset_base::clock::Zone;
use potset_doc::Batch;
use potset_doc::batch::check::LONGEST_DAYS;
use potset_logger::{Begin, Layout, course, guess, ph_course, preview, read, thin};
use potset_store::files;

/// Points that are drawn in the preview.
const DRAWN: usize = 800;

/// Reads a logger's file.
pub struct LoggerJob {
    pub number: u64,
    pub path: PathBuf,
    /// What was read of it before: columns are corrected on the same file.
    pub bytes: Option<Arc<Vec<u8>>>,
    pub wish: LoggerWish,
    /// The open pot.
    pub batch: Option<Arc<Batch>>,
    /// Of the logger's clock: this kitchen's.
    pub zone: Zone,
}

impl LoggerJob {
    fn told(&self) -> Result<Box<LoggerTold>, Note> {
        let bytes = match &self.bytes {
            Some(bytes) => bytes.clone(),
            None => Arc::new(files::bytes(&self.path)?),
        };
        let layout: Layout = match &self.wish.layout {
            Some(layout) => layout.clone(),
            None => guess(&bytes).map_err(|note| files::named(&self.path, note))?,
        };
        let rows = read(&bytes, &layout, &self.zone);
        let mut told = LoggerTold {
            preview: preview(&bytes, &layout),
            bytes,
            layout,
            rows,
            course: Vec::new(),
            drawn: Vec::new(),
            ph: Vec::new(),
            beyond: 0,
        };
        if let Ok(rows) = &told.rows {
            let start = self.batch.as_ref().and_then(|batch| Some((batch.start()?, batch.clock())));
            let begin = match (self.wish.begins_h, &start) {
                (Some(hours), _) => Begin::Zero(hours),
                (None, Some((start, zone))) => Begin::At(*start, zone),
                (None, None) => Begin::Zero(0.0),
            };
            let near = |at_h: f64| (-24.0..=24.0 * LONGEST_DAYS).contains(&at_h);
            let mut all = course(rows, begin, self.wish.keep_spikes);
            let count = all.len();
            all.retain(|(at_h, _)| near(*at_h));
            told.beyond = count - all.len();
            told.ph = ph_course(rows, begin);
            told.ph.retain(|(at_h, _)| near(*at_h));
            told.drawn = thin(&all, DRAWN);
            told.course = all;
        }
        Ok(Box::new(told))
    }
}

impl Job for LoggerJob {
    fn key(&self) -> Key {
        Key::Logger
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        Step::done(BatchesCommand::LoggerRead(self.number, self.told()).into())
    }

    fn fault(&self) -> Command {
        BatchesCommand::LoggerRead(self.number, Err(broken("Reading the logger's file"))).into()
    }
}
