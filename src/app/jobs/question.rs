//! What the design on the bench is asked.

use crate::state::State;
use potset_forecast::scenario::OwnedScenario;
use potset_judge::next_pots::LineAsk;

/// One question about the design on the bench.
#[derive(Clone, Debug)]
pub struct Question {
    pub number: u64,
    pub scenario: OwnedScenario,
    /// The line of pots to follow, if the screen shows one.
    pub line: Option<LineAsk>,
}

impl Question {
    /// The question that the design on the bench puts now.
    pub fn of(state: &State) -> Self {
        Self { number: state.question, scenario: state.owned_scenario(), line: state.asked_line() }
    }
}
