//! A note: coloured left edge, a sentence in strong type, quiet words, a mend of one press.

use egui::{Color32, CornerRadius, Rect, Response, Sense, Ui, pos2};

use crate::widgets::{card, wrapped};
use crate::{fonts, tokens};

/// One note under the verdict.
#[derive(Clone, Copy, Debug)]
pub struct NoteCard<'a> {
    /// Colour of the left edge: `note_info`, `note_watch` or `note_stop` of the tokens.
    pub edge: Color32,
    /// The same said without colour: a word or sign before the sentence ("⚠"); may be empty.
    pub mark: &'a str,
    pub sentence: &'a str,
    /// Quiet words below; may be empty.
    pub more: &'a str,
    /// What pressing the mend does ("Add to the steps").
    pub mend: Option<&'a str>,
}

impl NoteCard<'_> {
    /// True when the mend was pressed.
    pub fn show(self, ui: &mut Ui) -> bool {
        let t = tokens::of(ui);
        let shown = card::frame(t).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 3.0;
            let strong = fonts::semibold(tokens::BODY);
            let sentence = match self.mark {
                "" => self.sentence.to_owned(),
                mark => format!("{mark} {}", self.sentence),
            };
            wrapped(ui, &sentence, strong, t.ink);
            if !self.more.is_empty() {
                wrapped(ui, self.more, fonts::regular(tokens::SMALL), t.ink_soft);
            }
            self.mend.is_some_and(|mend| {
                let pressed = mend_link(ui, mend);
                pressed.ctx.accesskit_node_builder(pressed.id, |node| {
                    node.set_description(self.sentence);
                });
                pressed.clicked()
            })
        });
        edge(ui, shown.response.rect, self.edge);
        shown.inner
    }
}

/// The coloured left edge of a card.
pub fn edge(ui: &Ui, card: Rect, color: Color32) {
    let edge = card.with_max_x(card.left() + tokens::NOTE_EDGE);
    let radius = CornerRadius { nw: tokens::RADIUS_SMALL, sw: tokens::RADIUS_SMALL, ..CornerRadius::ZERO };
    ui.painter().rect_filled(edge, radius, color);
}

/// Words in the accent that can be pressed like a button: underlined under pointer or keyboard.
pub fn mend_link(ui: &mut Ui, text: &str) -> Response {
    let t = tokens::of(ui);
    let font = fonts::semibold(tokens::BODY - 1.0);
    let width = ui.available_width();
    let galley = ui.painter().layout(text.to_owned(), font, t.accent, width);
    let size = galley.size() + egui::vec2(0.0, 4.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, ui.is_enabled(), text));
    if ui.is_rect_visible(rect) {
        let painter = ui.painter();
        painter.galley(pos2(rect.left(), rect.top() + 2.0), galley, t.accent);
        if response.hovered() || response.has_focus() {
            let y = rect.bottom() - 1.5;
            painter.hline(rect.x_range(), y, egui::Stroke::new(tokens::HAIRLINE, t.accent));
        }
        if response.has_focus() {
            let ring = egui::Stroke::new(tokens::FOCUS, t.accent);
            let outside = egui::StrokeKind::Outside;
            painter.rect_stroke(rect.expand2(egui::vec2(3.0, 0.0)), tokens::RADIUS_SMALL, ring, outside);
        }
    }
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{fonts, theme};
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable;

    #[test]
    fn the_mend_is_a_named_button_that_reports_its_press() {
        let mut ready = false;
        let draw = move |ui: &mut Ui, pressed: &mut u32| {
            if !ready {
                ui.ctx().set_fonts(fonts::definitions());
                theme::install(ui.ctx());
                ready = true;
                return;
            }
            let note = NoteCard {
                edge: tokens::of(ui).note_watch,
                mark: "⚠",
                sentence: "Dose below what your scale can weigh",
                more: "0.02 g on a 0.01 g scale: ± 50 %",
                mend: Some("Mix 1 g of culture with 9 g of sugar, then weigh that"),
            };
            *pressed += u32::from(note.show(ui));
        };
        let mut window = Harness::new_ui_state(draw, 0);
        window.run();
        window.get_by_label("⚠ Dose below what your scale can weigh");
        window.get_by_label("Mix 1 g of culture with 9 g of sugar, then weigh that").click();
        window.run();
        assert_eq!(*window.state(), 1);
    }
}
