//! A label to be read.

use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::command::{Command, PantryCommand};
use potset_catalogue::label::study;
use potset_doc::label;
use potset_forecast::scenario::OwnedScenario;

/// Reads a label, and finds out what it means for a base.
pub struct LabelJob {
    pub number: u64,
    pub text: String,
    pub scenario: OwnedScenario,
}

impl Job for LabelJob {
    fn key(&self) -> Key {
        Key::Label
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let OwnedScenario { pantry, kitchen, learnt, .. } = &self.scenario;
        let reading = label::read(&self.text);
        let study = study(&reading, pantry, kitchen, learnt);
        Step::done(PantryCommand::LabelRead(self.number, Ok(Arc::new((reading, study)))).into())
    }

    fn fault(&self) -> Command {
        let note = fault("Label", "Reading the label", "Remove the words that you added last");
        PantryCommand::LabelRead(self.number, Err(note)).into()
    }
}
