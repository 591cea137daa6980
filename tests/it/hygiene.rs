//! Hygiene: dangerous and harmless plans against the table of cautions (`model.md` §7), row by row.

mod plans;
pub mod random;

use plans::{Plan, dangerous, harmless};
use potset_doc::{Learnt, assets};
use potset_forecast::scenario::Scenario;
use potset_judge::hygiene::{Level, Row, judge};
use potset_judge::judging;
use potset_report::hygiene::{NOTHING_KNOWN, headline};

/// What the judge says first of a plan, and the first line of the verdict.
fn judged(plan: &Plan) -> (Option<(Level, Row)>, String, String) {
    let pantry = assets::pantry().unwrap();
    let learnt = Learnt::default();
    let scenario =
        Scenario { design: &plan.design, pantry: &pantry, kitchen: &plan.kitchen, learnt: &learnt };
    let run = scenario.run().unwrap_or_else(|notes| panic!("{}: {notes:?}", plan.name));
    let first = judge(&run).findings.first().map(|f| (f.level, f.row));
    let all = judge(&run)
        .findings
        .iter()
        .map(|f| format!("{:?} {:?} {:.1}", f.level, f.row, f.from_h))
        .collect::<Vec<_>>();
    let all = format!("{all:?} pH {:.2}", run.forecast.value(&run.forecast.ph, run.mix.stop_h));
    (first, headline(&judging::judge(&scenario, &run)), all)
}

#[test]
fn dangerous_plans_are_told_by_the_right_row_first() {
    let plans = dangerous();
    assert!(plans.len() >= 80, "{} plans", plans.len());
    let mut wrong = Vec::new();
    for plan in &plans {
        let (first, headline, all) = judged(plan);
        let begins = match plan.expect {
            Some((Level::Discard, _)) => "Throw it away: ",
            Some((Level::Watch, _)) => "Watch: ",
            None => NOTHING_KNOWN,
        };
        if first != plan.expect || !headline.starts_with(begins) {
            wrong.push(format!("{}: {first:?} instead of {:?}, “{headline}”; {all}", plan.name, plan.expect));
        }
    }
    assert!(wrong.is_empty(), "{} of {} are wrong:\n{}", wrong.len(), plans.len(), wrong.join("\n"));
}

#[test]
fn nothing_is_said_against_harmless_plans() {
    let plans = harmless();
    assert!(plans.len() >= 20, "{} plans", plans.len());
    let told: Vec<String> = plans
        .iter()
        .map(|plan| (plan, judged(plan)))
        .filter(|(_, (first, headline, _))| first.is_some() || headline != NOTHING_KNOWN)
        .map(|(plan, (first, _, all))| format!("{}: {first:?}; {all}", plan.name))
        .collect();
    assert!(told.is_empty(), "{}", told.join("\n"));
}
