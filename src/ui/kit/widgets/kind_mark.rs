//! The mark of a kind of source: how full its square is says how firm the source is, so that colour is not needed.

use egui::{Color32, CornerRadius, Pos2, Rect, Sense, Stroke, StrokeKind, Ui, vec2};

use crate::tokens::{self, Tokens};
use potset_forecast::numbers::Kind;

/// Side of the square in points.
pub const SIDE: f32 = 9.0;

/// Draws the mark in the middle of the line.
pub fn kind_mark(ui: &mut Ui, kind: Kind) {
    let (rect, response) = ui.allocate_exact_size(vec2(SIDE + 1.0, SIDE + 3.0), Sense::hover());
    paint(ui, rect.center(), kind);
    response.on_hover_text(format!("{}: {}", kind.words(), kind.meaning()));
}

/// Paints the mark around a point.
pub fn paint(ui: &Ui, at: Pos2, kind: Kind) {
    let t = tokens::of(ui);
    let square = Rect::from_center_size(at, vec2(SIDE, SIDE));
    let color = color(t, kind);
    let full = square.with_min_y(square.bottom() - square.height() * firmness(kind));
    ui.painter().rect_filled(full, CornerRadius::ZERO, color);
    ui.painter().rect_stroke(square, 1.0, Stroke::new(tokens::HAIRLINE, color), StrokeKind::Inside);
}

/// The colour of a kind: ink for what is published, the accent for what is worked out, the warning for what is weak.
pub fn color(t: &Tokens, kind: Kind) -> Color32 {
    match kind {
        Kind::Published | Kind::Standard => t.ink,
        Kind::Derived | Kind::Fitted => t.accent,
        Kind::CommonPractice | Kind::Own => t.mark,
        Kind::FromMemory | Kind::Assumed => t.warn,
    }
}

/// How much of the square is filled.
fn firmness(kind: Kind) -> f32 {
    match kind {
        Kind::Published | Kind::Standard => 1.0,
        Kind::Derived => 0.7,
        Kind::Fitted | Kind::CommonPractice | Kind::Own => 0.5,
        Kind::FromMemory => 0.25,
        Kind::Assumed => 0.0,
    }
}
