//! A value explained: the compact form of the hover, and the parts, laws and numbers that the whole form is made of.

use egui::{Align, Color32, Layout, Sense, Ui, vec2};

use crate::widgets::kind_mark::{kind_mark, paint};
use crate::widgets::{line_in, wrapped};
use crate::{fonts, tokens};
use potset_explain::Law;
use potset_forecast::numbers::Number;
use potset_report::explain::{Explanation, Part};

/// How many parts and numbers the hover shows.
const PARTS: usize = 5;
const NUMBERS: usize = 4;

/// The hover: value, ground, parts, the leading law and the most telling numbers. Every line has its height at once.
pub fn compact(ui: &mut Ui, e: &Explanation) {
    let t = tokens::of(ui);
    ui.spacing_mut().item_spacing.y = 2.0;
    head(ui, e);
    parts(ui, e.made_of, &e.parts, PARTS);
    if let Some(first) = e.basis.laws.first() {
        ui.add_space(tokens::GAP_SMALL);
        wrapped(ui, &first.name, fonts::semibold(tokens::SMALL + 1.0), t.ink);
        wrapped(ui, &first.source_line(), fonts::regular(tokens::SMALL), t.ink_soft);
        if e.basis.laws.len() > 1 {
            let more = format!("and {} more laws", e.basis.laws.len() - 1);
            wrapped(ui, &more, fonts::regular(tokens::SMALL), t.ink_soft);
        }
    }
    ui.add_space(tokens::GAP_SMALL);
    for number in e.basis.numbers.iter().take(NUMBERS) {
        line(ui, number);
    }
    let rest = e.basis.numbers.len().saturating_sub(NUMBERS);
    let more = if rest > 0 { format!("and {rest} more numbers. ") } else { String::new() };
    ui.add_space(tokens::GAP_SMALL);
    let press = format!("{more}Press to see all of it. Menu Numbers shows where the numbers come from");
    wrapped(ui, &press, fonts::regular(tokens::SMALL), t.accent);
}

/// Name, value, moment, and what weak ground it stands on.
pub fn head(ui: &mut Ui, e: &Explanation) {
    let t = tokens::of(ui);
    let first = format!("{}: {}", e.name, e.value);
    wrapped(ui, &first, fonts::semibold(tokens::BODY), t.ink);
    wrapped(ui, &e.at, fonts::regular(tokens::SMALL), t.ink_soft);
    let caveat = e.caveat();
    if !caveat.is_empty() {
        wrapped(ui, &caveat, fonts::regular(tokens::SMALL + 0.5), t.warn);
    }
}

/// Named parts with their amounts, and a thin bar under each that has one.
pub fn parts(ui: &mut Ui, heading: &str, parts: &[Part], most: usize) {
    if parts.is_empty() {
        return;
    }
    let t = tokens::of(ui);
    ui.add_space(tokens::GAP_SMALL);
    wrapped(ui, heading, fonts::semibold(tokens::SMALL + 1.0), t.ink);
    let longest = parts.iter().map(|p| p.amount.abs()).filter(|a| a.is_finite()).fold(0.0, f64::max);
    for part in parts.iter().take(most) {
        part_row(ui, part, longest);
    }
    if parts.len() > most {
        let more = format!("and {} more", parts.len() - most);
        wrapped(ui, &more, fonts::regular(tokens::SMALL), t.ink_soft);
    }
}

fn part_row(ui: &mut Ui, part: &Part, longest: f64) {
    let t = tokens::of(ui);
    let (row, _) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), Sense::hover());
    let text = row.with_max_y(row.top() + 14.0);
    named(ui, text, &part.name, &part.value);
    if part.amount.is_finite() && longest > 0.0 {
        let share = (part.amount.abs() / longest) as f32;
        let rail = egui::Rect::from_min_max(egui::pos2(row.left(), row.bottom() - 3.0), row.right_bottom());
        ui.painter().rect_filled(rail, 1.0, t.rule);
        ui.painter().rect_filled(rail.with_max_x(rail.left() + rail.width() * share), 1.0, t.mark);
    }
}

/// A number in one line: mark, name, value.
fn line(ui: &mut Ui, number: &Number) {
    let (row, _) = ui.allocate_exact_size(vec2(ui.available_width(), 15.0), Sense::hover());
    paint(ui, egui::pos2(row.left() + 5.0, row.center().y), number.kind);
    let told = format!("{} · {}", number.quantity(), number.kind.words());
    // The name first: what is cut off is the end.
    let name = format!("{}, {}", number.name, number.group);
    named(ui, row.with_min_x(row.left() + 14.0), &name, &told);
}

/// A value at the right, and its name in the room that is left of it.
fn named(ui: &mut Ui, text: egui::Rect, name: &str, value: &str) {
    let (t, small) = (tokens::of(ui), fonts::regular(tokens::SMALL));
    let right = text.with_min_x(text.left() + text.width() * 0.4);
    let value = line_in(ui, right, value, small.clone(), t.ink, Align::Max);
    let left = text.with_max_x(value.rect.left() - tokens::GAP);
    line_in(ui, left, name, small, t.ink_soft, Align::Min);
}

/// A law with its formula and source.
pub fn law(ui: &mut Ui, law: &Law) {
    let t = tokens::of(ui);
    wrapped(ui, &law.name, fonts::semibold(tokens::BODY - 1.0), t.ink);
    let formula = law.formula_line();
    if !formula.is_empty() {
        wrapped(ui, &formula, fonts::regular(tokens::SMALL + 1.0), t.ink);
    }
    wrapped(ui, &law.source_line(), fonts::regular(tokens::SMALL), t.ink_soft);
    ui.add_space(tokens::GAP_SMALL);
}

/// A number with all that is known of it.
pub fn number(ui: &mut Ui, number: &Number) {
    let t = tokens::of(ui);
    ui.horizontal_top(|ui| {
        kind_mark(ui, number.kind);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            wrapped(ui, &headline(number), fonts::regular(tokens::BODY - 1.0), t.ink);
            let color: Color32 = if number.kind.weak() { t.warn } else { t.ink_soft };
            wrapped(ui, &source(number), fonts::regular(tokens::SMALL), color);
        });
    });
    ui.add_space(2.0);
}

/// Name, value and spread in one line.
pub fn headline(number: &Number) -> String {
    let spread =
        if number.spread.is_empty() { String::new() } else { format!(" (usually {})", number.within()) };
    format!("{}: {}{spread}", number.title(), number.quantity())
}

/// Kind, reference and validity in one line.
pub fn source(number: &Number) -> String {
    let valid = if number.valid.is_empty() { String::new() } else { format!("; holds for {}", number.valid) };
    let own = if number.own { "; as this design carries it" } else { "" };
    format!("{}: {}{valid}{own}", number.kind.words(), number.source)
}

/// Buttons in a row from the right; the first is the last to the eye.
pub fn buttons(ui: &mut Ui, add: impl FnOnce(&mut Ui)) {
    ui.add_space(tokens::GAP_SMALL);
    let size = vec2(ui.available_width(), 24.0);
    ui.allocate_ui_with_layout(size, Layout::right_to_left(Align::Center), add);
}
