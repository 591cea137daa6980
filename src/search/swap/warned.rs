//! What thickeners are warned of after a swap.

use potset_forecast::scenario::{Run, Scenario};
use potset_judge::advice::Advice;
use potset_judge::thickeners;
use potset_judge::thickeners::lower;

/// What thickeners are warned of after a swap and were not before.
pub fn warnings(scenario: &Scenario<'_>, run: &Run, new_ask: &Scenario<'_>, new_run: &Run) -> Vec<Advice> {
    let told = |scenario: &Scenario<'_>, run: &Run| {
        let mut all = Vec::new();
        thickeners::advice(scenario, run, &mut all);
        all
    };
    let before = told(scenario, run);
    let mut new = told(new_ask, new_run);
    new.retain(|a| before.iter().all(|b| b.note.title != a.note.title));
    new
}

/// A warning and its mend as one sentence.
pub fn warned(advice: &Advice) -> String {
    let mend = advice.mend.as_ref().map_or_else(String::new, |m| format!(". Mend: {}", lower(&m.label)));
    format!("{}: {}{mend}", advice.note.title, lower(advice.note.sentence.trim_end_matches('.')))
}
