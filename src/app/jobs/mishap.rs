//! Why a pot went wrong: the causes weighed, the next question, what to do.

use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::command::{Command, MishapCommand};
use crate::mishap::{DRAWN, MishapTold};
use potset_base::{Note, Severity};
use potset_forecast::scenario::OwnedScenario;
use potset_mishap::{Fact, FactKind, Mishap, MishapCase, Symptom};
use potset_report::mishap as say;

/// Weighs what was said of a pot.
pub struct MishapJob {
    pub number: u64,
    pub scenario: OwnedScenario,
    pub saw: Vec<Symptom>,
    pub known: Vec<Fact>,
    pub skipped: Vec<FactKind>,
    /// What was worked out of the same pot before.
    pub before: Option<Arc<Mishap>>,
}

impl MishapJob {
    fn told(&self) -> Result<MishapTold, Note> {
        let (saw, known) = (self.saw.clone(), self.known.clone());
        let mut mishap = match &self.before {
            Some(before) => before.with(saw, known),
            None => {
                let case = MishapCase { scenario: self.scenario.clone(), saw, known };
                Mishap::open(case).map_err(|notes| {
                    let error = notes.into_iter().find(|note| note.severity == Severity::Error);
                    error.unwrap_or_else(broken)
                })?
            }
        };
        mishap.pass(self.skipped.clone());
        let ranking = mishap.rank();
        let what = mishap.what_to_do(&ranking);
        let curve = |cause| {
            let made = mishap.forecasts(cause).then(|| mishap.curves_of(cause).ok());
            made.flatten().map(Arc::new)
        };
        Ok(MishapTold {
            next: mishap.next(&self.skipped),
            planned: Arc::new(mishap.planned().clone()),
            curves: ranking.causes.iter().take(DRAWN).map(curve).collect(),
            read_out: say::read_out(&ranking, &what),
            to_send: say::to_send(&ranking, &what),
            mishap: Arc::new(mishap),
            ranking,
            what,
        })
    }
}

impl Job for MishapJob {
    fn key(&self) -> Key {
        Key::Mishap
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        Step::done(MishapCommand::Told(self.number, self.told().map(Arc::new)).into())
    }

    fn fault(&self) -> Command {
        MishapCommand::Told(self.number, Err(broken())).into()
    }
}

fn broken() -> Note {
    fault("Mishap", "Finding the cause", "Say something else of the pot")
}
