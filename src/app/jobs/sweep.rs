//! A sweep of the design on the bench, some points at a time.

use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::command::{Command, SweepCommand};
use crate::sweeps::Swept;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::OwnedScenario;
use potset_report::sweep::goal_levels;
use potset_search::sweep::{SweepAsk, Sweeper};

/// Points that are worked out before anything else is looked at: some ten milliseconds.
const CHUNK: usize = 64;

/// Points between two pictures, once the coarse one is there.
const PICTURE: usize = 256;

/// Values at which something changes for the maker, of each outcome that can be shown.
type Levels = Vec<(Observable, Vec<(f64, String)>)>;

/// A sweep under way.
pub struct SweepJob {
    number: u64,
    scenario: OwnedScenario,
    ask: SweepAsk,
    /// Nothing of it is worked out yet.
    begun: Option<(Sweeper, Levels)>,
    pictured: usize,
}

impl SweepJob {
    /// A sweep with nothing worked out.
    pub const fn new(number: u64, scenario: OwnedScenario, ask: SweepAsk) -> Self {
        Self { number, scenario, ask, begun: None, pictured: 0 }
    }

    fn levels(&self) -> Levels {
        let ask = self.scenario.scenario();
        let Ok(run) = ask.run() else { return Vec::new() };
        Observable::SWEPT
            .into_iter()
            .map(|outcome| (outcome, goal_levels(outcome, &ask, &run, &self.ask)))
            .collect()
    }
}

impl Job for SweepJob {
    fn key(&self) -> Key {
        Key::Sweep
    }

    fn step(mut self: Box<Self>, _: &mut At<'_>) -> Step {
        let begun = self.begun.take();
        let (mut sweeper, levels) = begun.unwrap_or_else(|| (Sweeper::new(self.ask.clone()), self.levels()));
        let more = sweeper.next(&self.scenario.scenario(), CHUNK);
        let done = sweeper.sweep().done;
        let due = self.pictured == 0 || done >= self.pictured + PICTURE || !more;
        let result = due.then(|| {
            self.pictured = done;
            let swept = Swept { sweep: sweeper.sweep().clone(), levels: levels.clone() };
            SweepCommand::Swept(self.number, Arc::new(swept)).into()
        });
        self.begun = Some((sweeper, levels));
        Step { result, ..if more { Step::more(*self) } else { Step::default() } }
    }

    fn fault(&self) -> Command {
        SweepCommand::Failed(self.number, fault("Sweep", "The sweep", "Pick another lever or span")).into()
    }
}
