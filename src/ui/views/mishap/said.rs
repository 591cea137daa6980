//! What the caller says of the pot: a tap each.

use egui::Ui;

use potset_app::command::MishapCommand;
use potset_app::{Command, State};
use potset_mishap::data;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::{fonts, tokens};

/// Draws the taps.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    boxed(ui, "What came out?", |ui| {
        quiet(ui, "Tap all that the caller says.");
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing = egui::vec2(tokens::GAP_SMALL, tokens::GAP_SMALL);
            for row in &data().symptoms {
                let on = state.mishap.saw.contains(&row.key);
                if tap(ui, &row.tap, on) {
                    out.push(MishapCommand::Saw(row.key).into());
                }
            }
        });
    });
}

/// A button that stays pressed; the mark tells it beside the colour.
pub fn tap(ui: &mut Ui, words: &str, on: bool) -> bool {
    let t = tokens::of(ui);
    let text = if on { format!("✓ {words}") } else { words.to_owned() };
    let font = if on { fonts::semibold(tokens::BODY) } else { fonts::regular(tokens::BODY) };
    let text = egui::RichText::new(text).font(font).color(t.ink);
    let fill = if on { t.accent_soft } else { t.page };
    let button = egui::Button::new(text).fill(fill).min_size(egui::vec2(0.0, 28.0));
    let response = ui.add(button);
    response.widget_info(|| egui::WidgetInfo::selected(egui::accesskit::Role::Button, true, on, words));
    response.clicked()
}
