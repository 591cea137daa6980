//! The kitchen: how warmth, amounts and acidity are said, scale, spoons, thermometer, pH, places and their temperatures, warmers, vessels, money.

use egui::{CollapsingHeader, IdSalt, RichText, ScrollArea, Ui};

mod warmers;

use super::window;
use potset_app::command::WindowCommand;
use potset_app::{Action, Command, State};
use potset_base::acidity::AcidityUnit;
use potset_base::label_rule::LabelRule;
use potset_base::measures::SpoonSet;
use potset_base::units::{APART, Amounts, Degrees, WARMTH};
use potset_doc::kitchen::{Kitchen, PhBy, VesselsHere};
use potset_doc::pantry::{Pantry, find};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::field;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;

/// One row: words, unit, range, and the field.
type Row = (&'static str, &'static str, f64, f64, fn(&mut Kitchen) -> &mut f64);

const SCALE: [Row; 2] = [
    ("The scale shows steps of", "g", 0.001, 10.0, |k| &mut k.scale_step_g),
    ("My scale wanders by", "g", 0.0, 20.0, |k| &mut k.scale_repeat_g),
];
const THERMOMETER: Row = ("The thermometer may err by", APART, 0.0, 10.0, |k| &mut k.thermometer_c);
const PH: Row = ("It reads in steps of pH", "", 0.01, 2.0, |k| &mut k.ph_step);
const PLACES: [Row; 5] = [
    ("Altitude", "m", -400.0, 5000.0, |k| &mut k.altitude_m),
    ("Room", WARMTH, 0.0, 45.0, |k| &mut k.room_c),
    ("Hot tap water", WARMTH, 30.0, 90.0, |k| &mut k.hot_tap_c),
    ("Cold tap water", WARMTH, 0.0, 35.0, |k| &mut k.cold_tap_c),
    ("Fridge", WARMTH, 0.0, 15.0, |k| &mut k.fridge_c),
];

/// Width of the words before a field.
const WORDS: f32 = 200.0;

/// Draws the window; each change is kept at once.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let mut kitchen = state.kitchen.clone();
    let mut done = false;
    let most = ui.ctx().content_rect().height() - 170.0;
    let closed = window(ui, "Your kitchen", 420.0, |ui| {
        ui.label("Used in every forecast; kept apart from designs.");
        ui.add_space(6.0);
        ScrollArea::vertical().max_height(most).show(ui, |ui| {
            ui.set_width(ui.available_width());
            said(ui, &mut kitchen);
            tools(ui, &mut kitchen);
            for row in PLACES {
                number(ui, row, &mut kitchen);
            }
            warmers::show(ui, &mut kitchen, &state.pantry);
            vessels(ui, &mut kitchen, &state.pantry);
            money(ui, &mut kitchen);
        });
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            done = ui.button("Close").clicked();
            if ui.button("Usual kitchen").on_hover_text("Puts the usual values back").clicked() {
                kitchen = Kitchen::default();
            }
        });
    });
    if kitchen != state.kitchen {
        out.push(WindowCommand::Kitchen(kitchen).into());
    }
    if closed || done {
        out.push(Command::Do(Action::Kitchen));
    }
}

/// Words before a field, all as wide, so that the fields stand under each other.
fn words_before(ui: &mut Ui, text: &str, width: f32) -> egui::Response {
    let layout = egui::Layout::left_to_right(egui::Align::Center);
    let place = ui.allocate_ui_with_layout(egui::vec2(width, 20.0), layout, |ui| {
        ui.set_min_width(width);
        ui.add(egui::Label::new(text).truncate())
    });
    place.inner
}

fn number(ui: &mut Ui, (words, unit, least, most, of): Row, kitchen: &mut Kitchen) {
    ui.horizontal(|ui| {
        words_before(ui, words, WORDS);
        let value = of(kitchen);
        let number = Number {
            name: words,
            unit,
            value: *value,
            range: least..=most,
            decimals: 3,
            speed: (most - least) * 0.002,
            hover: "",
        };
        if let Some(v) = number.show(ui).value {
            *value = v;
        }
    });
}

/// A field for the day on which something was checked.
fn checked(ui: &mut Ui, name: &str, text: &mut String) {
    ui.horizontal(|ui| {
        words_before(ui, "checked when", WORDS);
        if let Some(typed) = field::field(ui, name, text, "2026-11-25", 120.0) {
            *text = typed;
        }
    });
}

/// A choice with words before it; the place of what was picked.
fn choice(ui: &mut Ui, words: &str, name: &'static str, now: &str, all: &[&str]) -> Option<usize> {
    ui.horizontal(|ui| {
        words_before(ui, words, WORDS);
        picker(ui, IdSalt::new(name), name, now, all)
    })
    .inner
}

