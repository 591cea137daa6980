//! A search of Aim, in slices, with a picture of it now and then.

use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::aims::TargetResult;
use crate::command::{AimCommand, Command};
use potset_base::Note;
use potset_forecast::scenario::OwnedScenario;
use potset_science::Forecast;
use potset_search::aim::{AimAsk, Gives, TargetSearch, Want};

/// Pieces of work between two looks at whether something else is asked: one for each of two cores.
const SLICE: usize = 2;

/// Share of the whole between two pictures.
const PICTURE: f64 = 0.04;

/// A search under way.
pub struct AimJob {
    number: u64,
    scenario: OwnedScenario,
    aimer: TargetSearch,
    wants: Vec<Want>,
    now: Option<Gives>,
    pictured: f64,
    shown: usize,
}

impl AimJob {
    /// A search with nothing worked out.
    pub fn new(number: u64, scenario: OwnedScenario, ask: AimAsk) -> Self {
        let wants = ask.wants.clone();
        Self { number, scenario, wants, aimer: TargetSearch::new(ask), now: None, pictured: -1.0, shown: 0 }
    }

    /// What was found so far, if it is time to show it.
    fn picture(&mut self, now: Gives, more: bool) -> Option<Command> {
        let found = self.aimer.found();
        let due = !more || found.share >= self.pictured + PICTURE || found.proposals.len() != self.shown;
        if !due {
            return None;
        }
        self.pictured = found.share;
        self.shown = found.proposals.len();
        let forecast = |design| -> Forecast {
            self.scenario.of(design).run().map(|run| run.forecast).unwrap_or_default()
        };
        let nearest = found.blocked.as_ref().and_then(|b| b.nearest.as_ref());
        let forecasts = found.proposals.iter().chain(nearest).map(|p| forecast(&p.design)).collect();
        let aimed = TargetResult { found: found.clone(), now, forecasts };
        Some(AimCommand::Aimed(self.number, Arc::new(aimed)).into())
    }

    fn failed(&self, note: Note) -> Command {
        AimCommand::Failed(self.number, note).into()
    }
}

impl Job for AimJob {
    fn key(&self) -> Key {
        Key::Aim
    }

    fn step(mut self: Box<Self>, _: &mut At<'_>) -> Step {
        let ask = self.scenario.scenario();
        let now = match self.now {
            Some(now) => now,
            None => match ask.run() {
                Ok(run) => Gives::of_wants(&ask, &run, &self.wants),
                Err(notes) => {
                    let note = notes.into_iter().next().unwrap_or_else(broken);
                    return Step::done(self.failed(note));
                }
            },
        };
        self.now = Some(now);
        let more = self.aimer.next(&ask, SLICE);
        let result = self.picture(now, more);
        Step { result, ..if more { Step::more(*self) } else { Step::default() } }
    }

    fn fault(&self) -> Command {
        self.failed(broken())
    }
}

fn broken() -> Note {
    fault("Aim", "Finding a setting", "Ask for something else")
}
