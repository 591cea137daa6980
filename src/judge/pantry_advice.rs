//! Advice that follows from what the entries say of themselves, and from what this kitchen can tell.

use crate::advice::{Advice, note};
use potset_base::{Severity, number};
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
    let mut told: Vec<String> = Vec::new();
    let lines = LineKind::ALL
        .map(|shelf| scenario.design.lines(shelf).into_iter().map(move |line| (shelf.kind(), line.entry())));
    for (kind, key) in lines.into_iter().flatten() {
        // The shipped cautions and those of the design's own copy together: a copy may be older, or emptied.
        let both = [scenario.pantry.entry(kind, key), scenario.design.snapshot.entry(kind, key)];
        let name = both.iter().flatten().next_back().map_or(key, |e| e.name());
        for hazard in both.iter().flatten().flat_map(|e| e.hazards()).filter(|h| *h != RAW_MILK_ONCE) {
            let words = format!("{name}: {}", hazard.trim_end_matches('.'));
            if !told.contains(&words) {
                told.push(words);
            }
        }
    }
    if told.is_empty() {
        return;
    }
    // One card for all: many small ones would hide what can be mended.
    let sentence = told.join(". ");
    let advice = note(Severity::Watch, "design", "Cautions on what goes in", sentence);
    all.push(Advice { note: advice, mend: None });
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
            .map_or("It", |e| e.name());
        let left = run.facts.edible_g_kg;
        let sentence = format!(
            "The culture does not live on it: it sweetens, and stays. Food for the culture is {} g/kg without it",
            number::fixed(left, 1)
        );
        let title = format!("{name} is not food for the culture");
        all.push(Advice { note: note(Severity::Tip, &format!("sugars[{i}]"), title, sentence), mend: None });
    }
}

/// A thermometer that cannot tell a good temperature from one that stops the culture.
fn thermometer(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    let (end, error) = (run.mix.laws.ready.culture_end_c, scenario.kitchen.thermometer_c);
    let at = run.facts.culture_in_c;
    if at <= end && at + error > end {
        let sentence = format!(
            "It may err by {} °C: at {} °C on it the culture may meet more than {} °C",
            number::plain(error),
            number::fixed(at, 0),
            number::fixed(end, 0)
        );
        let title = "Your thermometer cannot tell whether this is too hot";
        all.push(Advice { note: note(Severity::Watch, "steps", title, sentence), mend: None });
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
    let sentence = format!(
        "In steps of {} they cannot tell pH {} from {}: go on until they read {} or less",
        number::plain(step),
        number::fixed(goal, 1),
        number::fixed(goal + 0.5 * step, 1),
        number::fixed(goal - 0.5 * step, 1)
    );
    all.push(Advice { note: note(Severity::Tip, "goals", "Your strips are coarse", sentence), mend: None });
}

/// More pots than the kitchen has.
fn vessels(scenario: &Scenario<'_>, all: &mut Vec<Advice>) {
    let pots = &scenario.design.pots;
    let Some(here) = scenario.kitchen.vessels.iter().find(|v| v.key == pots.vessel) else { return };
    if pots.count > here.count {
        let name = scenario
            .design
            .entry_of(scenario.pantry, EntryKind::Vessel, &pots.vessel)
            .map_or("them", |e| e.name());
        let sentence = format!("The design fills {}, and your kitchen has {}", pots.count, here.count);
        let title = format!("Not enough of {name}");
        all.push(Advice { note: note(Severity::Watch, "pots", title, sentence), mend: None });
    }
}
