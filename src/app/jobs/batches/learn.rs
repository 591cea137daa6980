//! What the pots of the book taught, worked out and put into words.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::super::{At, Job, Key, Step};
use super::broken;
use crate::batches::{ChartTold, PotTold, Taught};
use crate::command::{BatchesCommand, Command};
use potset_base::Note;
use potset_base::clock::Moment;
use potset_doc::{Batch, Pantry};
use potset_learn::{BatchResult, apart, charts, learn_while};
use potset_report::learn as say;
use potset_store::book::Book;

/// Learns from all pots that have something to teach. It is given up while something else is asked, and begun again.
pub struct LearnJob {
    pub number: u64,
    pub book: Book,
    pub pantry: Arc<Pantry>,
    pub day: String,
}

impl LearnJob {
    /// The batches with readings or a logger's course, the oldest first, with their files.
    fn batches(&self) -> Result<(Vec<String>, Vec<Batch>), Note> {
        let mut all = self.book.list()?.all;
        all.retain(|k| (k.summary.readings > 0 || k.summary.logged) && !k.summary.culture_in.is_empty());
        all.sort_by(|a, b| {
            let when =
                |k: &potset_doc::batch::known::KnownBatch| (k.summary.culture_in.clone(), k.file.clone());
            when(a).cmp(&when(b))
        });
        let (mut files, mut batches) = (Vec::new(), Vec::new());
        for known in all {
            // A file that cannot be read is told by the list.
            if let Ok(batch) = self.book.read(&known.file) {
                files.push(known.file);
                batches.push(batch);
            }
        }
        Ok((files, batches))
    }

    /// Nothing where it was given up.
    fn taught(&self, at: &mut At<'_>) -> Result<Option<Taught>, Note> {
        Taught::of(self.batches()?, &self.pantry, &self.day, &mut || at.go_on())
    }
}

impl Taught {
    /// What batches taught, in words; nothing where `go_on` says no meanwhile.
    ///
    /// - `pots` — their files and the batches, the oldest first.
    ///
    /// # Errors
    /// A note if the shipped parameters were damaged.
    pub fn of(
        pots: (Vec<String>, Vec<Batch>),
        pantry: &Arc<Pantry>,
        day: &str,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Result<Option<Self>, Note> {
        let (files, batches) = pots;
        let Some(learning) = learn_while(&batches, pantry, day, go_on)? else { return Ok(None) };
        let pots = learning.pots.iter().map(|pot| told(pot, &files, &batches, pantry)).collect();
        let charts = charts(&batches, &learning, pantry).into_iter().map(|chart| {
            let sentence = say::drift(&chart, &batches, pantry);
            let names = chart.points.iter().map(|point| batches[point.batch].name.clone()).collect();
            ChartTold { chart, sentence, names }
        });
        let charts = charts.collect();
        let lines = say::lines(&learning, &batches, pantry);
        Ok(Some(Self { summary: say::summary(&learning), lines, pots, charts, learning }))
    }
}

/// One pot in words.
fn told(pot: &BatchResult, files: &[String], batches: &[Batch], pantry: &Pantry) -> PotTold {
    let batch = &batches[pot.batch];
    let pairs = pot.fitted.as_ref().map(|fitted| apart(&pot.subjects, fitted)).unwrap_or_default();
    // The same two may be found under several names.
    let mut said: BTreeMap<String, ()> = BTreeMap::new();
    let apart: Vec<String> = pairs
        .iter()
        .map(|pair| say::pair(pair, batches, pantry))
        .filter(|words| said.insert(words.clone(), ()).is_none())
        .collect();
    PotTold {
        file: files[pot.batch].clone(),
        name: batch.name.clone(),
        when: batch.start().map_or_else(String::new, Moment::date_and_time),
        says: say::pot(pot, batches, pantry),
        aside: say::outliers(pot, batch),
        apart,
        hours: say::hours(pot),
        why_not: pot.why_not.iter().map(Note::line).collect(),
    }
}

impl Job for LearnJob {
    fn key(&self) -> Key {
        Key::Learn
    }

    fn step(self: Box<Self>, at: &mut At<'_>) -> Step {
        match self.taught(at) {
            Ok(Some(taught)) => Step::done(BatchesCommand::Learnt(self.number, Ok(Arc::new(taught))).into()),
            Ok(None) => Step::more(*self),
            Err(note) => Step::done(BatchesCommand::Learnt(self.number, Err(note)).into()),
        }
    }

    fn fault(&self) -> Command {
        BatchesCommand::Learnt(self.number, Err(broken("Learning from the pots"))).into()
    }
}
