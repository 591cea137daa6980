//! Advice that follows from what the entries say of themselves, and from what this kitchen can tell.

use crate::advice::{Advice, note};
use potset_base::{Severity, number};
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
    let mut told: Vec<String> = Vec::new();
    let lines = Shelf::ALL
        .map(|shelf| ask.design.lines(shelf).into_iter().map(move |line| (shelf.kind(), line.entry())));
    for (kind, key) in lines.into_iter().flatten() {
        // The shipped cautions and those of the design's own copy together: a copy may be older, or emptied.
        let both = [ask.pantry.entry(kind, key), ask.design.snapshot.entry(kind, key)];
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
fn no_food(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    for (i, line) in ask.design.sugars.iter().enumerate() {
        let of = |pantry: &Pantry| pantry.get::<Sweetener>(&line.entry).is_some_and(|s| s.not_food);
        let not_food = of(&ask.design.snapshot) || of(ask.pantry);
        if !not_food || line.when == SweetWhen::AfterTheHold || line.g_per_l <= 0.0 {
            continue;
        }
        let name = ask.design.entry_of(ask.pantry, EntryKind::Sugar, &line.entry).map_or("It", |e| e.name());
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
fn thermometer(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    let (end, error) = (run.mix.laws.ready.culture_end_c, ask.kitchen.thermometer_c);
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
fn strips(ask: &Ask<'_>, all: &mut Vec<Advice>) {
    let (Some(goal), PhBy::Strips) = (ask.design.goals.ph_at_most, ask.kitchen.ph_by) else { return };
    let step = ask.kitchen.ph_step;
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
fn vessels(ask: &Ask<'_>, all: &mut Vec<Advice>) {
    let pots = &ask.design.pots;
    let Some(here) = ask.kitchen.vessels.iter().find(|v| v.key == pots.vessel) else { return };
    if pots.count > here.count {
        let name =
            ask.design.entry_of(ask.pantry, EntryKind::Vessel, &pots.vessel).map_or("them", |e| e.name());
        let sentence = format!("The design fills {}, and your kitchen has {}", pots.count, here.count);
        let title = format!("Not enough of {name}");
        all.push(Advice { note: note(Severity::Watch, "pots", title, sentence), mend: None });
    }
}
