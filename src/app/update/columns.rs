//! The question that the columns of Beside put.

use std::sync::Arc;

use crate::effect::Effect;
use crate::jobs::beside::{BesideJob, Columns};
use crate::state::State;

/// A new question about the columns.
pub fn ask_beside(state: &mut State) -> Vec<Effect> {
    state.columns.question += 1;
    let columns = &state.columns;
    let mut designs: Vec<_> = columns.list.iter().map(|c| state.column_design(&c.holds)).collect();
    // They are compared with the common stop line where there is one.
    if let Some(hours) = columns.common_stop {
        for design in &mut designs {
            if let Some(hold) = Arc::make_mut(design).hold_mut() {
                hold.hours = hours;
            }
        }
    }
    vec![Effect::work(BesideJob(Columns {
        number: columns.question,
        ids: columns.list.iter().map(|c| c.id).collect(),
        designs,
        scenario: state.owned_scenario(),
    }))]
}
