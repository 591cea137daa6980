//! The marks on a slider's rail: handle, end ticks of the usual range, notch of the saved value.

use std::ops::RangeInclusive;

use egui::{Rect, Response, Shape, Stroke, Ui, pos2};

use crate::tokens::{self, Tokens};

/// How values lie along the rect of a horizontal slider; the same rule as egui's own.
#[derive(Clone, Debug)]
pub struct Rail {
    pub rect: Rect,
    pub range: RangeInclusive<f64>,
    pub logarithmic: bool,
    /// Where a logarithmic rail that starts at zero really starts.
    pub smallest: f64,
}

impl Rail {
    /// The radius of egui's handle in a slider of this height.
    fn radius(&self) -> f32 {
        self.rect.height() / 2.5
    }

    /// The x of a value, held at the ends.
    pub fn position(&self, value: f64) -> f32 {
        let travel = self.rect.x_range().shrink(self.radius());
        egui::lerp(travel, self.fraction(value))
    }

    fn fraction(&self, value: f64) -> f32 {
        let (low, high) = (*self.range.start(), *self.range.end());
        if value <= low || high <= low {
            return 0.0;
        }
        if value >= high {
            return 1.0;
        }
        let fraction = if self.logarithmic && low >= 0.0 {
            let start = if low > 0.0 { low } else { self.smallest };
            (value / start).ln() / (high / start).ln()
        } else {
            (value - low) / (high - low)
        };
        fraction.clamp(0.0, 1.0) as f32
    }

    /// Two small ticks under the rail.
    pub fn paint_end_ticks(&self, ui: &Ui, low: f64, high: f64, t: &Tokens) {
        let top = self.rect.center().y + self.radius() + 0.8;
        for end in [low, high] {
            let x = self.position(end);
            let tick = [pos2(x, top), pos2(x, top + 4.5)];
            ui.painter().line_segment(tick, Stroke::new(1.4, t.mark));
        }
    }

    /// A small triangle above the rail, pointing at it.
    pub fn paint_notch(&self, ui: &Ui, saved: f64, t: &Tokens) {
        let x = self.position(saved);
        let top = self.rect.center().y - self.radius() - 2.5;
        let corners = vec![pos2(x - 4.0, top), pos2(x + 4.0, top), pos2(x, top + 5.0)];
        ui.painter().add(Shape::convex_polygon(corners, t.mark, Stroke::NONE));
    }

    /// The round handle in the accent, over the one egui painted; a ring when it has the keyboard.
    pub fn paint_handle(&self, ui: &Ui, slider: &Response, value: f64, t: &Tokens) {
        let centre = pos2(self.position(value), self.rect.center().y);
        let radius = self.radius();
        let painter = ui.painter();
        painter.circle(centre, radius - 0.6, t.accent, Stroke::new(1.5, t.card));
        if slider.has_focus() {
            painter.circle_stroke(centre, radius + 1.6, Stroke::new(tokens::FOCUS, t.accent));
        } else if slider.hovered() || slider.dragged() {
            painter.circle_filled(centre, 2.2, t.card);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::vec2;

    #[test]
    fn marks_sit_where_egui_puts_the_handle() {
        let mut rail = Rail {
            rect: Rect::from_min_size(pos2(0.0, 0.0), vec2(180.0, 18.0)),
            range: 0.0..=40.0,
            logarithmic: false,
            smallest: 0.1,
        };
        assert!((rail.position(20.0) - 90.0).abs() < 1e-3);
        assert!((rail.position(99.0) - (180.0 - 7.2)).abs() < 1e-3);
        rail.logarithmic = true;
        rail.range = 0.1..=10.0;
        assert!((rail.position(1.0) - 90.0).abs() < 1e-3);
        rail.range = 0.0..=10.0;
        assert!((rail.position(1.0) - 90.0).abs() < 1e-3);
    }
}
