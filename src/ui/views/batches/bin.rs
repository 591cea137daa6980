//! The bin of the batch book.

use egui::Ui;

use super::BatchesView;
use crate::views::bin::{self, BinWish};
use potset_app::book::BookChange;
use potset_app::command::BatchesCommand;
use potset_app::{Command, State};

/// Draws the bin.
pub fn show(ui: &mut Ui, view: &mut BatchesView, state: &State, out: &mut Vec<Command>) {
    let words = (
        "A pot that you throw away waits here, with its readings.",
        "Delete it with all its readings? This cannot be undone.",
    );
    let change = match bin::show(ui, words, &state.batches.bin, &mut view.delete, state) {
        Some(BinWish::PutBack(number)) => BookChange::PutBack(number),
        Some(BinWish::Delete(number)) => BookChange::Delete(number),
        None => return,
    };
    out.push(BatchesCommand::Book(change).into());
}
