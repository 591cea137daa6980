//! Every cited number that the design on the bench rests on.

use std::sync::Arc;

use super::question::Question;
use super::{At, Job, Key, Step, fault};
use crate::command::{BenchCommand, Command, WindowCommand};
use potset_forecast::numbers::numbers;

/// Lists the numbers.
pub struct NumbersJob(pub Question);

impl Job for NumbersJob {
    fn key(&self) -> Key {
        Key::Numbers
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let scenario = &self.0.scenario;
        let all = numbers(&scenario.design, &scenario.pantry);
        Step::done(BenchCommand::Numbers(self.0.number, Arc::new(all)).into())
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(fault("Numbers", "Listing the numbers", "Undo the last change")).into()
    }
}
