//! The Pantry view: table of entries, page of one, label reader, bases made from starting ingredients.

mod about;
mod entries;
mod entry_page;
mod examples;
mod figures;
mod filters;
mod kept;
mod label;
mod label_told;
mod making;
mod table;
mod ticket;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};

use potset_app::command::PantryCommand;
use potset_app::shelves::PantryPage;
use potset_app::{Command, State};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::pill::pill;

/// Between the parts of a column, points.
const GAP: f32 = 6.0;

/// What the view keeps between frames.
#[derive(Default)]
pub struct PantryState {
    entries: kept::EntriesState,
    making: making::MakingState,
    label: label_told::LabelState,
}

/// Draws the view over the whole of `ui`; commands go into `out`.
pub fn show(ui: &mut Ui, view: &mut PantryState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let bar = Frame::new().fill(t.page).inner_margin(Margin::symmetric(14, 4));
    Panel::top("pantry pages").resizable(false).exact_size(36.0).frame(bar).show(ui, |ui| {
        ui.horizontal_centered(|ui| tabs(ui, state, out));
    });
    match state.shelves.page {
        PantryPage::Entries => entries::show(ui, &mut view.entries, state, out),
        PantryPage::Label => label::show(ui, &mut view.label, state, out),
        PantryPage::Making => making::show(ui, &mut view.making, state, out),
    }
}

fn tabs(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    ui.spacing_mut().item_spacing.x = 4.0;
    for page in PantryPage::ALL {
        if pill(ui, page.words(), state.shelves.page == page).clicked() {
            out.push(PantryCommand::Page(page).into());
        }
    }
}

/// The frame of the panels.
fn panel(ui: &Ui) -> Frame {
    Frame::new().fill(tokens::of(ui).page).inner_margin(Margin::symmetric(9, 6))
}

/// Two columns beside each other, or one above the other in one scroll where the window is narrow.
fn halves(
    ui: &mut Ui,
    (salt, left_width): (&'static str, f32),
    left: impl FnOnce(&mut Ui),
    right: impl FnOnce(&mut Ui),
) {
    const NARROW: f32 = 760.0;
    let frame = panel(ui);
    if ui.available_width() < NARROW {
        CentralPanel::default().frame(frame).show(ui, |ui| {
            column(ui, salt, GAP, |ui| {
                left(ui);
                right(ui);
            });
        });
        return;
    }
    Panel::left(salt).resizable(false).exact_size(left_width).frame(frame).show(ui, |ui| {
        column(ui, "left", GAP, left);
    });
    CentralPanel::default().frame(frame).show(ui, |ui| column(ui, "right", GAP, right));
}
