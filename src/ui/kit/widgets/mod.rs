//! The parts our screens are made of; each takes its colours and sizes from the tokens.

pub mod bars;
pub mod card;
pub mod column;
pub mod explained;
pub mod field;
pub mod kind_mark;
pub mod lever;
pub mod list;
pub mod marker;
pub mod measured;
pub mod note;
pub mod number;
pub mod picker;
pub mod pill;
pub mod rail;
pub mod reading;
pub mod tick;
pub mod typed;

use egui::{Align, Color32, FontId, Label, Layout, Rect, Response, RichText, Ui, UiBuilder};

/// What is told on hover, beside a row and never over it or the next one.
pub fn beside_row(response: &Response, row: Rect, told: impl FnOnce(&mut Ui)) {
    let mut tip = egui::Tooltip::for_enabled(response);
    let places = [egui::RectAlign::LEFT_START, egui::RectAlign::BOTTOM_START, egui::RectAlign::TOP_START];
    tip.popup = tip.popup.anchor(row).align(egui::RectAlign::RIGHT_START).align_alternatives(&places);
    tip.gap(10.0).show(told);
}

/// One line of text in a fixed place, cut with an ellipsis (the whole text on hover).
///
/// `align` is horizontal; the line is centred in the height of `rect`.
pub fn line_in(ui: &mut Ui, rect: Rect, text: &str, font: FontId, color: Color32, align: Align) -> Response {
    let layout = match align {
        Align::Max => Layout::right_to_left(Align::Center),
        _ => Layout::left_to_right(Align::Center),
    };
    let mut place = ui.new_child(UiBuilder::new().max_rect(rect).layout(layout));
    place.set_clip_rect(rect.expand(1.0).intersect(ui.clip_rect()));
    let text = RichText::new(text).font(font).color(color);
    place.add(Label::new(text).truncate().selectable(false))
}

/// A ring around what the keys are on, where its own look does not show it.
pub fn focus_ring(ui: &Ui, response: &Response, radius: u8) {
    if response.has_focus() {
        let ring = egui::Stroke::new(crate::tokens::FOCUS, crate::tokens::of(ui).accent);
        ui.painter().rect_stroke(response.rect, f32::from(radius), ring, egui::StrokeKind::Inside);
    }
}

/// Text that wraps inside a card, in one font and colour.
pub fn wrapped(ui: &mut Ui, text: &str, font: FontId, color: Color32) -> Response {
    let text = RichText::new(text).font(font).color(color);
    ui.add(Label::new(text).wrap().selectable(false))
}

/// A quiet name and its words in one wrapping line: "usual dose  10 to 15 g/L".
pub fn pair(ui: &mut Ui, name: &str, words: &str) -> Response {
    let t = crate::tokens::of(ui);
    let font = crate::fonts::regular(crate::tokens::BODY - 0.5);
    let mut job = egui::text::LayoutJob::default();
    let format = |color| egui::TextFormat::simple(font.clone(), color);
    job.append(&format!("{name}: "), 0.0, format(t.ink_soft));
    job.append(words, 0.0, format(t.ink));
    ui.add(Label::new(job).wrap().selectable(false))
}
