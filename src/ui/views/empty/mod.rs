//! A view with nothing in it: how many files a view touches.

use egui::Ui;

/// Draws it.
pub fn show(ui: &mut Ui) {
    ui.label("Nothing here");
}
