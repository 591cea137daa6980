//! The thickener card: doses, and how they go in.

use egui::Ui;

use super::hand::EditContext;
use super::shelf::{self, ShelfWords, Spooned, numbered};
use potset_doc::Edit;
use potset_doc::design::GoesIn;
use potset_doc::edit::LineKind;
use potset_doc::pantry::{Action, Thickener};
use potset_forecast::lever::spans;
use potset_ui_kit::widgets::tick::tick;

const WORDS: ShelfWords = ShelfWords { shelf: LineKind::Thickeners, title: "Thickener", may_be_empty: true };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let all = shelf::choices(hand, LineKind::Thickeners, |s: &Thickener| 0.5 * (s.usual.0 + s.usual.1));
    shelf::card(ui, hand, &WORDS, &all, line);
}

fn line(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize) {
    let state = hand.state;
    let design = state.design();
    let Some(line) = design.thickeners.get(i) else { return };
    let entry = design.entry::<Thickener>(&state.pantry, &line.entry);
    let spooned =
        entry.map(|e| Spooned { name: &e.name, handling: &e.handling, bulk_density: e.bulk_density.value });
    let name = numbered("Thickener amount", i);
    let saved = hand.saved().and_then(|d| d.thickeners.get(i)).map(|t| t.g_per_l);
    let row = shelf::dose_row(&name, &spans::thickener(entry), line.g_per_l, saved, spooned.as_ref());
    let said = shelf::dose_said(design, line.measure, spooned.as_ref());
    hand.amount(ui, &row, (LineKind::Thickeners, i), said, |v| Edit::ThickenerDose(i, v));
    if hand.plain() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        if entry.is_some_and(|e| e.lumps.value > 0.0) {
            let mut first = line.mixed_first;
            if tick(ui, &mut first, numbered("Mix the thickener with the sugar first", i)).changed() {
                hand.edit(Edit::ThickenerMixedFirst(i, first));
            }
        }
        if entry.is_some_and(|e| !matches!(e.action, Action::ColdStarch { .. })) {
            let mut early = line.goes_in == GoesIn::WithTheBase;
            if tick(ui, &mut early, numbered("Add it before the base is heated", i)).changed() {
                let when = if early { GoesIn::WithTheBase } else { GoesIn::WithTheCulture };
                hand.edit(Edit::ThickenerGoesIn(i, when));
            }
        }
    });
}
