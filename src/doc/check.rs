//! What a design can tell about itself without the model: numbers in range, steps in order, entries at hand.

use super::design::{Clock, Design};
use super::measured;
use super::pantry::Pantry;
use super::range::{self, Range};
use super::shelf::LineKind;
use super::steps::{Happening, LONGEST_STORE_DAYS, Step};
use potset_base::Note;
use potset_base::clock::Moment;
use potset_base::units::WARMTH;

const LITRES: Range = ("Amount", "L", 0.01, 1000.0);
const PERCENT: Range = ("Label figure", "g/100 g", 0.0, 100.0);
const MILLIGRAMS: Range = ("Label figure", "mg/100 g", 0.0, 10_000.0);
const SERVING: Range = ("Serving", "g", 5.0, 2000.0);
const SUGAR: Range = ("Sugar", "g/L", 0.0, 400.0);
const THICKENER: Range = ("Thickener", "g/L", 0.0, 200.0);
const RATE: Range = ("Culture", "× packet", 0.0, 1000.0);
const TEMPERATURE: Range = ("Temperature", WARMTH, 0.0, 100.0);
const TREATMENT: Range = ("Heat treatment", WARMTH, 0.0, 121.0);
const MINUTES: Range = ("Minutes", "min", 0.0, 1440.0);
const HOLD: Range = ("Hold", "h", 0.25, 96.0);
const EVENT: Range = ("Time of the event", "h", 0.0, 96.0);
const CHILL: Range = ("Chill", "h", 0.0, 96.0);
const DAYS: Range = ("Storage", "days", 0.0, LONGEST_STORE_DAYS);
const AGE: Range = ("Age of the culture", "days", 0.0, 3650.0);
const KEPT: Range = ("Where the culture was kept", WARMTH, -30.0, 45.0);
const PACK: Range = ("Size of the pack", "mL", 10.0, 50_000.0);
const PACKET: Range = ("Weight of the packet", "g", 0.001, 10_000.0);
const STRAINED: Range = ("Share run off", "of 1", 0.0, 0.8);
const ADDITIVE: Range = ("Additive", "g/L", 0.0, 500.0);
const SHARE: Range = ("Share", "of 1", 0.0, 1.0);

/// Longest text that a design may carry, characters.
const LONGEST_TEXT: usize = 20_000;
/// Most lines in one list.
const MOST_LINES: usize = 50;

/// Everything that keeps this design from being used; empty when it is in order.
pub fn faults(design: &Design) -> Vec<Note> {
    let mut notes = Vec::new();
    let mut see = |field: String, value: f64, range: Range| {
        let (name, unit, least, most) = range;
        notes.extend(range::fault(field, name, unit, value, (least, most)));
    };
    for (i, base) in design.bases.iter().enumerate() {
        see(format!("bases[{i}].litres"), base.litres, LITRES);
        if let Some(pack) = base.pack {
            see(format!("bases[{i}].pack.ml"), pack.ml, PACK);
        }
        let label = &base.label;
        for (name, value, range) in [
            ("fat", label.fat, PERCENT),
            ("protein", label.protein, PERCENT),
            ("sugars", label.sugars, PERCENT),
            ("extract", label.extract, PERCENT),
            ("carbohydrate", label.carbohydrate, PERCENT),
            ("fibre", label.fibre, PERCENT),
            ("saturates", label.saturates, PERCENT),
            ("sodium", label.sodium, MILLIGRAMS),
            ("calcium", label.calcium, MILLIGRAMS),
        ] {
            value.into_iter().for_each(|value| see(format!("bases[{i}].label.{name}"), value, range));
        }
    }
    for (i, sugar) in design.sugars.iter().enumerate() {
        see(format!("sugars[{i}].g_per_l"), sugar.g_per_l, SUGAR);
    }
    for (i, thickener) in design.thickeners.iter().enumerate() {
        see(format!("thickeners[{i}].g_per_l"), thickener.g_per_l, THICKENER);
    }
    for (i, culture) in design.cultures.iter().enumerate() {
        see(format!("cultures[{i}].rate"), culture.rate, RATE);
        if let Some(packet) = culture.packet {
            see(format!("cultures[{i}].packet.grams"), packet.grams, PACKET);
            see(format!("cultures[{i}].packet.litres"), packet.litres, measured::PACKET_LITRES);
        }
        see(format!("cultures[{i}].age_days"), culture.age_days, AGE);
        if let Some(c) = culture.kept_c {
            see(format!("cultures[{i}].kept_c"), c, KEPT);
        }
    }
    measured::numbers(design, &mut see);
    for (i, additive) in design.additives.iter().enumerate() {
        see(format!("additives[{i}].g_per_l"), additive.g_per_l, ADDITIVE);
    }
    see("pots.serving_g".to_owned(), design.pots.serving_g, SERVING);
    for (i, step) in design.steps.iter().enumerate() {
        step_numbers(step, &format!("steps[{i}]"), &mut see);
    }
    let goals = &design.goals;
    for (name, value, range) in [
        ("ph_at_most", goals.ph_at_most, ("pH", "", 3.0, 7.0)),
        ("sugar_left_at_most", goals.sugar_left_at_most, SUGAR),
        ("whey_at_most", goals.whey_at_most, ("Whey", "%", 0.0, 100.0)),
        ("thin_layer_at_most", goals.thin_layer_at_most, ("Thin layer", "%", 0.0, 100.0)),
    ] {
        value.into_iter().for_each(|value| see(format!("goals.{name}"), value, range));
    }
    lists(design, &mut notes);
    measures(design, &mut notes);
    order(design, &mut notes);
    notes
}

