//! A pot begun from a design as it is now, with its plan by the clock; and the demo pots.

use std::sync::Arc;

use super::super::{At, Job, Key, Step};
use super::broken;
use crate::book::UnderWay;
use crate::command::{BatchesCommand, Command};
use potset_base::Note;
use potset_base::clock::{Moment, Zone};
use potset_doc::batch::known::{BatchSummary, KnownBatch};
use potset_doc::{Batch, assets, format};
use potset_forecast::scenario::OwnedScenario;
use potset_judge::answer::answer;
use potset_make::clock::{culture_in, shift};
use potset_report::batch::begun;
use potset_report::card::CardAsk;
use potset_store::book::Listed;
use potset_store::library::Library;

/// What a pot is begun from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Begins {
    Bench,
    /// A house recipe by its file.
    Recipe(Library, String),
}

/// Begins a pot: the culture goes in as the design plans it, else now.
pub struct BeginJob {
    pub scenario: OwnedScenario,
    pub from: Begins,
    pub zone: Zone,
    pub now: Option<Moment>,
}

impl BeginJob {
    fn begun(&self) -> Result<Box<Batch>, Note> {
        let design = match &self.from {
            Begins::Bench => self.scenario.design.clone(),
            Begins::Recipe(library, file) => Arc::new(library.read(file)?),
        };
        let scenario = self.scenario.of(&design);
        let mut answer = answer(&scenario);
        if !answer.errors.is_empty() {
            return Err(answer.errors.remove(0));
        }
        let ask = CardAsk { scenario: &scenario, answer: &answer, ready: None, watch: None, version: None };
        let zone = Some(&self.zone);
        // A plan of another day says nothing about this pot.
        let planned = culture_in(&design, None, zone);
        let over = |at: &Moment| self.now.is_some_and(|now| shift(*at, answer.verdict.stop_h, zone) < now);
        let from = planned.filter(|at| !over(at)).or(self.now);
        Ok(Box::new(begun(&ask, from, &self.zone)))
    }
}

impl Job for BeginJob {
    fn key(&self) -> Key {
        Key::BeginBatch
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        Step::done(BatchesCommand::Begun(self.begun()).into())
    }

    fn fault(&self) -> Command {
        BatchesCommand::Begun(Err(broken("Beginning the pot"))).into()
    }
}

/// The demo pots as a book of their own, for pictures: the list, and those under way.
///
/// # Errors
/// As [`demos`].
pub fn demo_book() -> Result<(Listed, Vec<UnderWay>), Note> {
    let mut all = demos(None, &Zone::default())?;
    all.reverse();
    let (mut listed, mut running) = (Listed::default(), Vec::new());
    for (k, batch) in all.into_iter().enumerate() {
        let file = format!("pot-{k}.ron");
        listed.all.push(KnownBatch { file: file.clone(), stamp: 0, summary: BatchSummary::of(&batch) });
        if batch.running() {
            running.push(UnderWay { file, batch: Arc::new(batch) });
        }
    }
    Ok((listed, running))
}

/// How long ago the demo pot under way was begun, h.
const DEMO_H: f64 = 11.0;

/// The demo pots, moved to these days: the one under way began some hours ago.
///
/// # Errors
/// A note if a file in the program was damaged when it was built; a test keeps this from happening.
pub fn demos(now: Option<Moment>, zone: &Zone) -> Result<Vec<Batch>, Note> {
    let all: Result<Vec<Batch>, Note> =
        assets::DEMO_BATCHES.iter().map(|(_, text)| format::read_batch(text.as_bytes())).collect();
    let mut all = all?;
    let last = all.iter().find(|pot| pot.running()).and_then(Batch::start);
    if let (Some(now), Some(last)) = (now, last) {
        let later = shift(now, -DEMO_H, Some(zone)).hours_since(last);
        for pot in &mut all {
            if let Some(start) = pot.start() {
                pot.culture_in = start.after(later).text();
                zone.name().clone_into(&mut pot.zone);
            }
        }
    }
    Ok(all)
}
