//! Mends for what speaks against a pot: each is tried, and offered only where the pot that it gives is not to be thrown away.

use super::{Finding, Hygiene, Level, Row, judge};
use crate::mends::{self, How, Mend};
use potset_doc::steps::{Step, Way};
use potset_doc::{Design, Edit};
use potset_forecast::scenario::Scenario;

/// Warmth of the culture and of the hold that a mend proposes, °C. Source: common practice, 37 to 43 °C.
const WARM_C: f64 = 42.0;

/// A warmer that heats, for a pot that cools too soon.
const HEATED: &str = "heated_pot";

/// Multiples of the dose that are tried.
const DOSES: [f64; 3] = [1.5, 2.0, 3.0];

/// The first mend that leads to a pot with nothing as grave against it.
pub fn mend(scenario: &Scenario<'_>, found: &Hygiene, finding: &Finding) -> Option<Mend> {
    candidates(scenario, found, finding).into_iter().find(|mend| mends_it(scenario, finding, &mend.edit()))
}

/// Whether an edit leaves nothing as grave as a finding, or, where it is to be watched, not that finding.
fn mends_it(scenario: &Scenario<'_>, finding: &Finding, edit: &Edit) -> bool {
    let Some(run) = scenario.with(edit) else { return false };
    let new = judge(&run);
    match finding.level {
        Level::Discard => new.discard().is_none() && new.not_yogurt.is_none(),
        Level::Watch => new.discard().is_none() && new.findings.iter().all(|f| f.row != finding.row),
    }
}

/// Whether an edit leads to a pot that is to be thrown away.
pub fn leads_to_discard(scenario: &Scenario<'_>, edit: &Edit) -> bool {
    scenario.with(edit).is_some_and(|run| judge(&run).discard().is_some())
}

fn candidates(scenario: &Scenario<'_>, found: &Hygiene, finding: &Finding) -> Vec<Mend> {
    match finding.row {
        Row::BaseStood | Row::Reheated => vec![no_standing(scenario.design), cool_fast(scenario.design)],
        Row::HeatedCoolsSlowly => vec![cool_fast(scenario.design), no_standing(scenario.design)],
        Row::RawForFrail | Row::RawMilk => vec![boil(scenario.design)],
        Row::Chill | Row::NoChill => vec![chill(scenario.design)],
        Row::Store | Row::WarmStore => vec![cold_store(scenario)],
        Row::SweetChill | Row::SweetStore | Row::SlowSouring(_) => souring(scenario, found),
        Row::NotCultured | Row::CookedNotCultured => cultured(scenario),
    }
}

/// Sour sooner or hold longer, the smallest change first; then all of it together.
fn souring(scenario: &Scenario<'_>, found: &Hygiene) -> Vec<Mend> {
    let mut all = Vec::new();
    if let Some(at) = found.soured_h.filter(|at| *at > found.stop_h) {
        all.push(mends::stop_after(at + 1.0));
    }
    all.extend(sooner(scenario));
    all
}

/// Sour sooner, the smallest change first; then all of it together.
pub fn sooner(scenario: &Scenario<'_>) -> Vec<Mend> {
    let mut all = warmth(scenario);
    for factor in DOSES {
        all.extend(dose(scenario, factor));
    }
    if scenario.design.sugars.is_empty() {
        all.push(mends::feed(scenario));
    }
    let edits: Vec<Edit> =
        warmth(scenario).into_iter().chain(dose(scenario, 2.0)).flat_map(|m| m.edits).collect();
    if !edits.is_empty() {
        all.push(Mend { how: How::AllOfIt, edits });
    }
    all
}

/// The usual warmth, in what it is kept in and in a warmer that heats.
fn warmth(scenario: &Scenario<'_>) -> Vec<Mend> {
    let Some(hold) = scenario.design.hold() else { return Vec::new() };
    let (start, set) = (Edit::CultureTemperature(WARM_C), Edit::HoldTemperature(WARM_C));
    let heated = [Edit::Warmer(HEATED.to_owned()), set.clone()];
    let mut all = vec![Mend::new(How::AddAt(WARM_C), start.clone()), Mend::new(How::HoldAt(WARM_C), set)];
    if hold.warmer != HEATED {
        all.push(Mend { how: How::HeatedPot(WARM_C), edits: heated.to_vec() });
    }
    if hold.measured.is_empty() {
        let edits = std::iter::once(start).chain(heated).collect();
        all.push(Mend { how: How::AddAtInHeatedPot(WARM_C), edits });
    }
    all
}