/// A line said in a measure that the design's spoon set does not have.
fn measures(design: &Design, notes: &mut Vec<Note>) {
    for shelf in LineKind::ALL {
        for (i, line) in design.lines(shelf).into_iter().enumerate() {
            if !line.measure().in_set(design.spoons) {
                notes.push(Note::error(
                    format!("{}[{i}].by", shelf.kind().list()),
                    format!("The {} set has no {}", design.spoons.words(), line.measure().word(false)),
                    "Say the amount in another measure, or pick other spoons",
                ));
            }
        }
    }
}

fn step_numbers(step: &Step, field: &str, see: &mut impl FnMut(String, f64, Range)) {
    match step {
        Step::Start { from_c } => see(format!("{field}.from_c"), *from_c, TEMPERATURE),
        Step::Warm { to_c, .. } | Step::Cool { to_c, .. } => see(format!("{field}.to_c"), *to_c, TEMPERATURE),
        Step::HeatTreat { to_c, minutes, .. } => {
            see(format!("{field}.to_c"), *to_c, TREATMENT);
            see(format!("{field}.minutes"), *minutes, MINUTES);
        }
        Step::CookPart { share, to_c, minutes } => {
            see(format!("{field}.share"), *share, SHARE);
            see(format!("{field}.to_c"), *to_c, TREATMENT);
            see(format!("{field}.minutes"), *minutes, MINUTES);
        }
        Step::CultureIn => {}
        Step::Stand { hours, .. } => see(format!("{field}.hours"), *hours, CHILL),
        Step::Strain { hours, removed } => {
            see(format!("{field}.hours"), *hours, CHILL);
            if let Some(share) = removed {
                see(format!("{field}.removed"), *share, STRAINED);
            }
        }
        Step::Hold(hold) => {
            see(format!("{field}.set_c"), hold.set_c, TEMPERATURE);
            see(format!("{field}.hours"), hold.hours, HOLD);
            for (k, event) in hold.events.iter().enumerate() {
                see(format!("{field}.events[{k}].at_h"), event.at_h, EVENT);
                match &event.what {
                    Happening::Stir => {}
                    Happening::SetTo { c } => see(format!("{field}.events[{k}].c"), *c, TEMPERATURE),
                    Happening::PowerCut { minutes } | Happening::Move { minutes } => {
                        see(format!("{field}.events[{k}].minutes"), *minutes, MINUTES);
                    }
                    Happening::LateSugar { g_per_l, .. } => {
                        see(format!("{field}.events[{k}].g_per_l"), *g_per_l, SUGAR);
                    }
                    Happening::LateCulture { rate, .. } => {
                        see(format!("{field}.events[{k}].rate"), *rate, RATE);
                    }
                }
            }
            for (k, reading) in hold.measured.iter().enumerate() {
                see(format!("{field}.measured[{k}].at_h"), reading.at_h, EVENT);
                see(format!("{field}.measured[{k}].c"), reading.c, TEMPERATURE);
            }
        }
        Step::Chill { to_c, hours, .. } => {
            see(format!("{field}.to_c"), *to_c, TEMPERATURE);
            see(format!("{field}.hours"), *hours, CHILL);
        }
        Step::Store { days, at_c } => {
            see(format!("{field}.days"), *days, DAYS);
            see(format!("{field}.at_c"), *at_c, TEMPERATURE);
        }
    }
}

