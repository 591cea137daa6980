//! Painting of small plots by hand: places, grids, bands, hatching.

use egui::{Align2, Color32, Mesh, Painter, Pos2, Rect, Shape, Stroke, Ui, pos2};

use potset_base::number::{NBSP, plain};
use potset_ui_kit::{fonts, tokens};

/// Between two lines of a hatching, points.
const HATCH: f32 = 7.0;

/// Where values are on the screen.
#[derive(Clone, Copy, Debug)]
pub struct Plot {
    pub rect: Rect,
    pub x: (f64, f64),
    pub y: (f64, f64),
}

impl Plot {
    pub fn x(&self, value: f64) -> f32 {
        let share = (value - self.x.0) / (self.x.1 - self.x.0).max(1e-9);
        egui::lerp(self.rect.left()..=self.rect.right(), share as f32)
    }

    pub fn y(&self, value: f64) -> f32 {
        let share = (value - self.y.0) / (self.y.1 - self.y.0).max(1e-9);
        egui::lerp(self.rect.bottom()..=self.rect.top(), share as f32)
    }

    pub fn at(&self, x: f64, y: f64) -> Pos2 {
        pos2(self.x(x), self.y(y))
    }

    /// What stands under a place on the screen, across.
    pub fn hours(&self, x: f32) -> f64 {
        let share = f64::from((x - self.rect.left()) / self.rect.width().max(1.0));
        self.x.0 + share * (self.x.1 - self.x.0)
    }

    /// Points as a path, those that are no numbers left out.
    pub fn path(&self, points: impl IntoIterator<Item = (f64, f64)>) -> Vec<Pos2> {
        let finite = points.into_iter().filter(|(x, y)| x.is_finite() && y.is_finite());
        finite.map(|(x, y)| self.at(x, y)).collect()
    }

    /// A painter that stays inside.
    pub fn inside(&self, ui: &Ui) -> Painter {
        ui.painter().with_clip_rect(self.rect.intersect(ui.clip_rect()))
    }
}

/// Steps of hours that clocks have.
pub fn hour_step(span: f64, most: f64) -> f64 {
    let raw = span / most;
    [0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0].into_iter().find(|s| *s >= raw).unwrap_or(240.0)
}

/// The marks of a scale.
pub fn marks((from, to): (f64, f64), step: f64) -> impl Iterator<Item = f64> {
    let first = (from / step - 1e-9).ceil();
    let count = ((to / step + 1e-9).floor() - first).max(-1.0) as u32;
    (0..=count)
        .map(move |k| (first + f64::from(k)) * step)
        .filter(move |v| *v >= from - 1e-9 && *v <= to + 1e-9)
}

/// Lines across with their texts at the left.
pub fn grid_y(ui: &Ui, plot: &Plot, marks: impl IntoIterator<Item = (f64, String)>) {
    let t = tokens::of(ui);
    let line = Stroke::new(tokens::HAIRLINE, t.rule);
    for (value, words) in marks {
        let y = plot.y(value);
        ui.painter().hline(plot.rect.x_range(), y, line);
        let at = pos2(plot.rect.left() - 6.0, y);
        ui.painter().text(at, Align2::RIGHT_CENTER, words, fonts::regular(tokens::SMALL), t.ink_soft);
    }
}

/// Hours below, and the clock below them where there is one; both where they have room.
pub fn axis(ui: &Ui, plot: &Plot, clock: impl Fn(f64) -> Option<String>) {
    let t = tokens::of(ui);
    let font = fonts::regular(tokens::SMALL);
    let most = f64::from(plot.rect.width() / 78.0).max(2.0);
    let (mut hours_to, mut clock_to) = (f32::NEG_INFINITY, f32::NEG_INFINITY);
    for h in marks(plot.x, hour_step(plot.x.1 - plot.x.0, most)) {
        let x = plot.x(h);
        ui.painter().vline(x, plot.rect.y_range(), Stroke::new(tokens::HAIRLINE, t.rule));
        let put = |words: String, y: f32, to: &mut f32| {
            let galley = ui.painter().layout_no_wrap(words, font.clone(), t.ink_soft);
            let half = galley.size().x / 2.0;
            let left = (x - half).clamp(plot.rect.left() - 30.0, plot.rect.right() - 2.0 * half);
            if left > *to + 8.0 {
                *to = left + 2.0 * half;
                ui.painter().galley(pos2(left, y), galley, t.ink_soft);
            }
        };
        put(format!("{}{NBSP}h", plain(h)), plot.rect.bottom() + 3.0, &mut hours_to);
        if let Some(words) = clock(h) {
            put(words, plot.rect.bottom() + 17.0, &mut clock_to);
        }
    }
}

/// The area between two curves over the same points.
pub fn band(plot: &Plot, t: &[f64], low: &[f64], high: &[f64], color: Color32) -> Shape {
    let mut mesh = Mesh::default();
    let points = t.iter().zip(low).zip(high).filter(|((_, low), high)| low.is_finite() && high.is_finite());
    for ((t, low), high) in points {
        let at = u32::try_from(mesh.vertices.len()).unwrap_or(0);
        mesh.colored_vertex(plot.at(*t, *low), color);
        mesh.colored_vertex(plot.at(*t, *high), color);
        if at >= 2 {
            mesh.add_triangle(at - 2, at - 1, at);
            mesh.add_triangle(at - 1, at, at + 1);
        }
    }
    Shape::mesh(mesh)
}

/// Slanted lines over an area.
pub fn hatch(painter: &Painter, rect: Rect, color: Color32) {
    let inside = painter.with_clip_rect(rect.intersect(painter.clip_rect()));
    let count = ((rect.width() + rect.height()) / HATCH).ceil() as usize;
    for k in 0..=count {
        let x = rect.left() + HATCH * k as f32;
        let ends = [pos2(x, rect.top()), pos2(x - rect.height(), rect.bottom())];
        inside.line_segment(ends, Stroke::new(tokens::HAIRLINE, color));
    }
}

/// An upright line with its word at the top.
pub fn upright(ui: &Ui, plot: &Plot, x: f64, words: &str, color: Color32, row: usize) {
    let at = plot.x(x);
    if !plot.rect.x_range().contains(at) {
        return;
    }
    ui.painter().vline(at, plot.rect.y_range(), Stroke::new(tokens::CURVE, color));
    let galley = ui.painter().layout_no_wrap(words.to_owned(), fonts::semibold(tokens::SMALL), color);
    let right = at + 4.0 + galley.size().x > plot.rect.right();
    let left = if right { at - 4.0 - galley.size().x } else { at + 4.0 };
    ui.painter().galley(pos2(left, plot.rect.top() + 2.0 + 14.0 * row as f32), galley, color);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_have_round_steps_and_all_their_marks() {
        assert!((hour_step(26.0, 8.0) - 6.0).abs() < 1e-12);
        let all: Vec<f64> = marks((3.6, 6.8), 0.5).collect();
        assert_eq!(all, [4.0, 4.5, 5.0, 5.5, 6.0, 6.5]);
        assert_eq!(marks((1.2, 1.4), 1.0).count(), 0);
        let plot = Plot {
            rect: Rect::from_min_max(pos2(0.0, 0.0), pos2(100.0, 50.0)),
            x: (0.0, 10.0),
            y: (4.0, 6.0),
        };
        assert_eq!(plot.at(5.0, 5.0), pos2(50.0, 25.0));
        assert!((plot.hours(50.0) - 5.0).abs() < 1e-6);
    }
}
