//! What is warned of after a swap.

use potset_base::Severity;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::advice::{Advice, Matter};
use potset_judge::judging::judge;
use potset_judge::thickeners;
use std::mem::discriminant;

/// What thickeners are warned of after a swap and were not before.
pub fn warnings(scenario: &Scenario<'_>, run: &Run, new_ask: &Scenario<'_>, new_run: &Run) -> Vec<Advice> {
    added(&thickeners::advice(scenario, run), thickeners::advice(new_ask, new_run))
}

/// What the whole pot is warned of after a swap and was not before, the gravest first; hints are left out.
pub fn cautions(scenario: &Scenario<'_>, run: &Run, new_ask: &Scenario<'_>, new_run: &Run) -> Vec<Advice> {
    let [before, mut new] = [(scenario, run), (new_ask, new_run)].map(|(ask, run)| {
        let verdict = judge(ask, run);
        verdict.against.into_iter().chain(verdict.advice).collect::<Vec<_>>()
    });
    new.retain(|a| a.severity >= Severity::Watch);
    added(&before, new)
}

fn added(before: &[Advice], mut new: Vec<Advice>) -> Vec<Advice> {
    new.retain(|a| before.iter().all(|b| !alike(&a.what, &b.what)));
    new
}

/// Whether two warnings are of one thickener, and of the same sort.
fn alike(a: &Matter, b: &Matter) -> bool {
    match (a, b) {
        (Matter::Thickener((a, fails)), Matter::Thickener((b, other))) => {
            a == b && discriminant(fails) == discriminant(other)
        }
        (Matter::Hygiene(a), Matter::Hygiene(b)) => a.finding.row == b.finding.row,
        (Matter::Making(a), Matter::Making(b)) => discriminant(a) == discriminant(b),
        (Matter::Splits(a), Matter::Splits(b)) => discriminant(a) == discriminant(b),
        (Matter::Besides(a), Matter::Besides(b)) => discriminant(a) == discriminant(b),
        (Matter::Here(a), Matter::Here(b)) => discriminant(a) == discriminant(b),
        (Matter::Told(a), Matter::Told(b)) => a.title == b.title,
        _ => discriminant(a) == discriminant(b),
    }
}
