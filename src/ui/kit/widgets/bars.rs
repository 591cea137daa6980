//! Bars of named contributions: name, bar, value.

use egui::{Align, Color32, Rect, Sense, Ui, vec2};

use crate::widgets::line_in;
use crate::{fonts, tokens};

/// Height of one row in points.
const ROW: f32 = 16.0;
const BAR: f32 = 8.0;

/// One contribution.
#[derive(Clone, Copy, Debug)]
pub struct Bar<'a> {
    pub name: &'a str,
    /// In any unit common to all bars; negative ones run to the left of the zero line.
    pub amount: f64,
    /// The amount in words at the right; may be empty.
    pub value: &'a str,
    pub color: Color32,
}

/// Draws the bars to one scale: `whole` over the whole middle column, or the longest.
pub fn bars(ui: &mut Ui, all: &[Bar<'_>], whole: Option<f64>) {
    ui.scope(|ui| rows(ui, all, whole));
}

fn rows(ui: &mut Ui, all: &[Bar<'_>], whole: Option<f64>) {
    let t = tokens::of(ui);
    let amounts = || (all.iter().map(|bar| bar.amount)).filter(|amount| amount.is_finite());
    let (low, high) = amounts()
        .chain(whole)
        .fold((0.0, 0.0), |(low, high): (f64, f64), amount| (low.min(amount), high.max(amount)));
    let span = (high - low).max(f64::MIN_POSITIVE);
    let small = fonts::regular(tokens::SMALL);
    ui.spacing_mut().item_spacing.y = 0.0;
    // Values are whole; the bars give way.
    let width_of = |bar: &Bar<'_>| {
        ui.painter().layout_no_wrap(bar.value.to_owned(), small.clone(), t.ink).size().x + tokens::GAP_SMALL
    };
    let widest = all.iter().map(width_of).fold(0.0, f32::max);
    for bar in all {
        let size = vec2(ui.available_width(), ROW);
        let (row, response) = ui.allocate_exact_size(size, Sense::hover());
        let names = row.with_max_x(row.left() + row.width() * 0.42);
        let values = row.with_min_x(row.right() - (row.width() * 0.24).max(widest).min(row.width() * 0.4));
        line_in(ui, names, bar.name, small.clone(), t.ink_soft, Align::Min);
        let middle = Rect::from_x_y_ranges(
            names.right() + tokens::GAP_SMALL..=values.left() - tokens::GAP_SMALL,
            row.center().y - BAR / 2.0..=row.center().y + BAR / 2.0,
        );
        let x_of = |amount: f64| {
            let fraction = ((amount - low) / span) as f32;
            egui::lerp(middle.x_range(), fraction)
        };
        if bar.amount.is_finite() {
            let (zero, end) = (x_of(0.0), x_of(bar.amount));
            let filled = middle.with_min_x(zero.min(end)).with_max_x(zero.max(end).max(zero.min(end) + 1.5));
            ui.painter().rect_filled(filled, 2, bar.color);
        }
        if low < 0.0 {
            let stroke = egui::Stroke::new(tokens::HAIRLINE, t.mark);
            ui.painter().vline(x_of(0.0), row.y_range(), stroke);
        }
        if !bar.value.is_empty() {
            line_in(ui, values, bar.value, small.clone(), t.ink, Align::Max);
        }
        response.on_hover_text(format!("{} {}", bar.name, bar.value));
    }
}
