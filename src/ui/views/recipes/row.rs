//! One recipe in the list: a small curve of its sourness, name, what is in it, what comes of it.

use egui::accesskit::Role;
use egui::{Align, Pos2, Rect, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use potset_base::clock::day_words;
use potset_base::number;
use potset_base::words::ACID_LINE_PH;
use potset_catalogue::recipes::Recipe;
use potset_report::recipes::{answer_words, made_words};
use potset_ui_kit::widgets::line_in;
use potset_ui_kit::{fonts, tokens};

/// Height of a row, points.
pub const HEIGHT: f32 = 50.0;
/// Width of the small curve.
const CURVE: f32 = 84.0;
/// Width of what comes of it, and of the maker's marks.
const ANSWER: f32 = 210.0;
const MARKS: f32 = 120.0;

/// How a row looks.
#[derive(Clone, Copy)]
pub struct Look {
    pub marked: bool,
    pub open: bool,
    /// Another recipe bears the same name.
    pub twin: bool,
}

/// Draws a row; true if it was pressed.
pub fn show(ui: &mut Ui, one: &Recipe, place: usize, look: Look) -> bool {
    let t = tokens::of(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    let response = ui.interact(rect, ui.scope_id().with(("recipe", place)), Sense::CLICK);
    if look.marked || look.open || response.hovered() {
        let fill = if look.open { t.accent_soft } else { t.hover };
        ui.painter().rect_filled(rect.shrink2(vec2(0.0, 1.0)), tokens::RADIUS_SMALL, fill);
    }
    let inner = rect.shrink2(vec2(8.0, 5.0));
    curve(ui, one, Rect::from_min_size(inner.min, vec2(CURVE, inner.height())));
    let narrow = rect.width() < 620.0;
    let answer = if narrow { 150.0 } else { ANSWER };
    let marks = if narrow { 0.0 } else { MARKS };
    let left = inner.left() + CURVE + 12.0;
    let middle = inner.right() - answer - marks;
    let cell = |from: f32, to: f32, line: usize| {
        let top = inner.top() + if line == 0 { 0.0 } else { 20.0 };
        Rect::from_min_max(pos2(from, top), pos2(to - 6.0, top + 20.0))
    };
    let s = &one.summary;
    line_in(ui, cell(left, middle, 0), &s.name, fonts::semibold(tokens::BODY), t.ink, Align::Min);
    let mut in_it = format!("{} · {} L", s.bases.join(", "), number::rough(s.litres));
    if look.twin {
        in_it = format!("same name as another: {}", one.file);
    }
    let quiet = fonts::regular(tokens::SMALL);
    let soft = if look.twin { t.warn } else { t.ink_soft };
    line_in(ui, cell(left, middle, 1), &in_it, quiet.clone(), soft, Align::Min);
    let (word, below) = answer_words(one.answer.as_ref(), s.hold_h);
    let color = if one.answer.as_ref().is_some_and(|a| a.discard) { t.stop } else { t.ink };
    line_in(ui, cell(middle, middle + answer, 0), &word, fonts::regular(tokens::BODY), color, Align::Min);
    line_in(ui, cell(middle, middle + answer, 1), &below, quiet.clone(), t.ink_soft, Align::Min);
    if !narrow {
        let to = inner.right() + 6.0;
        stars(ui, cell(to - marks, to, 0), one.record.stars);
        let made = made_words(one.record.made.len(), one.last_made().map(day_words));
        line_in(ui, cell(to - marks, to, 1), &made, quiet, t.ink_soft, Align::Max);
    }
    let told = format!("{}, {in_it}, {word}, {below}", s.name);
    response.widget_info(|| WidgetInfo::selected(Role::ListItem, true, look.open || look.marked, &told));
    response.clicked()
}

/// As many stars as the maker gave; none are a quiet place.
fn stars(ui: &Ui, rect: Rect, count: u8) {
    let t = tokens::of(ui);
    for i in 0..count {
        let centre = pos2(rect.right() - 7.0 - 14.0 * f32::from(count - 1 - i), rect.center().y);
        star(ui, centre, 6.0, t.accent);
    }
}

/// A filled star with five points.
pub fn star(ui: &Ui, centre: Pos2, radius: f32, color: egui::Color32) {
    let at = |k: u8, share: f32| {
        let turn = std::f32::consts::TAU * (f32::from(k) / 10.0 - 0.25);
        centre + radius * share * vec2(turn.cos(), turn.sin())
    };
    // A star is no convex shape: five kites of it are.
    for k in 0..5_u8 {
        let tip = 2 * k;
        let kite = vec![centre, at((tip + 9) % 10, 0.42), at(tip, 1.0), at((tip + 1) % 10, 0.42)];
        ui.painter().add(egui::Shape::convex_polygon(kite, color, Stroke::NONE));
    }
}

/// Sourness over the hold, with the line that divides sour from not.
fn curve(ui: &Ui, one: &Recipe, rect: Rect) {
    let t = tokens::of(ui);
    ui.painter().rect_filled(rect, 2.0, t.well);
    let Some(answer) = &one.answer else { return };
    /// From the top to the bottom of the small curve.
    const PH: (f64, f64) = (7.0, 3.4);
    let y = |ph: f64| {
        let share = ((PH.0 - ph) / (PH.0 - PH.1)).clamp(0.0, 1.0);
        egui::lerp(rect.top() + 2.0..=rect.bottom() - 2.0, share as f32)
    };
    let dash = egui::Shape::dashed_line(
        &[pos2(rect.left(), y(ACID_LINE_PH)), pos2(rect.right(), y(ACID_LINE_PH))],
        Stroke::new(tokens::HAIRLINE, t.rule),
        3.0,
        3.0,
    );
    ui.painter().extend(dash);
    let points: Vec<f64> = answer.points().collect();
    let last = points.len().saturating_sub(1).max(1) as f32;
    let path = points.iter().enumerate();
    let path =
        path.map(|(k, ph)| pos2(egui::lerp(rect.left() + 2.0..=rect.right() - 2.0, k as f32 / last), y(*ph)));
    ui.painter().line(path.collect(), Stroke::new(1.5, t.ph.line));
}
