//! Entries of the design that the pantry has otherwise now: what changed, and *update* for each.

use egui::Ui;

use potset_app::command::BenchCommand;
use potset_app::{Command, State};
use potset_doc::Edit;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::note::NoteCard;

/// Draws a card for each; entries that the pantry does not have are no news: the design brings them along.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    for entry in state.answer.outdated.iter().filter(|e| !e.gone) {
        let sentence = format!("{} has changed in the pantry", entry.name);
        let mend = format!("Update the {}", entry.kind.one());
        let card = NoteCard {
            edge: t.note_info,
            mark: "",
            sentence: &sentence,
            more: &entry.words(),
            mend: Some(&mend),
        };
        if card.show(ui) {
            out.push(BenchCommand::Edit(Edit::Renew(entry.kind, entry.key.clone()), None).into());
        }
    }
}
