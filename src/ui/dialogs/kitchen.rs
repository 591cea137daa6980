//! The kitchen: scale, thermometer, altitude, room, tap and fridge.

use egui::{DragValue, Ui};

use super::window;
use crate::app::{Action, Command, State};
use crate::doc::Kitchen;

/// One row: words, unit, range, and the field.
type Row = (&'static str, &'static str, f64, f64, fn(&mut Kitchen) -> &mut f64);

const ROWS: [Row; 7] = [
    ("The scale shows steps of", "g", 0.001, 10.0, |k| &mut k.scale_step_g),
    ("The thermometer may err by", "°C", 0.0, 10.0, |k| &mut k.thermometer_c),
    ("Altitude", "m", -400.0, 5000.0, |k| &mut k.altitude_m),
    ("Room", "°C", 0.0, 45.0, |k| &mut k.room_c),
    ("Hot tap water", "°C", 30.0, 90.0, |k| &mut k.hot_tap_c),
    ("Cold tap water", "°C", 0.0, 35.0, |k| &mut k.cold_tap_c),
    ("Fridge", "°C", 0.0, 15.0, |k| &mut k.fridge_c),
];

/// Draws the window; each change is kept at once.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let mut kitchen = state.kitchen.clone();
    let mut done = false;
    let closed = window(ui, "Your kitchen", 360.0, |ui| {
        ui.label("Used in every forecast; kept apart from designs.");
        ui.add_space(6.0);
        for (words, unit, least, most, field) in ROWS {
            ui.horizontal(|ui| {
                let label = ui.add_sized([200.0, 20.0], egui::Label::new(words));
                let drag = DragValue::new(field(&mut kitchen))
                    .range(least..=most)
                    .clamp_existing_to_range(false)
                    .update_while_editing(false)
                    .max_decimals(3)
                    .speed((most - least) * 0.002)
                    .suffix(format!("\u{a0}{unit}"));
                ui.add(drag).labelled_by(label.id);
            });
        }
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            done = ui.button("Close").clicked();
            if ui.button("Usual kitchen").on_hover_text("Puts the usual values back").clicked() {
                kitchen = Kitchen::default();
            }
        });
    });
    if kitchen != state.kitchen {
        out.push(Command::Kitchen(kitchen));
    }
    if closed || done {
        out.push(Command::Do(Action::Kitchen));
    }
}
