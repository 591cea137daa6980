//! Windows over the views: unsaved work, the finder, the kitchen, next pots, cautions, keys, the numbers, a value
//! explained, a path to type.

mod cautions;
mod explain;
mod find;
mod kitchen;
mod lost;
mod my_pot;
mod next_pots;
mod numbers;
mod numbers_evidence;
mod numbers_filter;
mod numbers_rows;
pub mod paths;
pub mod tracer;
mod wanted;
mod words;

use egui::{Align2, Id, Modal, RichText, Ui};

use crate::tracer::Tracer;
use potset_app::command::{Choice, FileCommand};
use potset_app::state::Dialog;
use potset_app::{Action, Command, State};
use potset_ui_kit::tokens;

/// What the windows keep between frames.
#[derive(Default)]
pub struct Dialogs {
    find: find::Find,
    my_pot: my_pot::MyPot,
    numbers: numbers::NumbersSheet,
    tracer: Tracer,
}

impl Dialogs {
    /// Draws the window that is open, if any.
    pub fn show(&mut self, ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
        match &state.dialog {
            Dialog::None => self.find = find::Find::default(),
            Dialog::Unsaved(_) => unsaved(ui, state, out),
            Dialog::Find => self.find.show(ui, state, out),
            Dialog::MyPot => self.my_pot.show(ui, state, out),
            Dialog::Words => words::show(ui, out),
            Dialog::Guide => words::guide(ui, out),
            Dialog::Kitchen => kitchen::show(ui, state, out),
            Dialog::Cautions => cautions::show(ui, out),
            Dialog::Keys => keys(ui, out),
            Dialog::NextPots => next_pots::show(ui, state, out),
            Dialog::Numbers => self.numbers.show(ui, state, &state.numbers, out),
            Dialog::Explain(reading, t_h) => {
                let told = self.tracer.explanation(state, *reading, *t_h);
                explain::show(ui, told, &mut self.numbers, out);
            }
            Dialog::Recovery => lost::show(ui, state, out),
            Dialog::Changed => lost::changed(ui, state, out),
        }
    }
}

/// Where a window begins, below the top of the screen, points.
const TOP: f32 = 24.0;

/// A window with a title; true if it was asked to close (Escape, or a press outside).
fn window(ui: &mut Ui, title: &str, width: f32, body: impl FnOnce(&mut Ui)) -> bool {
    // Its top stays where it is when what is in it grows: nothing moves away from under a press.
    let id = Id::unique(("window", title));
    let area = Modal::default_area(id).anchor(Align2::CENTER_TOP, [0.0, TOP]);
    let shown = Modal::new(id).area(area).show(ui.ctx(), |ui| {
        ui.set_width(width);
        ui.heading(title);
        ui.add_space(6.0);
        body(ui);
    });
    shown.should_close()
}

fn unsaved(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let mut choice = None;
    let closed = window(ui, "Save your changes?", 340.0, |ui| {
        ui.label(format!("“{}” has changes that are not in a file.", state.design().name));
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            for (words, what) in
                [("Save", Choice::Save), ("Discard", Choice::Discard), ("Cancel", Choice::Cancel)]
            {
                if ui.button(words).clicked() {
                    choice = Some(what);
                }
            }
        });
    });
    if let Some(choice) = choice.or(closed.then_some(Choice::Cancel)) {
        out.push(FileCommand::Unsaved(choice).into());
    }
}

fn keys(ui: &mut Ui, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let mut done = false;
    let closed = window(ui, "Keys", 380.0, |ui| {
        for action in Action::ALL.into_iter().filter(|a| a.key().is_some()) {
            ui.horizontal(|ui| {
                ui.add_sized(
                    [130.0, 18.0],
                    egui::Label::new(RichText::new(action.key_words()).color(t.accent)),
                );
                ui.label(action.label());
            });
        }
        for (key, what) in [
            ("Tab, Shift+Tab", "From one control to the next"),
            ("← →", "Turn a lever, or move the stop line, when it has the focus"),
            ("Esc", "Cancel a drag; close a window"),
        ] {
            ui.horizontal(|ui| {
                ui.add_sized([130.0, 18.0], egui::Label::new(RichText::new(key).color(t.accent)));
                ui.label(what);
            });
        }
        done = ui.button("Close").clicked();
    });
    if closed || done {
        out.push(Command::Do(Action::Keys));
    }
}
