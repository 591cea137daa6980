//! What thickeners are warned of after a swap.

use potset_base::words::lower;
use potset_forecast::scenario::{Ask, Run};
use potset_judge::advice::Advice;
use potset_judge::thickeners;

/// What thickeners are warned of after a swap and were not before.
pub fn warnings(ask: &Ask<'_>, run: &Run, new_ask: &Ask<'_>, new_run: &Run) -> Vec<Advice> {
    let told = |ask: &Ask<'_>, run: &Run| {
        let mut all = Vec::new();
        thickeners::advice(ask, run, &mut all);
        all
    };
    let before = told(ask, run);
    let mut new = told(new_ask, new_run);
    new.retain(|a| before.iter().all(|b| b.note.title != a.note.title));
    new
}

/// A warning and its mend as one sentence.
pub fn warned(advice: &Advice) -> String {
    let mend = advice.mend.as_ref().map_or_else(String::new, |m| format!(". Mend: {}", lower(&m.label)));
    format!("{}: {}{mend}", advice.note.title, lower(advice.note.sentence.trim_end_matches('.')))
}
