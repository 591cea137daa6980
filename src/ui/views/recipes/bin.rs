//! The bin of the recipes.

use egui::Ui;

use super::RecipesView;
use crate::views::bin::{self, BinWish};
use potset_app::command::RecipesCommand;
use potset_app::recipes::RecipeChange;
use potset_app::{Command, State};
use potset_ui_kit::widgets::column::column;

/// Draws the bin.
pub fn show(ui: &mut Ui, view: &mut RecipesView, state: &State, out: &mut Vec<Command>) {
    let words = (
        "A recipe that you move to the bin waits here, with its versions.",
        "Delete it with all its versions? This cannot be undone.",
    );
    column(ui, "bin", super::GAP, |ui| {
        let change = match bin::show(ui, words, &state.recipes.bin, &mut view.delete, state) {
            Some(BinWish::PutBack(number)) => RecipeChange::PutBack(number),
            Some(BinWish::Delete(number)) => RecipeChange::Delete(number),
            None => return,
        };
        out.push(RecipesCommand::Change(change).into());
    });
}
