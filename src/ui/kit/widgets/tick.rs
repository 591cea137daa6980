//! A box to tick, plain to see when it is empty.

use egui::{Response, Stroke, Ui};

use crate::tokens;

/// Draws the box with its words; `changed()` of the answer says that it was pressed.
pub fn tick(ui: &mut Ui, on: &mut bool, words: impl Into<String>) -> Response {
    let t = tokens::of(ui);
    let scope = ui.scope(|ui| {
        let inactive = &mut ui.visuals_mut().widgets.inactive;
        inactive.bg_fill = t.card;
        inactive.bg_stroke = Stroke::new(tokens::HAIRLINE, t.ink_soft);
        inactive.fg_stroke = Stroke::new(2.0, t.accent);
        ui.visuals_mut().override_text_color = Some(t.ink);
        ui.checkbox(on, words.into())
    });
    scope.inner
}
