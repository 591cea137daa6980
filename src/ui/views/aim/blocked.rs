//! Nothing reaches it: what blocks, by how much, and what comes nearest.

use egui::Ui;

use super::{proposals, trade_offs};
use potset_app::aims::TargetResult;
use potset_app::{Command, State};
use potset_report::aim::blocked;
use potset_search::aim::Blocked;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::note::NoteCard;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Draws it.
pub fn show(ui: &mut Ui, state: &State, aimed: &TargetResult, why: &Blocked, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let more = format!("{}. {}", blocked::line(why), blocked::mend(why));
    NoteCard { edge: t.note_stop, mark: "⚠", sentence: blocked::head(why), more: &more, mend: None }.show(ui);
    proposals::show_found(ui, aimed);
    let Some(nearest) = &why.nearest else { return };
    Card::new(blocked::nearest_head(why)).show(ui, |ui| {
        proposals::body(ui, nearest, &blocked::headline(why).unwrap_or_default());
        let ends = blocked::ends(why).join(", ");
        if !ends.is_empty() {
            let text = format!("Turned as far as allowed: {ends}");
            wrapped(ui, &text, fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
        }
        if let Some(warning) = blocked::warning(why) {
            wrapped(ui, &warning, fonts::semibold(tokens::BODY), t.stop);
        }
        // The design as it is can be neither taken nor put beside itself, and what is thrown away is not offered.
        if why.to_take().is_some() {
            proposals::buttons(ui, state, 0, "the nearest setting", out);
        }
    });
    trade_offs::show(ui, state, aimed, std::slice::from_ref(nearest));
}
