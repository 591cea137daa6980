//! The notes card: words that go with the design.

use egui::{RichText, Ui};

use super::hand::EditContext;
use potset_doc::Edit;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::field;

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let t = tokens::of(ui);
    let (notes, tags) = (hand.design().notes.clone(), hand.design().tags.join(", "));
    Card::new("Notes").quiet(&tags).show(ui, |ui| {
        let first = notes.lines().next().unwrap_or("Nothing noted yet").to_owned();
        let title = RichText::new("Write").color(t.ink_soft);
        ui.add(egui::Label::new(RichText::new(first).size(tokens::SMALL + 1.0).color(t.ink_soft)).truncate());
        egui::CollapsingHeader::new(title).id_salt("notes").show(ui, |ui| {
            if let Some(text) = field::area(ui, "Notes", &notes, "What to remember about this design") {
                hand.edit(Edit::NotesText(text));
            }
        });
    });
}
