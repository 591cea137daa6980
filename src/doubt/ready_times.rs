//! The ready time of a design, from its possible pots.

use std::collections::VecDeque;

use crate::spread::{POTS, SEED, Spread, Spreader};
use potset_base::Note;
use potset_base::chance::Chance;
use potset_doc::{Design, Kitchen, Learnt};
use potset_forecast::scenario::Scenario;
use potset_judge::ready::{HORIZON_H, ReadyTime};

/// The ready time of a design, from as many possible pots as every view and command uses.
///
/// # Errors
/// Why there is no forecast.
pub fn of(scenario: &Scenario<'_>) -> Result<ReadyTime, Vec<Note>> {
    spread(scenario).map(|spread| spread.ready)
}

/// As many possible pots of a design as every view and command uses.
///
/// # Errors
/// Why there is no forecast.
pub fn spread(scenario: &Scenario<'_>) -> Result<Spread, Vec<Note>> {
    let mut spreader = Spreader::new(scenario, SEED, POTS)?;
    while spreader.more(POTS) {}
    Ok(spreader.spread())
}

/// The last ready times: the same question has the same answer, and the stop alone is moved often.
#[derive(Clone, Default)]
pub struct Known(VecDeque<(Key, ReadyTime)>);

/// How many answers are kept.
const KEPT: usize = 16;

impl Known {
    /// When a design is ready, whatever its stop: the same answer as [`of`], without what is said of the stop.
    ///
    /// # Errors
    /// Why there is no forecast.
    pub fn when(&mut self, scenario: &Scenario<'_>) -> Result<ReadyTime, Vec<Note>> {
        let key = Key::of(scenario);
        if let Some((_, known)) = self.0.iter().find(|(k, _)| *k == key) {
            return Ok(known.clone());
        }
        let ready = ReadyTime { stop: None, at_stop: Chance::default(), stop_h: 0.0, ..of(scenario)? };
        self.0.push_front((key, ready.clone()));
        self.0.truncate(KEPT);
        Ok(ready)
    }
}

/// All that a ready time hangs on.
#[derive(Clone, PartialEq)]
struct Key {
    /// With the entries that it uses, and its stop taken off.
    design: Design,
    kitchen: Kitchen,
    learnt: Learnt,
}

impl Key {
    fn of(scenario: &Scenario<'_>) -> Self {
        let mut design = scenario.design.clone();
        design.refresh_snapshot(scenario.pantry);
        // Up to the common horizon the pots of a design are the same wherever it is stopped.
        if let Some(hold) = design.hold_mut().filter(|hold| hold.hours <= HORIZON_H / 1.25) {
            hold.hours = 0.0;
        }
        Self { design, kitchen: scenario.kitchen.clone(), learnt: scenario.learnt.clone() }
    }
}