/// How warmth and amounts are said.
fn said(ui: &mut Ui, kitchen: &mut Kitchen) {
    let now = kitchen.degrees.words();
    if let Some(i) = choice(ui, "Warmth is shown in", "Warmth is shown in", now, &Degrees::WORDS) {
        kitchen.degrees = Degrees::ALL[i];
    }
    let now = kitchen.amounts.words();
    if let Some(i) = choice(ui, "Amounts are shown in", "Amounts are shown in", now, &Amounts::WORDS) {
        *kitchen = kitchen.clone().with_amounts(Amounts::ALL[i]);
    }
    let now = kitchen.acidity.words();
    if let Some(i) = choice(ui, "Acidity is shown in", "Acidity is shown in", now, &AcidityUnit::WORDS) {
        kitchen.acidity = AcidityUnit::ALL[i];
    }
}

fn tools(ui: &mut Ui, kitchen: &mut Kitchen) {
    for row in SCALE {
        number(ui, row, kitchen);
    }
    checked(ui, "Scale checked", &mut kitchen.scale_checked);
    let names = SpoonSet::ALL.map(SpoonSet::words);
    if let Some(i) = choice(ui, "Spoons of new designs", "Spoons here", kitchen.spoons.words(), &names) {
        kitchen.spoons = SpoonSet::ALL[i];
    }
    number(ui, THERMOMETER, kitchen);
    checked(ui, "Thermometer checked", &mut kitchen.thermometer_checked);
    let names = PhBy::ALL.map(PhBy::words);
    if let Some(i) =
        choice(ui, "You check sourness with", "You check sourness with", kitchen.ph_by.words(), &names)
    {
        kitchen.ph_by = PhBy::ALL[i];
        kitchen.ph_step = if kitchen.ph_by == PhBy::Meter { 0.1 } else { 0.5 };
    }
    if kitchen.ph_by != PhBy::TasteAndLook {
        number(ui, PH, kitchen);
        checked(ui, "pH checked", &mut kitchen.ph_checked);
    }
}

fn fold(ui: &mut Ui, title: &str, count: usize, body: impl FnOnce(&mut Ui)) {
    let t = tokens::of(ui);
    let words = if count == 0 { title.to_owned() } else { format!("{title} ({count})") };
    CollapsingHeader::new(RichText::new(words).color(t.ink)).id_salt(title).show(ui, body);
}

/// Vessels and how many there are.
fn vessels(ui: &mut Ui, kitchen: &mut Kitchen, pantry: &Pantry) {
    fold(ui, "Vessels", kitchen.vessels.len(), |ui| {
        let mut gone = None;
        for (i, vessel) in kitchen.vessels.iter_mut().enumerate() {
            let name = find(&pantry.vessels, &vessel.key).map_or(vessel.key.as_str(), |v| v.name.as_str());
            ui.horizontal(|ui| {
                words_before(ui, name, WORDS);
                let count = Number {
                    name: &format!("{name}, how many"),
                    unit: "",
                    value: f64::from(vessel.count),
                    range: 0.0..=500.0,
                    decimals: 0,
                    speed: 0.1,
                    hover: "",
                };
                if let Some(v) = count.show(ui).value {
                    vessel.count = v.round() as u32;
                }
                if ui.small_button("×").on_hover_text(format!("Remove {name}")).clicked() {
                    gone = Some(i);
                }
            });
        }
        if let Some(i) = gone {
            kitchen.vessels.remove(i);
        }
        let more: Vec<_> =
            pantry.vessels.iter().filter(|v| !kitchen.vessels.iter().any(|have| have.key == v.key)).collect();
        let names: Vec<&str> = more.iter().map(|v| v.name.as_str()).collect();
        if let Some(i) = picker(ui, IdSalt::new("more vessels"), "Add a vessel", "Add a vessel", &names)
            && let Some(entry) = more.get(i)
        {
            kitchen.vessels.push(VesselsHere { key: entry.key.clone(), count: 1 });
        }
    });
}

fn money(ui: &mut Ui, kitchen: &mut Kitchen) {
    ui.horizontal(|ui| {
        words_before(ui, "Prices are in", WORDS);
        let text = kitchen.currency.clone();
        if let Some(typed) = field::field(ui, "Currency", &text, "€, kr, $…", 80.0) {
            kitchen.currency = typed.trim().chars().take(8).collect();
        }
    });
    let names = LabelRule::ALL.map(LabelRule::place);
    let now = kitchen.label_rule.place();
    if let Some(i) = choice(ui, "Nutrition as printed in", "Nutrition as printed in", now, &names) {
        kitchen.label_rule = LabelRule::ALL[i];
    }
}
