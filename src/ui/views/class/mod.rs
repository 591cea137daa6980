//! The Class view: a list of lessons, one being made, and one on the wall, which is then all that the window shows.

mod draft;
mod free;
mod guess;
mod large;
mod list;
mod steps;
mod strip;
mod wall;

use egui::{CentralPanel, Frame, Margin, Ui};

use potset_app::{Command, State};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::column::column;

/// Between the parts of the list, points.
const GAP: f32 = 6.0;
/// Cards are no wider than a line is read, points.
const READ: f32 = 860.0;

/// What the view keeps between frames.
#[derive(Default)]
pub struct ClassView {
    wall: wall::WallView,
}

/// Draws the list, or the lesson that is being made; commands go into `out`.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let frame = Frame::new().fill(tokens::of(ui).page).inner_margin(Margin::symmetric(9, 6));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        column(ui, "Class", GAP, |ui| {
            ui.set_max_width(READ);
            match &state.class.draft {
                Some(draft) => draft::show(ui, state, draft, out),
                None => list::show(ui, state, out),
            }
        });
    });
}

/// Draws the lesson on the wall over the whole window.
pub fn on_the_wall(ui: &mut Ui, view: &mut ClassView, state: &State, out: &mut Vec<Command>) {
    if let Some(playing) = &state.class.playing {
        let frame = Frame::new().fill(tokens::of(ui).sheet);
        CentralPanel::default().frame(frame).show(ui, |ui| wall::show(ui, &mut view.wall, playing, out));
    }
}
