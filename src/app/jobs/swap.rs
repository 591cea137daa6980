//! A swap of an entry of the design on the bench.

use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::command::{Command, SweepCommand};
use potset_forecast::scenario::OwnedScenario;
use potset_search::swap::{SwapAsk, swap};

/// A swap to be looked at.
pub struct SwapJob {
    pub number: u64,
    pub scenario: OwnedScenario,
    pub wish: SwapAsk,
}

impl Job for SwapJob {
    fn key(&self) -> Key {
        Key::Swap
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let swapped = swap(&self.scenario.scenario(), &self.wish);
        Step::done(
            SweepCommand::Swapped(
                self.number,
                Arc::new(swapped.map_err(|refused| potset_report::swap::refused(&refused))),
            )
            .into(),
        )
    }

    fn fault(&self) -> Command {
        let note = fault("Swap", "Looking at the swap", "Pick another entry");
        SweepCommand::Swapped(self.number, Arc::new(Err(note))).into()
    }
}
