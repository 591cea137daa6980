//! Advice that follows from what the entries say of themselves, and from what this kitchen can tell.

use crate::advice::{Advice, Here};
use potset_base::Severity;
use potset_doc::Pantry;
use potset_doc::design::SweetWhen;
use potset_doc::edit::LineKind;
use potset_doc::kitchen::PhBy;
use potset_doc::pantry::{EntryKind, Sweetener};
use potset_forecast::scenario::{Run, Scenario};

/// Adds what is worth telling.
pub fn advice(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    hazards(scenario, all);
    no_food(scenario, run, all);
    thermometer(scenario, run, all);
    strips(scenario, all);
    vessels(scenario, all);
}

/// What every milk said of raw milk once, and older designs still do in their own copy. The judge of hygiene says it now, of
/// raw milk that is not heated.
const RAW_MILK_ONCE: &str = "Raw milk can carry Listeria, Salmonella, Campylobacter and harmful E. coli: heat it to at \
                             least 72 °C for 15 s, or 63 °C for 30 min, before the culture goes in.";

fn hazards(scenario: &Scenario<'_>, all: &mut Vec<Advice>) {
    let mut told: Vec<(String, String)> = Vec::new();
    let lines = LineKind::ALL
        .map(|shelf| scenario.design.lines(shelf).into_iter().map(move |line| (shelf.kind(), line.entry())));
    for (kind, key) in lines.into_iter().flatten() {
        // The shipped cautions and those of the design's own copy together: a copy may be older, or emptied.
        let both = [scenario.pantry.entry(kind, key), scenario.design.snapshot.entry(kind, key)];
        let name = both.iter().flatten().next_back().map_or(key, |e| e.name());
        for hazard in both.iter().flatten().flat_map(|e| e.hazards()).filter(|h| *h != RAW_MILK_ONCE) {
            let hazard = (name.to_owned(), hazard.trim_end_matches('.').to_owned());
            if !told.contains(&hazard) {
                told.push(hazard);
            }
        }
    }
    if told.is_empty() {
        return;
    }
    all.push(Advice::new(Severity::Watch, "design", Here::Hazards(told), None));
}

/// Something sweet that is put in for the culture, which cannot live on it.
fn no_food(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    for (i, line) in scenario.design.sugars.iter().enumerate() {
        let of = |pantry: &Pantry| pantry.get::<Sweetener>(&line.entry).is_some_and(|s| s.not_food);
        let not_food = of(&scenario.design.snapshot) || of(scenario.pantry);
        if !not_food || line.when == SweetWhen::AfterTheHold || line.g_per_l <= 0.0 {
            continue;
        }
        let name = scenario
            .design
            .entry_of(scenario.pantry, EntryKind::Sugar, &line.entry)
            .map(|e| e.name().to_owned());
        let not_food = Here::NotFood(name, run.facts.edible_g_kg);
        all.push(Advice::new(Severity::Tip, format!("sugars[{i}]"), not_food, None));
    }
}

/// A thermometer that cannot tell a good temperature from one that stops the culture.
fn thermometer(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    let (end, error) = (run.mix.laws.ready.culture_end_c, scenario.kitchen.thermometer_c);
    let at = run.facts.culture_in_c;
    if at <= end && at + error > end {
        all.push(Advice::new(Severity::Watch, "steps", Here::Thermometer { error, at, end }, None));
    }
}

/// Strips too coarse for the pH that is wanted.
fn strips(scenario: &Scenario<'_>, all: &mut Vec<Advice>) {
    let (Some(goal), PhBy::Strips) = (scenario.design.goals.ph_at_most, scenario.kitchen.ph_by) else {
        return;
    };
    let step = scenario.kitchen.ph_step;
    if step < 0.3 {
        return;
    }
    all.push(Advice::new(Severity::Tip, "goals", Here::CoarseStrips { step, goal }, None));
}

/// More pots than the kitchen has.
fn vessels(scenario: &Scenario<'_>, all: &mut Vec<Advice>) {
    let pots = &scenario.design.pots;
    let Some(here) = scenario.kitchen.vessels.iter().find(|v| v.key == pots.vessel) else { return };
    if pots.count > here.count {
        let name = scenario
            .design
            .entry_of(scenario.pantry, EntryKind::Vessel, &pots.vessel)
            .map(|e| e.name().to_owned());
        all.push(Advice::new(Severity::Watch, "pots", Here::FewVessels(name, pots.count, here.count), None));
    }
}
