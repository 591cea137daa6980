//! Advice that follows from what the entries say of themselves, and from what this kitchen can tell.

use crate::advice::{Advice, Here};
use potset_base::Severity;
use potset_doc::Pantry;
use potset_doc::design::SweetWhen;
use potset_doc::edit::Shelf;
use potset_doc::kitchen::PhBy;
use potset_doc::pantry::{EntryKind, Sweetener};
use potset_forecast::scenario::{Ask, Run};

/// Adds what is worth telling.
pub fn advice(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    hazards(ask, all);
    no_food(ask, run, all);
    thermometer(ask, run, all);
    strips(ask, all);
    vessels(ask, all);
}

/// What every milk said of raw milk once, and older designs still do in their own copy. The judge of hygiene says it now, of
/// raw milk that is not heated.
const RAW_MILK_ONCE: &str = "Raw milk can carry Listeria, Salmonella, Campylobacter and harmful E. coli: heat it to at \
                             least 72 °C for 15 s, or 63 °C for 30 min, before the culture goes in.";

fn hazards(ask: &Ask<'_>, all: &mut Vec<Advice>) {
    let mut told: Vec<(String, String)> = Vec::new();
    let lines = Shelf::ALL
        .map(|shelf| ask.design.lines(shelf).into_iter().map(move |line| (shelf.kind(), line.entry())));
    for (kind, key) in lines.into_iter().flatten() {
        // The shipped cautions and those of the design's own copy together: a copy may be older, or emptied.
        let both = [ask.pantry.entry(kind, key), ask.design.snapshot.entry(kind, key)];
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
fn no_food(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    for (i, line) in ask.design.sugars.iter().enumerate() {
        let of = |pantry: &Pantry| pantry.get::<Sweetener>(&line.entry).is_some_and(|s| s.not_food);
        let not_food = of(&ask.design.snapshot) || of(ask.pantry);
        if !not_food || line.when == SweetWhen::AfterTheHold || line.g_per_l <= 0.0 {
            continue;
        }
        let name =
            ask.design.entry_of(ask.pantry, EntryKind::Sugar, &line.entry).map(|e| e.name().to_owned());
        let not_food = Here::NotFood(name, run.facts.edible_g_kg);
        all.push(Advice::new(Severity::Tip, format!("sugars[{i}]"), not_food, None));
    }
}

/// A thermometer that cannot tell a good temperature from one that stops the culture.
fn thermometer(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    let (end, error) = (run.mix.laws.ready.culture_end_c, ask.kitchen.thermometer_c);
    let at = run.facts.culture_in_c;
    if at <= end && at + error > end {
        all.push(Advice::new(Severity::Watch, "steps", Here::Thermometer { error, at, end }, None));
    }
}

/// Strips too coarse for the pH that is wanted.
fn strips(ask: &Ask<'_>, all: &mut Vec<Advice>) {
    let (Some(goal), PhBy::Strips) = (ask.design.goals.ph_at_most, ask.kitchen.ph_by) else { return };
    let step = ask.kitchen.ph_step;
    if step < 0.3 {
        return;
    }
    all.push(Advice::new(Severity::Tip, "goals", Here::CoarseStrips { step, goal }, None));
}

/// More pots than the kitchen has.
fn vessels(ask: &Ask<'_>, all: &mut Vec<Advice>) {
    let pots = &ask.design.pots;
    let Some(here) = ask.kitchen.vessels.iter().find(|v| v.key == pots.vessel) else { return };
    if pots.count > here.count {
        let name =
            ask.design.entry_of(ask.pantry, EntryKind::Vessel, &pots.vessel).map(|e| e.name().to_owned());
        all.push(Advice::new(Severity::Watch, "pots", Here::FewVessels(name, pots.count, here.count), None));
    }
}
