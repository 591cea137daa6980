//! Advice on thickeners: what each needs, what it gets, and the plan that mends it.

use crate::advice::{Advice, Fails};
use crate::mends::{self, How, Mend};
use potset_base::Severity;
use potset_doc::Edit;
use potset_doc::pantry::{Action, Thickener};
use potset_forecast::scenario::{Run, Scenario};

/// Thickeners that do not work as they go in, each with its mend.
pub fn advice(scenario: &Scenario<'_>, run: &Run) -> Vec<Advice> {
    let lines = scenario.design.thickeners.iter().zip(&run.facts.thickeners).enumerate();
    let told = lines.filter_map(|(i, (line, state))| {
        let entry = scenario
            .design
            .entry::<Thickener>(scenario.pantry, &line.entry)
            .filter(|_| line.g_per_l > 0.0)?;
        let share = state.state.share;
        let (severity, fails, mend) = match &entry.action {
            Action::ColdStarch { .. } if !line.mixed_first && entry.lumps.value > 0.0 => {
                let mend = Mend::new(How::MixFirst, Edit::ThickenerMixedFirst(i, true));
                (Severity::Tip, Fails::Clumps(entry.lumps.value), Some(mend))
            }
            Action::CookStarch { onset_c, full_c, .. } if share < 0.5 => {
                let plan = mends::cook(scenario, i, full_c.value.clamp(95.0, 98.0));
                let gain = gain(scenario, run, &plan);
                (Severity::Watch, Fails::Uncooked { onset_c: onset_c.value, share, gain }, Some(plan))
            }
            Action::Gel { dissolve_c, .. } if share < 0.5 => {
                let plan = mends::cook(scenario, i, (dissolve_c.value + 7.0).min(98.0));
                let gain = gain(scenario, run, &plan);
                (
                    Severity::Watch,
                    Fails::Undissolved { dissolve_c: dissolve_c.value, share, gain },
                    Some(plan),
                )
            }
            Action::Gel { set_c, .. } if state.state.broken > 0.25 => {
                let culture_c = run.facts.culture_in_c;
                let mend = Mend::new(How::CultureAt(44.0), Edit::CultureTemperature(44.0));
                let fails = Fails::SetsBefore { set_c: set_c.value, culture_c, broken: state.state.broken };
                (Severity::Watch, fails, Some(mend).filter(|_| culture_c < 43.0))
            }
            _ => return None,
        };
        Some(Advice::new(severity, format!("thickeners[{i}]"), (entry.name.clone(), fails), mend))
    });
    told.collect()
}

/// How many times as thick a mend makes the warm pot.
fn gain(scenario: &Scenario<'_>, run: &Run, plan: &Mend) -> Option<f64> {
    let thick = |run: &Run| run.forecast.value(&run.forecast.warm.viscosity50, run.mix.stop_h);
    scenario.with(&plan.edit()).map(|new| thick(&new) / thick(run))
}
