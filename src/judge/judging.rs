//! Judges a run: all that is said of a pot at its stop.

use crate::readiness::{self, goals_with, release_of};
use crate::validity::Validity;
use crate::verdict::{Verdict, sugar, tang, texture, why_tangy, why_thick};
use crate::{advise, hygiene, keeping};
use potset_forecast::scenario::{Run, Scenario};

/// Judges a run at its stop line.
pub fn judge(scenario: &Scenario<'_>, run: &Run) -> Verdict {
    let stop_h = run.mix.stop_h;
    let hygiene = hygiene::judge(run);
    let goals = goals_with(scenario, run, &hygiene);
    let window = readiness::window(&run.forecast.t, &goals, stop_h);
    let yogurt = hygiene.not_yogurt.is_none();
    let mut verdict = Verdict {
        stop_h,
        hygiene,
        against: None,
        texture: texture(run, stop_h),
        tang: tang(run, stop_h, yogurt),
        sugar: Some(sugar(run, stop_h)),
        goals: readiness::holding(&run.forecast.t, &goals, stop_h),
        release: Some(release_of(scenario, run)),
        window,
        keeping: yogurt.then(|| keeping::keeping(run, stop_h, scenario.kitchen.fridge_c)).flatten(),
        advice: Vec::new(),
        validity: Validity::of(run),
        why_thick: why_thick(run, stop_h),
        why_tangy: why_tangy(run, stop_h),
    };
    let mut against = advise::hygiene(scenario, run, &verdict);
    let others = if against.is_empty() { Vec::new() } else { against.split_off(1) };
    verdict.advice = advise::advice(scenario, run, &verdict, others);
    verdict.against = against.pop();
    verdict
}
