//! Random designs: nothing is ready at or after a discard, and no mend leads to one.

use potset_doc::steps::{Step, Way};
use potset_doc::{Design, Kitchen, Learnt};
use potset_doubt::spread::Sampler;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_judge::hygiene::{Level, NotYogurt, judge, mends};
use potset_judge::readiness;
use potset_judge::readiness::goals_with;
use potset_judge::ready::HORIZON_H;
use potset_report::hygiene::{NOTHING_KNOWN, headline};
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;

use crate::properties::{check, design};
use crate::support::shipped;

const CASES: u32 = 1000;
/// Possible pots of each.
const POTS: usize = 4;

/// A design with faults put in: it stands, its chill or store is otherwise, its goals are mild.
pub fn faulty() -> impl Strategy<Value = Design> {
    let stand = proptest::option::of(0.0..30.0_f64);
    let store = proptest::option::of((0.1..30.0_f64, 1.0..40.0_f64));
    (design(), stand, any::<bool>(), store, proptest::option::of(3.8..7.0_f64), any::<bool>()).prop_map(
        |(mut design, stand, chilled, store, ph, frail)| {
            if let Some(hours) = stand {
                design.steps.insert(1, Step::Stand { hours, way: Way::Room });
            }
            design.steps.retain(|s| match s {
                Step::Chill { .. } => chilled,
                Step::Store { .. } => false,
                _ => true,
            });
            design.steps.extend(store.map(|(days, at_c)| Step::Store { days, at_c }));
            (design.goals.ph_at_most, design.goals.frail_eaters) = (ph, frail);
            (design.goals.texture, design.goals.tang, design.goals.whey_at_most) = (None, None, None);
            design
        },
    )
}

/// When a run is first ready, and when it is lost.
fn first_ready(scenario: &Scenario<'_>, run: &potset_forecast::scenario::Run) -> (Option<f64>, Option<f64>) {
    let judged = judge(run);
    let goals = goals_with(scenario, run, &judged);
    let all: Vec<usize> = (0..run.forecast.t.len()).collect();
    (readiness::first(&run.forecast.t, &goals, &all), judged.lost_h)
}

fn holds(scenario: &Scenario<'_>, run: &potset_forecast::scenario::Run) -> Result<(), TestCaseError> {
    let release = readiness::release_of(scenario, run);
    let (ready, lost) = first_ready(scenario, run);
    let Some(ready) = ready else { return Ok(()) };
    prop_assert!(lost.is_none_or(|lost| ready < lost), "ready at {ready} h, lost at {lost:?}");
    let ph = run.forecast.value(&run.forecast.ph, ready);
    prop_assert!(ph <= 4.6 + 0.02 && release.ph <= 4.6, "ready at pH {ph}, release {release:?}");
    let by_culture = judge(run).not_yogurt;
    let never = [NotYogurt::NoCulture, NotYogurt::Killed, NotYogurt::SouredByHand];
    prop_assert!(by_culture.is_none_or(|not| !never.contains(&not)), "ready, but {by_culture:?}");
    Ok(())
}

#[test]
fn nothing_is_ready_at_or_after_a_discard() {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    check(CASES, &faulty(), |design| {
        let scenario = Scenario { design: &design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
        let Ok(run) = scenario.run_to(HORIZON_H) else { return Err(TestCaseError::reject("no forecast")) };
        holds(&scenario, &run)?;
        let Ok(sampler) = Sampler::looking_to(&scenario, 1, POTS, HORIZON_H) else { return Ok(()) };
        for pot in sampler.each(0..POTS, |scenario, run| holds(scenario, &run)).into_iter().flatten() {
            pot?;
        }
        Ok(())
    });
}

#[test]
fn no_mend_leads_to_a_discard_and_the_first_line_says_what_is_worst() {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    check(CASES / 10, &faulty(), |design| {
        let scenario = Scenario { design: &design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
        let answer = answer(&scenario);
        if !answer.errors.is_empty() {
            return Err(TestCaseError::reject("no forecast"));
        }
        let v = &answer.verdict;
        for advice in v.against.iter().chain(&v.advice) {
            if let Some(mend) = &advice.mend {
                prop_assert!(
                    !mends::leads_to_discard(&scenario, &mend.edit()),
                    "{:?} -> {:?}",
                    advice.what,
                    mend.how
                );
            }
        }
        let begins = match v.hygiene.level() {
            Some(Level::Discard) => "Throw it away: ",
            Some(Level::Watch) => "Watch: ",
            None => NOTHING_KNOWN,
        };
        let headline = headline(v);
        prop_assert!(headline.starts_with(begins), "{headline}");
        // A pot that is not yogurt has no word of tang and no forecast in the cold.
        if v.hygiene.not_yogurt.is_some() {
            prop_assert!(v.keeping.is_none() && v.tang.as_ref().is_none_or(|t| t.word.is_none()));
        }
        Ok(())
    });
}
