//! Mends: edits that a note offers, each a whole plan that is one step of undo.

use potset_doc::design::{GoesIn, Powder};
use potset_doc::edit::LineKind;
use potset_doc::steps::{Step, Way};
use potset_doc::{Design, Edit, culture_in};
use potset_forecast::scenario::{Run, Scenario};
use potset_forecast::timeline::boiling_point;
use potset_numerics::interpolate::first_below;

/// A mend: its words and its edit.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    pub label: String,
    pub edit: Edit,
}

impl Mend {
    /// A mend of one edit.
    pub fn new(label: impl Into<String>, edit: Edit) -> Self {
        let label = label.into();
        Self { edit: Edit::Together(label.clone(), vec![edit]), label }
    }

    fn plan(label: &str, edits: Vec<Edit>) -> Self {
        Self { edit: Edit::Together(label.to_owned(), edits), label: label.to_owned() }
    }
}

/// What a culture is fed with: white sugar.
pub const FOOD: &str = "white_sugar";

/// Feeds the culture: one tablespoon of white sugar per litre. Source: common practice.
pub fn feed(scenario: &Scenario<'_>) -> Mend {
    let white = scenario.design.sugars.iter().position(|s| s.entry == FOOD);
    let edit = white
        .map_or_else(|| Edit::Add(LineKind::Sugars, FOOD.to_owned(), 12.5), |i| Edit::SugarDose(i, 12.5));
    Mend::new("Add 12.5 g/L of white sugar", edit)
}

/// Puts a culture in.
pub fn inoculate(dairy: bool) -> Mend {
    let key = if dairy { "dairy_pair" } else { "nondairy_adjuncts" };
    Mend::new("Add a culture at packet rate", Edit::Add(LineKind::Cultures, key.to_owned(), 1.0))
}

/// Cooks a thickener in a quarter of the base, cools, then cultures.
pub fn cook(scenario: &Scenario<'_>, line: usize, to_c: f64) -> Mend {
    // On a mountain the pan boils sooner.
    let to_c = to_c.min((boiling_point(scenario.kitchen.altitude_m) - 1.0).floor());
    let d = scenario.design;
    let culture_c =
        culture_in::temperature(&d.steps).unwrap_or_else(|| d.hold().map_or(40.0, |h| h.set_c.min(43.0)));
    let mut steps: Vec<Step> = d.steps.iter().take_while(|s| **s != Step::CultureIn).cloned().collect();
    steps.retain(|s| !matches!(s, Step::CookPart { .. }));
    // After the start and any heat treatment; warming or cooling to the culture's temperature comes last.
    while matches!(steps.last(), Some(Step::Warm { .. } | Step::Cool { .. })) {
        steps.pop();
    }
    steps.push(Step::CookPart { share: 0.25, to_c, minutes: 2.0 });
    steps.push(Step::Warm { to_c: culture_c, way: Way::Bath });
    steps.push(Step::Cool { to_c: culture_c, way: Way::ColdWater });
    steps.extend(d.steps.iter().skip_while(|s| **s != Step::CultureIn).cloned());
    let mut edits = vec![Edit::Steps(steps)];
    if d.thickeners.get(line).is_some_and(|t| t.goes_in == GoesIn::WithTheCulture) {
        edits.push(Edit::ThickenerGoesIn(line, GoesIn::WithTheBase));
    }
    Mend::plan("Cook it in a quarter of the base", edits)
}

/// Above this a step counts as cooking, °C. Source: assumed; a hot-water bath and a culture's warmth stay under it.
const COOKING_C: f64 = 60.0;

/// Whether a step is cooking.
pub fn cooks(step: &Step) -> bool {
    match step {
        Step::HeatTreat { .. } | Step::CookPart { .. } => true,
        Step::Warm { to_c, .. } => *to_c > COOKING_C,
        _ => false,
    }
}

/// Takes every cooking step out; what was hot before is then only warmed to what the culture needs. Nothing where no culture
/// goes in.
pub fn uncook(design: &Design) -> Option<Edit> {
    let culture_c = culture_in::temperature(&design.steps)
        .filter(|c| *c <= COOKING_C)
        .unwrap_or_else(|| design.hold().map_or(40.0, |h| h.set_c.min(43.0)));
    let mut steps = design.steps.clone();
    steps.retain(|s| !cooks(s));
    let at = steps.iter().position(|s| matches!(s, Step::Cool { .. } | Step::CultureIn))?;
    let mut before = steps.iter().take_while(|s| **s != Step::CultureIn);
    if !before.any(|s| matches!(s, Step::Warm { .. })) {
        steps.insert(at, Step::Warm { to_c: culture_c, way: Way::Bath });
    }
    Some(Edit::Steps(steps))
}

/// Cools the base before the culture goes in.
pub fn cool_first() -> Mend {
    Mend::new("Put the culture in at 40 °C", Edit::CultureTemperature(40.0))
}

/// A milder hold.
pub fn milder_hold() -> Mend {
    Mend::new("Hold at 41 °C", Edit::HoldTemperature(41.0))
}

/// Weighs a one-in-ten powder instead.
pub fn split_powder(line: usize) -> Mend {
    Mend::new("Split the packet 1:10", Edit::CulturePowder(line, Powder::OneToTen))
}

/// A higher dose that brings pH 4.6 by a time; tries a few and takes the smallest that does.
pub fn raise_dose(scenario: &Scenario<'_>, run: &Run, by_h: f64) -> Option<Mend> {
    let first = scenario.design.cultures.first()?;
    for factor in [1.25, 1.5, 2.0, 3.0, 5.0] {
        let rate = (first.rate * factor * 100.0).round() / 100.0;
        if rate <= 0.0 || rate > 20.0 {
            continue;
        }
        let edit = Edit::CultureRate(0, rate);
        let there = scenario.with(&edit).is_some_and(|new| {
            first_below(&new.forecast.t, &new.forecast.ph, run.mix.laws.ready.acid_line_ph)
                .is_some_and(|h| h <= by_h)
        });
        if there {
            return Some(Mend::new(
                format!("Raise the dose to {} ×", potset_base::number::plain(rate)),
                edit,
            ));
        }
    }
    None
}

/// Another length of the hold.
pub fn stop_after(hours: f64) -> Mend {
    let rounded = (hours * 4.0).ceil() / 4.0;
    Mend::new(format!("Stop after {}", potset_base::number::hours(rounded)), Edit::HoldHours(rounded))
}

/// The same, rounded down: what comes after is too late.
pub fn stop_after_floor(hours: f64) -> Mend {
    let rounded = (hours * 4.0).floor() / 4.0;
    Mend::new(format!("Stop after {}", potset_base::number::hours(rounded)), Edit::HoldHours(rounded))
}

/// Strain overnight, after the chill where there is one.
pub fn strain(scenario: &Scenario<'_>) -> Mend {
    let mut steps = scenario.design.steps.clone();
    let after = steps
        .iter()
        .rposition(|s| matches!(s, Step::Hold(_) | Step::Chill { .. }))
        .map_or(steps.len(), |i| i + 1);
    steps.insert(after, Step::Strain { hours: 12.0, removed: None });
    Mend::new("Strain it overnight", Edit::Steps(steps))
}
