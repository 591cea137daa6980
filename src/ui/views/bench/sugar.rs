//! The sugar card: food for the culture.

use egui::Ui;

use super::hand::Hand;
use super::shelf::{self, ShelfWords, Spooned};
use crate::doc::Edit;
use crate::doc::edit::Shelf;
use crate::doc::pantry;

const WORDS: ShelfWords = ShelfWords { shelf: Shelf::Sugars, title: "Sugar", may_be_empty: true };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let state = hand.state;
    let design = state.design();
    let all = shelf::choices(&design.snapshot.sugars, &state.pantry.sugars, |s| {
        (s.name.clone(), 0.5 * (s.usual.0 + s.usual.1))
    });
    let used: Vec<&str> = design.sugars.iter().map(|s| s.entry.as_str()).collect();
    shelf::card(ui, hand, &WORDS, &all, &used, |ui, hand, i| {
        let Some(line) = design.sugars.get(i) else { return };
        let entry = pantry::find(&design.snapshot.sugars, &line.entry)
            .or_else(|| pantry::find(&state.pantry.sugars, &line.entry))
            .map(|e| Spooned {
                name: &e.name,
                handling: &e.handling,
                usual: e.usual,
                bulk_density: e.bulk_density.v,
            });
        let name = shelf::numbered("Sugar for the culture", i);
        let saved = hand.saved().and_then(|d| d.sugars.get(i)).map(|s| s.g_per_l);
        let row = shelf::dose_row(design, &name, line.g_per_l, saved, entry.as_ref());
        hand.lever(ui, &row, |v| Edit::SugarDose(i, v));
    });
}
