//! The rows of the numbers: only those in sight are drawn; arrows move the mark, and the marked one is told whole below.

use egui::{Align, Rect, Response, RichText, ScrollArea, Sense, Ui, WidgetInfo, accesskit::Role, vec2};

use super::numbers_filter::Order;
use potset_forecast::numbers::Number;
use potset_ui_kit::widgets::list::List;
use potset_ui_kit::widgets::{explained, kind_mark, line_in, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Height of the place under the rows where the marked number is told whole.
const DETAIL: f32 = 82.0;
/// What stands around the rows in the window: their head, the marked number, the foot.
pub const AROUND: f32 = DETAIL + 72.0;
const ROW: f32 = 21.0;
/// Widths of value, spread and kind in points; name and source share the rest.
const FIXED: [f32; 3] = [112.0, 104.0, 112.0];
/// What of the rest is the name's.
const NAME: f32 = 0.58;

/// The rows between frames.
#[derive(Default)]
pub struct Rows(List);

impl Rows {
    /// Another list: from its top.
    pub fn top(&mut self) {
        self.0.top();
    }

    /// While this field has the keyboard, up and down move the mark.
    pub fn keys_from(&mut self, ui: &Ui, field: &Response) {
        self.0.keys_from(ui, field);
    }

    /// Draws head, rows and the marked number; true if the filters are to be cleared.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        all: &[Number],
        shown: &[usize],
        order: &mut Order,
        height: f32,
    ) -> bool {
        head(ui, order);
        if shown.is_empty() {
            return empty(ui, height + DETAIL);
        }
        let place = (shown.len(), ROW, height);
        self.0.show(ui, "Numbers", place, |ui, place, marked| row(ui, &all[shown[place]], place, marked));
        if let Some(number) = shown.get(self.0.marked()).map(|i| &all[*i]) {
            detail(ui, number);
        }
        false
    }
}

fn cell(row: Rect, column: usize) -> Rect {
    let rest = (row.width() - FIXED.iter().sum::<f32>()).max(0.0);
    let widths = [rest * NAME, FIXED[0], FIXED[1], FIXED[2], rest * (1.0 - NAME)];
    let left = row.left() + widths[..column].iter().sum::<f32>();
    row.with_min_x(left + 4.0).with_max_x(left + widths[column] - 4.0)
}

/// The heads of the columns; three of them order the rows, and give the order of the data back.
fn head(ui: &mut Ui, order: &mut Order) {
    let t = tokens::of(ui);
    let (row, _) = ui.allocate_exact_size(vec2(ui.available_width(), 20.0), Sense::hover());
    let heads = [
        ("Name", Some(Order::Name)),
        ("Value", None),
        ("usually between", None),
        ("Kind of source", Some(Order::Kind)),
        ("Source", Some(Order::Source)),
    ];
    for (column, (name, by)) in heads.into_iter().enumerate() {
        let place = cell(row, column);
        let on = by == Some(*order);
        let text = if on { format!("{name} ▾") } else { name.to_owned() };
        let color = if by.is_some() { t.accent } else { t.ink_soft };
        let label = line_in(ui, place, &text, fonts::semibold(tokens::SMALL), color, Align::Min);
        let Some(by) = by else { continue };
        let press = ui.interact(label.rect, ui.scope_id().with(("order", name)), Sense::click());
        press.widget_info(|| {
            WidgetInfo::labeled(Role::Button, true, format!("Order by {}", name.to_lowercase()))
        });
        potset_ui_kit::widgets::reading::underline(ui, &press);
        if press.clicked() {
            *order = if on { Order::Data } else { by };
        }
    }
    ui.painter().hline(row.x_range(), row.bottom(), egui::Stroke::new(tokens::HAIRLINE, t.rule));
}

/// One number in a line; true if it was pressed.
fn row(ui: &mut Ui, number: &Number, place: usize, marked: bool) -> bool {
    let t = tokens::of(ui);
    let size = vec2(ui.available_width(), ROW);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    // A press marks it; the keyboard stays with the list.
    let response = ui.interact(rect, ui.scope_id().with(("number", place)), Sense::CLICK);
    if marked || response.hovered() {
        ui.painter().rect_filled(rect, tokens::RADIUS_SMALL, if marked { t.accent_soft } else { t.hover });
    }
    let (small, ink) = (fonts::regular(tokens::SMALL + 1.0), t.ink);
    let soft = if marked || response.hovered() { t.ink } else { t.ink_soft };
    line_in(
        ui,
        cell(rect, 0),
        &number.title(),
        small.clone(),
        if number.used { ink } else { soft },
        Align::Min,
    );
    line_in(ui, cell(rect, 1), &number.quantity(), small.clone(), ink, Align::Min);
    let spread = if number.spread.is_empty() { "–".to_owned() } else { number.within() };
    line_in(ui, cell(rect, 2), &spread, small.clone(), soft, Align::Min);
    let kind = cell(rect, 3);
    kind_mark::paint(ui, egui::pos2(kind.left() + 5.0, rect.center().y), number.kind);
    let color = if number.kind.weak() { t.warn } else { soft };
    let words = kind.with_min_x(kind.left() + 14.0);
    line_in(ui, words, number.kind.words(), small.clone(), if marked { ink } else { color }, Align::Min);
    line_in(ui, cell(rect, 4), &number.source, small, soft, Align::Min);
    response.widget_info(|| {
        let text = format!("{}: {}, {}", number.title(), number.quantity(), number.kind.words());
        WidgetInfo::selected(Role::ListItem, true, marked, text)
    });
    response.clicked()
}

/// The marked number, told whole, in a place that keeps its height.
fn detail(ui: &mut Ui, number: &Number) {
    let t = tokens::of(ui);
    ui.add_space(2.0);
    let size = vec2(ui.available_width(), DETAIL - 6.0);
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    ui.painter().rect_filled(place, tokens::RADIUS_SMALL, t.page);
    let mut inside = ui.new_child(egui::UiBuilder::new().max_rect(place.shrink2(vec2(8.0, 5.0))));
    inside.set_clip_rect(place.intersect(ui.clip_rect()));
    ScrollArea::vertical().id_salt("detail").show(&mut inside, |ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        wrapped(ui, &explained::headline(number), fonts::semibold(tokens::BODY - 1.0), t.ink);
        let color = if number.kind.weak() { t.warn } else { t.ink_soft };
        wrapped(ui, &explained::source(number), fonts::regular(tokens::SMALL + 0.5), color);
        let used = if number.used { "this design rests on it" } else { "not in this design" };
        let key = format!("in the data: {} · {used}", number.key);
        ui.add(egui::Label::new(RichText::new(key).size(tokens::SMALL).color(t.ink_soft)).truncate());
    });
}

/// What to do when no number fits.
fn empty(ui: &mut Ui, height: f32) -> bool {
    let t = tokens::of(ui);
    let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let mut inside = ui.new_child(egui::UiBuilder::new().max_rect(place.shrink(tokens::PAD)));
    inside.label(RichText::new("No number fits").color(t.ink));
    wrapped(
        &mut inside,
        "Remove a filter, or try other words: “codex”, “lactic”, “agar”, a name of an author, “assumed”.",
        fonts::regular(tokens::BODY),
        t.ink_soft,
    );
    inside.button("Show all").clicked()
}
