//! Nothing reaches it: what blocks, by how much, and what comes nearest.

use egui::Ui;

use super::{proposals, trade_offs};
use crate::app::aims::Aimed;
use crate::app::{Command, State};
use crate::study::aim::Blocked;
use crate::ui::widgets::card::Card;
use crate::ui::widgets::note::NoteCard;
use crate::ui::widgets::wrapped;
use crate::ui::{fonts, tokens};

/// Draws it.
pub fn show(ui: &mut Ui, state: &State, aimed: &Aimed, blocked: &Blocked, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let more = format!("{}. {}", blocked.line(), blocked.mend);
    NoteCard { edge: t.note_stop, mark: "⚠", sentence: "Nothing reaches it", more: &more, mend: None }
        .show(ui);
    let Some(nearest) = &blocked.nearest else { return };
    Card::new("The nearest that can be reached").show(ui, |ui| {
        proposals::body(ui, nearest);
        if !blocked.ends.is_empty() {
            let text = format!("At the end of how far it may be turned: {}", blocked.ends.join(", "));
            wrapped(ui, &text, fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
        }
        proposals::buttons(ui, state, 0, "the nearest setting", out);
    });
    trade_offs::show(ui, aimed, std::slice::from_ref(nearest));
}
