//! The bin: what was thrown away, until it is put back or deleted for good.

use egui::Ui;

use super::RecipesView;
use potset_app::command::RecipesCommand;
use potset_app::recipes::RecipeChange;
use potset_app::{Command, State};
use potset_base::clock::Moment;
use potset_ui_kit::widgets::card::nothing;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::{card, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Draws the bin.
pub fn show(ui: &mut Ui, view: &mut RecipesView, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    if state.recipes.bin.is_empty() {
        nothing(
            ui,
            "The bin is empty",
            "A recipe that you move to the bin waits here, with its versions.",
            |_| {},
        );
        return;
    }
    column(ui, "bin", super::GAP, |ui| {
        for thrown in &state.recipes.bin {
            card::frame(t).show(ui, |ui| {
                ui.set_width(ui.available_width());
                let name = thrown.name.as_deref().unwrap_or(&thrown.file);
                wrapped(ui, name, fonts::semibold(tokens::BODY), t.ink);
                let when = Moment::of_instant(thrown.at_s, &state.zone).date_and_time();
                let words = format!("{}, thrown away {when}", thrown.file);
                wrapped(ui, &words, fonts::regular(tokens::SMALL), t.ink_soft);
                ui.horizontal(|ui| buttons(ui, view, thrown.number, out));
            });
        }
    });
}

fn buttons(ui: &mut Ui, view: &mut RecipesView, number: u32, out: &mut Vec<Command>) {
    let mut change = |change: RecipeChange| out.push(RecipesCommand::Change(change).into());
    if view.delete == Some(number) {
        ui.label("Delete it with all its versions? This cannot be undone.");
        if ui.button("Delete for good").clicked() {
            change(RecipeChange::Delete(number));
            view.delete = None;
        }
        if ui.button("Keep it").clicked() {
            view.delete = None;
        }
        return;
    }
    if ui.button("Put back").clicked() {
        change(RecipeChange::PutBack(number));
    }
    if ui.button("Delete…").clicked() {
        view.delete = Some(number);
    }
}
