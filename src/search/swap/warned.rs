//! What thickeners are warned of after a swap.

use potset_forecast::scenario::{Run, Scenario};
use potset_judge::advice::{Advice, Matter};
use potset_judge::thickeners;
use std::mem::discriminant;

/// What thickeners are warned of after a swap and were not before.
pub fn warnings(scenario: &Scenario<'_>, run: &Run, new_ask: &Scenario<'_>, new_run: &Run) -> Vec<Advice> {
    let before = thickeners::advice(scenario, run);
    let mut new = thickeners::advice(new_ask, new_run);
    new.retain(|a| before.iter().all(|b| !alike(&a.what, &b.what)));
    new
}

/// Whether two warnings are of one thickener, and of the same sort.
fn alike(a: &Matter, b: &Matter) -> bool {
    match (a, b) {
        (Matter::Thickener((a, fails)), Matter::Thickener((b, other))) => {
            a == b && discriminant(fails) == discriminant(other)
        }
        _ => a == b,
    }
}
