//! The warmers of the kitchen: what heated ones reach above their setting, and readings of those that only keep warmth.

use std::collections::BTreeSet;

use egui::{IdSalt, Label, RichText, Ui};

use super::{fold, words_before};
use potset_base::Note;
use potset_base::units::{APART, WARMTH};
use potset_doc::kitchen::{FlaskReading, Kitchen, MeasuredWarmer};
use potset_doc::pantry::{Pantry, Warmer, Warming, find};
use potset_forecast::flask;
use potset_forecast::params;
use potset_science::params::WayLaw;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::field;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;

/// One number of a reading: words, unit, range, decimals, and the field.
type Row = (&'static str, &'static str, f64, f64, usize, fn(&mut FlaskReading) -> &mut f64);

const FIRST: [Row; 3] = [
    ("filled at", WARMTH, 0.0, 100.0, 1, |r| &mut r.filled_c),
    ("after", "h", 0.1, 96.0, 1, |r| &mut r.after_h),
    ("reads", WARMTH, 0.0, 100.0, 1, |r| &mut r.reads_c),
];
const SECOND: [Row; 2] =
    [("room", WARMTH, 0.0, 45.0, 1, |r| &mut r.room_c), ("water", "L", 0.05, 50.0, 2, |r| &mut r.litres)];

/// Draws the fold.
pub fn show(ui: &mut Ui, kitchen: &mut Kitchen, pantry: &Pantry) {
    let flasks: BTreeSet<String> = kitchen.flasks.iter().map(|reading| reading.key.clone()).collect();
    fold(ui, "Warmers, measured", kitchen.warmers.len() + flasks.len(), |ui| {
        heated(ui, kitchen, pantry);
        let ways = params::shipped().map(|params| params.laws().ways);
        let Ok(ways) = ways else { return };
        for key in &flasks {
            insulated(ui, kitchen, (key, name_of(pantry, key)), &ways);
        }
        more(ui, kitchen, pantry, &ways);
    });
}

fn name_of<'a>(pantry: &'a Pantry, key: &'a str) -> &'a str {
    find(&pantry.warmers, key).map_or(key, |w| w.name.as_str())
}

fn heated(ui: &mut Ui, kitchen: &mut Kitchen, pantry: &Pantry) {
    let mut gone = None;
    for (i, warmer) in kitchen.warmers.iter_mut().enumerate() {
        let name = name_of(pantry, &warmer.key);
        ui.horizontal(|ui| {
            words_before(ui, name, 150.0);
            let offset = Number {
                name: &format!("{name}, above its setting"),
                unit: APART,
                value: warmer.offset_c,
                range: -20.0..=20.0,
                decimals: 1,
                speed: 0.05,
                hover: "What the pot reaches above the setting",
            };
            if let Some(v) = offset.show(ui).value {
                warmer.offset_c = v;
            }
            let text = warmer.checked.clone();
            if let Some(typed) = field::field(ui, &format!("{name} measured"), &text, "when", 84.0) {
                warmer.checked = typed;
            }
            if remove(ui, name) {
                gone = Some(i);
            }
        });
    }
    if let Some(i) = gone {
        kitchen.warmers.remove(i);
    }
}

fn remove(ui: &mut Ui, what: &str) -> bool {
    ui.small_button("×").on_hover_text(format!("Remove {what}")).clicked()
}

/// Readings of one warmer that only keeps warmth, and what comes of them.
fn insulated(ui: &mut Ui, kitchen: &mut Kitchen, (key, name): (&str, &str), ways: &WayLaw) {
    let t = tokens::of(ui);
    let quiet = |text: String| RichText::new(text).size(tokens::SMALL).color(t.ink_soft);
    let before: Vec<FlaskReading> = kitchen.flask_readings(key).map(|(_, reading)| reading.clone()).collect();
    let mut readings = before.clone();
    ui.add_space(4.0);
    ui.label(name);
    ui.add(
        Label::new(quiet("Fill it with warm water, close it, and read the water hours later.".into())).wrap(),
    );
    let mut gone = None;
    for (i, reading) in readings.iter_mut().enumerate() {
        let called = format!("{name}, reading {}", i + 1);
        ui.indent(&called, |ui| {
            if row(ui, &called, reading) {
                gone = Some(i);
            }
        });
    }
    if let Some(i) = gone {
        readings.remove(i);
    }
    match flask::loss(kitchen, key, ways) {
        Ok(loss) => {
            let litres = readings.last().map_or(1.0, |reading| reading.litres);
            let words = loss.map_or_else(String::new, |loss| loss.sentence(litres));
            ui.add(Label::new(words).wrap());
        }
        Err(note) => {
            let text = Note { field: String::new(), ..note }.line();
            ui.add(Label::new(RichText::new(text).color(t.stop)).wrap());
        }
    }
    if let Some(last) = readings.last().cloned()
        && ui.small_button(format!("Another reading of {name}")).clicked()
    {
        readings.push(last);
    }
    if readings != before {
        kitchen.set_flask_readings(key, readings);
    }
}

/// The numbers of one reading; whether it is to be removed.
fn row(ui: &mut Ui, called: &str, reading: &mut FlaskReading) -> bool {
    ui.horizontal(|ui| FIRST.iter().for_each(|one| number(ui, called, reading, one)));
    ui.horizontal(|ui| {
        SECOND.iter().for_each(|one| number(ui, called, reading, one));
        remove(ui, called)
    })
    .inner
}

fn number(
    ui: &mut Ui,
    called: &str,
    reading: &mut FlaskReading,
    (words, unit, least, most, decimals, of): &Row,
) {
    ui.label(*words);
    let value = of(reading);
    let number = Number {
        name: &format!("{called}, {words}"),
        unit,
        value: *value,
        range: *least..=*most,
        decimals: *decimals,
        speed: 0.05,
        hover: "",
    };
    if let Some(v) = number.show(ui).value {
        *value = v;
    }
}

/// Warmers that are not on the list yet.
fn more(ui: &mut Ui, kitchen: &mut Kitchen, pantry: &Pantry, ways: &WayLaw) {
    let listed = |warmer: &&Warmer| {
        kitchen.warmers.iter().any(|have| have.key == warmer.key)
            || kitchen.flask_readings(&warmer.key).next().is_some()
    };
    let more: Vec<_> = pantry.warmers.iter().filter(|warmer| !listed(warmer)).collect();
    let names: Vec<&str> = more.iter().map(|w| w.name.as_str()).collect();
    let Some(i) = picker(ui, IdSalt::new("more warmers"), "Add a warmer", "Add a warmer", &names) else {
        return;
    };
    let Some(entry) = more.get(i) else { return };
    let key = entry.key.clone();
    let offset_c = match &entry.warming {
        Warming::Heated { offset_c, .. } => offset_c.value,
        Warming::Place { .. } => 0.0,
        // What only keeps warmth has no setting to be above.
        Warming::Insulated { cooling_h } => {
            kitchen.flasks.push(flask::likely_reading(kitchen, &key, cooling_h.value, ways));
            return;
        }
    };
    kitchen.warmers.push(MeasuredWarmer { key, offset_c, checked: String::new() });
}