fn dose(scenario: &Scenario<'_>, factor: f64) -> Option<Mend> {
    let first = scenario.design.cultures.first().filter(|line| line.rate > 0.0)?;
    let rate = (first.rate * factor).max(1.0);
    let rate = (rate * 100.0).round() / 100.0;
    (rate <= 5.0).then(|| Mend::new(How::Dose(rate), Edit::CultureRate(0, rate)))
}

/// A living culture at a warmth that it outlives.
fn cultured(scenario: &Scenario<'_>) -> Vec<Mend> {
    let dairy = scenario.run().is_ok_and(|run| run.facts.dairy >= 0.5);
    let (cool, mild) = (mends::cool_first(), mends::milder_hold());
    let edits = [&cool, &mild].into_iter().flat_map(|mend| mend.edits.clone()).collect();
    vec![mends::inoculate(dairy), cool, mild, Mend { how: How::CoolAndMild, edits }]
}

fn no_standing(design: &Design) -> Mend {
    let culture = design.steps.iter().position(|s| *s == Step::CultureIn).unwrap_or(0);
    let keep = |(i, s): &(usize, &Step)| *i > culture || !matches!(s, Step::Stand { .. });
    let steps = design.steps.iter().enumerate().filter(keep).map(|(_, s)| s.clone()).collect();
    Mend::new(How::NoStanding, Edit::Steps(steps))
}

/// Cools in ice and water, or in cold water where the tap does it.
fn cool_fast(design: &Design) -> Mend {
    let fast = |s: &Step| match s {
        Step::Cool { to_c, .. } => Step::Cool { to_c: *to_c, way: Way::IceBath },
        other => other.clone(),
    };
    let keep = |s: &&Step| !matches!(s, Step::Stand { .. });
    Mend::new(How::CoolFast, Edit::Steps(design.steps.iter().filter(keep).map(fast).collect()))
}

/// Boils the base before the culture: coconut's boiling counts for every base.
fn boil(design: &Design) -> Mend {
    let at = design.steps.iter().position(|s| *s == Step::CultureIn).unwrap_or(0);
    let mut steps: Vec<Step> = design.steps[..at].to_vec();
    while matches!(steps.last(), Some(Step::Warm { .. } | Step::Cool { .. })) {
        steps.pop();
    }
    let culture_c = potset_doc::culture_in::temperature(&design.steps).unwrap_or(40.0).min(WARM_C);
    steps.push(Step::HeatTreat { to_c: 96.0, minutes: 6.0, way: Way::Pan });
    steps.push(Step::Cool { to_c: culture_c, way: Way::ColdWater });
    steps.extend_from_slice(&design.steps[at..]);
    Mend::new(How::Boil, Edit::Steps(steps))
}

/// In the fridge overnight, in the place of the chill that there is.
fn chill(design: &Design) -> Mend {
    let step = Step::Chill { to_c: 6.0, hours: 12.0, way: Way::Fridge };
    let mut steps: Vec<Step> =
        design.steps.iter().filter(|s| !matches!(s, Step::Chill { .. })).cloned().collect();
    let at = steps.iter().position(|s| matches!(s, Step::Hold(_))).map_or(steps.len(), |i| i + 1);
    steps.insert(at, step);
    Mend::new(How::ChillOvernight, Edit::Steps(steps))
}

/// A week in the fridge.
fn cold_store(scenario: &Scenario<'_>) -> Mend {
    let colder = |s: &Step| match s {
        Step::Store { days, .. } => {
            Step::Store { days: days.min(7.0), at_c: scenario.kitchen.fridge_c.min(5.0) }
        }
        other => other.clone(),
    };
    let mut with = scenario.design.clone();
    with.steps = scenario.design.steps.iter().map(colder).collect();
    Mend { how: How::ColdWeek, ..chill(&with) }
}
