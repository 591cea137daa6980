//! The Pantry view: table of entries, page of one, label reader, bases made from raw stuff.

use egui::{CentralPanel, Frame, Margin, Ui};

use crate::app::{Command, State};
use crate::ui::tokens;

/// What the view keeps between frames.
#[derive(Default)]
pub struct PantryState {}

/// Draws the view.
pub fn show(ui: &mut Ui, _view: &mut PantryState, state: &State, _out: &mut Vec<Command>) {
    let frame = Frame::new().fill(tokens::of(ui).page).inner_margin(Margin::symmetric(14, 8));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        ui.heading(state.shelves.page.words());
    });
}
