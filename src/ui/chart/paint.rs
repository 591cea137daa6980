//! Small painting helpers of the sheet: texts in place, bands, lines that step aside for texts.

use egui::{Align2, Color32, FontId, Pos2, Rect, Stroke, StrokeKind, Ui, pos2};

use potset_ui_kit::tokens::{self, Tokens};

/// Where texts are, so that lines through all strips leave them readable.
#[derive(Default)]
pub struct Texts(Vec<Rect>);

impl Texts {
    /// Notes a text, as far as it can be seen.
    pub fn push(&mut self, ui: &Ui, rect: Rect) {
        let seen = rect.intersect(ui.clip_rect());
        if seen.is_positive() {
            self.0.push(seen.expand2(egui::vec2(3.0, 0.0)));
        }
    }

    /// A vertical line from `top` to `bottom`, broken where it would strike out a text.
    pub fn vline(&self, ui: &Ui, x: f32, top: f32, bottom: f32, stroke: Stroke) {
        let mut gaps: Vec<&Rect> = self.0.iter().filter(|rect| rect.x_range().contains(x)).collect();
        gaps.sort_by(|a, b| a.top().total_cmp(&b.top()));
        let mut from = top;
        for gap in gaps {
            if gap.top() > from {
                ui.painter().vline(x, from..=gap.top().min(bottom), stroke);
            }
            from = from.max(gap.bottom());
        }
        if from < bottom {
            ui.painter().vline(x, from..=bottom, stroke);
        }
    }
}

/// A place held inside of two bounds; the first of them where there is no room between.
pub fn held(place: f32, from: f32, to: f32) -> f32 {
    place.clamp(from, to.max(from))
}

pub fn left(ui: &Ui, at: Pos2, text: &str, font: FontId, color: Color32) -> Rect {
    ui.painter().text(at, Align2::LEFT_CENTER, text, font, color)
}

/// A text, on a plate in the colour behind it where a curve runs through.
pub fn plated(ui: &Ui, at: Pos2, text: &str, font: FontId, color: Color32, plate: Option<Color32>) -> Rect {
    let galley = ui.painter().layout_no_wrap(text.to_owned(), font, color);
    let rect = Align2::LEFT_CENTER.anchor_size(at, galley.size());
    if let Some(plate) = plate {
        ui.painter().rect_filled(
            rect.shrink2(egui::vec2(0.0, 2.0)).expand2(egui::vec2(2.0, 0.0)),
            2.0,
            plate,
        );
    }
    ui.painter().galley(rect.min, galley, color);
    rect
}

pub fn right(ui: &Ui, at: Pos2, text: &str, font: FontId, color: Color32) -> Rect {
    ui.painter().text(at, Align2::RIGHT_CENTER, text, font, color)
}

/// The size of a text on one line.
pub fn size(ui: &Ui, text: &str, font: FontId) -> egui::Vec2 {
    ui.painter().layout_no_wrap(text.to_owned(), font, Color32::PLACEHOLDER).size()
}

/// The first of several forms of a text that fits into `room`, at its right end; the last one in any case.
pub fn right_first_that_fits(ui: &Ui, room: Rect, forms: &[String], font: FontId, color: Color32) -> Rect {
    let fits = forms.iter().find(|form| size(ui, form, font.clone()).x <= room.width());
    let Some(text) = fits.or(forms.last()) else { return Rect::NOTHING };
    let clipped = ui.painter().with_clip_rect(room.intersect(ui.clip_rect()));
    clipped.text(room.right_center(), Align2::RIGHT_CENTER, text, font, color)
}

/// The ring around what has the keyboard.
pub fn ring(ui: &Ui, rect: Rect, t: &Tokens) {
    let stroke = Stroke::new(tokens::FOCUS, t.accent);
    ui.painter().rect_stroke(rect, tokens::RADIUS_SMALL, stroke, StrokeKind::Inside);
}

/// The sign for copying: one sheet behind another.
pub fn copy_sign(ui: &Ui, centre: Pos2, color: Color32, behind: Color32) {
    let stroke = Stroke::new(1.2, color);
    let sheet =
        |dx: f32, dy: f32| Rect::from_center_size(pos2(centre.x + dx, centre.y + dy), egui::vec2(7.0, 8.5));
    let painter = ui.painter();
    painter.rect_stroke(sheet(1.8, -1.8), 1.5, stroke, StrokeKind::Middle);
    painter.rect(sheet(-1.8, 1.8), 1.5, behind, stroke, StrokeKind::Middle);
}
