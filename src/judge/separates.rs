//! A pot that splits: a thin layer below, with what mends it.

use crate::advice::{Advice, Splits};
use crate::mends::{How, Mend};
use crate::verdict::Verdict;
use potset_base::Severity;
use potset_doc::Edit;
use potset_doc::edit::LineKind;
use potset_doc::pantry::{Action, Thickener};
use potset_doc::steps::{Event, Happening, Step};
use potset_forecast::observable::{Observable, Step as Noticed};
use potset_forecast::scenario::{Run, Scenario};

/// Cold-swelling starch that a mend tries, g/L: the usual doses. Source: common practice.
const DOSES: [f64; 4] = [7.0, 10.0, 14.0, 20.0];

/// The thickener that a mend adds where there is none.
const THICKENER: &str = "tapioca_starch_cold";

/// How long before the stop a pot is stirred, h. Source: assumed.
const BEFORE_STOP_H: f64 = 0.25;

/// Adds what is worth telling of a pot that splits.
pub fn advice(scenario: &Scenario<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let Some(texture) = &verdict.texture else { return };
    let Noticed::By(least) = Observable::ThinLayer.step() else { return };
    if texture.thin_layer < least {
        return;
    }
    let in_the_hold = texture.thin_in_pot >= 0.5 * texture.thin_layer;
    let splits = Splits::Layer { percent: texture.thin_layer, in_the_hold };
    all.push(Advice::new(Severity::Watch, "bases", splits, thicken(scenario, least)));
    if texture.thin_in_pot >= least
        && let Some(mend) = stir(scenario, run, texture.thin_layer)
    {
        all.push(Advice::new(Severity::Tip, "hold", Splits::StirringMixes, Some(mend)));
    }
}

/// The smallest usual dose of a cold-swelling starch that leaves no thin layer to be seen, if one does.
fn thicken(scenario: &Scenario<'_>, least: f64) -> Option<Mend> {
    let starch = |key: &str| {
        let entry = scenario.design.entry::<Thickener>(scenario.pantry, key)?;
        matches!(entry.action, Action::ColdStarch { .. }).then(|| entry.name.clone())
    };
    let there = scenario
        .design
        .thickeners
        .iter()
        .enumerate()
        .find_map(|(i, line)| starch(&line.entry).map(|name| (i, line.g_per_l, name)));
    let name = there.as_ref().map_or_else(|| starch(THICKENER), |(.., name)| Some(name.clone()))?;
    DOSES.into_iter().filter(|dose| there.as_ref().is_none_or(|(_, now, _)| dose > now)).find_map(|dose| {
        let edit = match &there {
            Some((i, ..)) => Edit::ThickenerDose(*i, dose),
            None => Edit::Add(LineKind::Thickeners, THICKENER.to_owned(), dose),
        };
        let layer = scenario.with(&edit).and_then(|new| layer(&new))?;
        let how = if there.is_some() { How::RaiseThickener } else { How::Thicken };
        (layer < least).then(|| Mend::new(how(dose, name.clone()), edit))
    })
}

/// Stirring shortly before the stop, if it leaves less than half of the layer.
fn stir(scenario: &Scenario<'_>, run: &Run, now: f64) -> Option<Mend> {
    let at_h = run.mix.stop_h - BEFORE_STOP_H;
    if at_h <= 0.0 {
        return None;
    }
    let mut steps = scenario.design.steps.clone();
    let hold = steps.iter_mut().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })?;
    hold.events.push(Event { at_h, what: Happening::Stir });
    let edit = Edit::Steps(steps);
    let then = scenario.with(&edit).and_then(|new| layer(&new))?;
    (then < 0.5 * now).then(|| Mend::new(How::StirOnce, edit))
}

/// Thin layer of a run after its chill, % of the pot.
fn layer(run: &Run) -> Option<f64> {
    run.forecast.textures(run.mix.stop_h).map(|(_, chilled)| chilled.thin_layer)
}
