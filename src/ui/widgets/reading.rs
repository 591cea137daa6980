//! The readings of the verdict: a large word with its figure, and the card of the ready window.

use egui::{Align, InnerResponse, Sense, Ui, pos2, vec2};

use crate::ui::fonts;
use crate::ui::tokens;
use crate::ui::widgets::{card, line_in, wrapped};

/// One reading of the verdict at the stop line.
#[derive(Clone, Copy, Debug)]
pub struct Reading<'a> {
    /// What is read and when ("Texture, tomorrow from the fridge").
    pub caption: &'a str,
    /// The word, large ("dollops").
    pub word: &'a str,
    /// The figure at the right ("0.7 Pa·s").
    pub figure: &'a str,
    /// A quiet sentence below; wraps.
    pub below: &'a str,
}

impl Reading<'_> {
    pub fn show(self, ui: &mut Ui) -> InnerResponse<()> {
        let t = tokens::of(ui);
        card::frame(t).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 2.0;
            let quiet = fonts::regular(tokens::SMALL);
            let size = vec2(ui.available_width(), 15.0);
            let (row, _) = ui.allocate_exact_size(size, Sense::hover());
            let caption = fonts::regular(tokens::SMALL + 1.0);
            line_in(ui, row, self.caption, caption, t.ink_soft, Align::Min);

            let size = vec2(ui.available_width(), 30.0);
            let (row, _) = ui.allocate_exact_size(size, Sense::hover());
            // The figure keeps its width; a long word gives way.
            let figure = row.with_min_x(row.left() + row.width() * 0.4);
            let strong = fonts::semibold(tokens::HEADING);
            let figure = line_in(ui, figure, self.figure, strong, t.ink, Align::Max);
            let end = pos2(figure.rect.left() - tokens::GAP, row.bottom());
            let word = egui::Rect::from_min_max(row.min, end);
            let large = fonts::semibold(tokens::READING);
            line_in(ui, word, self.word, large, t.ink, Align::Min);
            if !self.below.is_empty() {
                wrapped(ui, self.below, quiet, t.ink_soft);
            }
        })
    }
}

/// The card of the ready window: a sentence in strong type, quiet words below.
pub fn ready_card(ui: &mut Ui, sentence: &str, below: &str) -> InnerResponse<()> {
    let t = tokens::of(ui);
    let frame = card::frame(t).fill(t.ready_card).stroke(egui::Stroke::new(tokens::HAIRLINE, t.ready_card));
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        let strong = fonts::semibold(tokens::BODY + 1.0);
        wrapped(ui, sentence, strong, t.ready_ink);
        if !below.is_empty() {
            wrapped(ui, below, fonts::regular(tokens::SMALL), t.ready_ink_soft);
        }
    })
}
