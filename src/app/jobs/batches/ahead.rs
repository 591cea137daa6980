//! The forecast ahead of a pot under way: its possible pots, drawn once, and weighed by each new reading.

use std::sync::Arc;

use super::super::{At, Job, Key, Step};
use super::broken;
use crate::batches::{AheadTold, CloudTold};
use crate::command::{BatchesCommand, Command, WindowCommand};
use potset_doc::Batch;
use potset_doc::kitchen::PhBy;
use potset_forecast::learnt::placed;
use potset_forecast::params;
use potset_forecast::scenario::OwnedScenario;
use potset_learn::{CLOUD_POTS, Cloud, data, next, stop_of};

/// The seed of the possible pots: two windows tell the same of a pot.
const SEED: u64 = 1;

/// Draws the possible pots; weighing them follows.
pub struct CloudJob {
    pub scenario: OwnedScenario,
    pub then: AheadJob,
}

impl Job for CloudJob {
    fn key(&self) -> Key {
        Key::Cloud
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let number = self.then.number;
        match Cloud::new(&self.scenario.scenario(), SEED, CLOUD_POTS) {
            Ok(cloud) => {
                let laws = params::shipped().ok().map(|params| Arc::new(params.laws()));
                let uses = laws.is_some_and(|laws| placed(&self.scenario.scenario(), &laws).is_some());
                let cloud = Arc::new(CloudTold { cloud, uses });
                let done = Step::done(BatchesCommand::Cloud(number, Ok(cloud.clone())).into());
                done.and(AheadJob { cloud: Some(cloud), ..self.then })
            }
            Err(notes) => {
                let why = notes.into_iter().next().unwrap_or_else(|| broken("The forecast ahead"));
                Step::done(BatchesCommand::Cloud(number, Err(why)).into())
            }
        }
    }

    fn fault(&self) -> Command {
        BatchesCommand::Cloud(self.then.number, Err(broken("The forecast ahead"))).into()
    }
}

/// Weighs the possible pots by the readings.
pub struct AheadJob {
    pub number: u64,
    pub cloud: Option<Arc<CloudTold>>,
    pub batch: Arc<Batch>,
    pub now_h: f64,
}

impl AheadJob {
    fn told(&self) -> Option<AheadTold> {
        let (cloud, params) = (&self.cloud.as_ref()?.cloud, params::shipped().ok()?);
        let laws = params.laws();
        let law = &laws.learning;
        let data = data(&self.batch, stop_of(&self.batch), law, &laws.words);
        let ahead = cloud.ahead(&data);
        let own = match self.batch.kitchen.ph_by {
            PhBy::Meter => law.meter_ph,
            PhBy::Strips | PhBy::TasteAndLook => law.strip_ph,
        };
        let next = next(cloud, &ahead, self.now_h.max(0.0), own.hypot(law.law_ph));
        Some(AheadTold { ahead, next, now_h: self.now_h })
    }
}

impl Job for AheadJob {
    fn key(&self) -> Key {
        Key::Ahead
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let told = self.told().map(|told| BatchesCommand::Ahead(self.number, Arc::new(told)).into());
        Step { result: told, then: Vec::new() }
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(broken("The forecast ahead")).into()
    }
}
