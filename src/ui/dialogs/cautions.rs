//! Cautions: when to look, when to throw away. Advice, never permission.

use egui::{Label, RichText, ScrollArea, Ui};

use super::window;
use potset_app::{Action, Command};
use potset_report::cautions::{self, DEFER};
use potset_ui_kit::tokens;

/// Draws the window.
pub fn show(ui: &mut Ui, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let mut done = false;
    let closed = window(ui, "Cautions", 560.0, |ui| {
        ScrollArea::vertical().max_height(420.0).show(ui, |ui| {
            for (title, text) in cautions::list() {
                ui.label(
                    RichText::new(title).font(potset_ui_kit::fonts::semibold(tokens::BODY)).color(t.ink),
                );
                ui.add(Label::new(RichText::new(text).color(t.ink_soft)).wrap());
                ui.add_space(5.0);
            }
            ui.add(Label::new(RichText::new(format!("{DEFER}. Not medical advice.")).color(t.ink)).wrap());
        });
        ui.add_space(6.0);
        done = ui.button("Close").clicked();
    });
    if closed || done {
        out.push(Command::Do(Action::Cautions));
    }
}