fn lists(design: &Design, notes: &mut Vec<Note>) {
    if design.bases.is_empty() {
        notes.push(Note::error("bases", "The design has no base", "Add at least one base"));
    }
    if let Clock::StartsAt(text) | Clock::ReadyBy(text) = &design.clock
        && Moment::parse(text).is_none()
    {
        notes.push(Note {
            sentence: format!("The text is “{text}”"),
            ..Note::error("clock", "The clock is not a date and a time", "Type it like 2026-11-26 18:30")
        });
    }
    let lines = LineKind::ALL.map(|shelf| (shelf.kind().list(), design.lines(shelf).len()));
    for (field, len) in lines.into_iter().chain([
        ("steps", design.steps.len()),
        ("tags", design.tags.len()),
        ("card", design.card.sentences().len()),
    ]) {
        if len > MOST_LINES {
            notes.push(Note::error(
                field,
                format!("The list has {len} lines"),
                format!("Keep at most {MOST_LINES}"),
            ));
        }
    }
    if design.name.trim().is_empty() {
        notes.push(Note::error("name", "The design has no name", "Give it a name"));
    }
    let card = design.card.sentences().iter().flat_map(|own| [("card", &own.generated), ("card", &own.own)]);
    for (field, text) in [("name", &design.name), ("notes", &design.notes)].into_iter().chain(card) {
        if text.chars().count() > LONGEST_TEXT {
            notes.push(Note::error(
                field,
                "The text is too long",
                format!("Keep it under {LONGEST_TEXT} characters"),
            ));
        }
    }
    if design.pots.count == 0 || design.pots.count > 10_000 {
        notes.push(Note::error("pots.count", "The number of pots is out of range", "Give 1 to 10000 pots"));
    }
}

fn order(design: &Design, notes: &mut Vec<Note>) {
    let place = |test: &dyn Fn(&Step) -> bool| {
        let mut places = design.steps.iter().enumerate().filter(|(_, s)| test(s)).map(|(i, _)| i);
        (places.next(), places.next())
    };
    let (hold, second) = place(&|s| matches!(s, Step::Hold(_)));
    let (culture, again) = place(&|s| matches!(s, Step::CultureIn));
    if hold.is_none() {
        notes.push(Note::error("steps", "The design has no hold", "Add one hold step"));
    }
    if culture.is_none() {
        notes.push(Note::error(
            "steps",
            "The culture never goes in",
            "Add the step that stirs the culture in (culture_in) before the hold",
        ));
    }
    if let Some(i) = second.or(again) {
        notes.push(Note::error(
            format!("steps[{i}]"),
            "This step stands twice",
            "Keep one hold, and one step that stirs the culture in (culture_in)",
        ));
    }
    if let (Some(culture), Some(hold)) = (culture, hold)
        && culture > hold
    {
        notes.push(Note::error(
            "steps",
            "The culture goes in after the hold",
            "Put the step that stirs the culture in (culture_in) before the hold",
        ));
    }
    for (i, step) in design.steps.iter().enumerate() {
        let early = matches!(
            step,
            Step::Warm { .. }
                | Step::HeatTreat { .. }
                | Step::CookPart { .. }
                | Step::Cool { .. }
                | Step::Stand { .. }
        );
        let late = matches!(step, Step::Chill { .. } | Step::Strain { .. } | Step::Store { .. });
        if early && culture.is_some_and(|c| i > c) || late && hold.is_some_and(|h| i < h) {
            notes.push(Note::error(
                format!("steps[{i}]"),
                "This step is out of order",
                "Heat and cool before the culture goes in; chill and store after the hold",
            ));
        }
    }
    let (Some(i), Some(measured)) = (hold, design.hold().map(|hold| &hold.measured)) else { return };
    if measured.windows(2).any(|pair| pair[0].at_h >= pair[1].at_h) {
        notes.push(Note::error(
            format!("steps[{i}].measured"),
            "The measured times do not rise",
            "Sort the readings by time",
        ));
    }
}

/// Entries that neither the design's snapshot nor the pantry holds.
pub fn missing_entries(design: &Design, pantry: &Pantry) -> Vec<Note> {
    let mut notes = Vec::new();
    for shelf in LineKind::ALL {
        for (i, line) in design.lines(shelf).into_iter().enumerate() {
            if design.entry_of(pantry, shelf.kind(), line.entry()).is_none() {
                notes.push(Note::error(
                    format!("{}[{i}].entry", shelf.kind().list()),
                    format!("No {} is called {}", shelf.one(), line.entry()),
                    "Swap it for an entry of the pantry",
                ));
            }
        }
    }
    notes
}
