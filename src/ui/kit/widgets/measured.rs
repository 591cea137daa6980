//! The measures of an amount: what stands beside a lever's value, and the menu that it opens.

use egui::accesskit::Role;
use egui::{Align, Popup, Rect, ScrollArea, Sense, Ui, WidgetInfo, vec2};

use crate::widgets::line_in;
use crate::widgets::reading::underline;
use crate::{fonts, tokens};
use potset_base::measures::{Measure, Said};

/// How a lever's number is said, and what its menu is called.
#[derive(Clone, Copy, Debug)]
pub struct Measured<'a> {
    pub said: Said<'a>,
    /// "Measure of the sugar 1".
    pub name: &'a str,
}

/// Draws the amount in other words over `rect`, and returns the measure that was picked.
///
/// `value` is the lever's number, and its text in the lever's own unit.
pub fn menu(ui: &mut Ui, rect: Rect, measured: &Measured<'_>, value: (f64, &str)) -> Option<Measure> {
    let t = tokens::of(ui);
    let said = &measured.said;
    let words = said.beside(value.0);
    line_in(ui, rect, &words, fonts::regular(tokens::SMALL), t.ink_soft, Align::Max);
    // The whole place is pressed, however long the words: it does not move while the lever is dragged.
    let response = ui.interact(rect, ui.scope_id().with("measure"), Sense::click());
    let mut picked = None;
    Popup::menu(&response).show(|ui| {
        ScrollArea::vertical().max_height(0.5 * ui.ctx().content_rect().height()).show(ui, |ui| {
            for (measure, text) in said.choices(value.0, value.1) {
                let choice = ui.selectable_label(measure == said.shown(), text);
                let choice = match measure.advice() {
                    Some(advice) => choice.on_hover_text(advice),
                    None => choice,
                };
                if choice.clicked() {
                    picked = Some(measure);
                    ui.close();
                }
            }
        });
    });
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::Button, ui.is_enabled(), measured.name);
        info.current_text_value = Some(words.clone());
        info
    });
    underline(ui, &response);
    sign(ui, rect, t.accent);
    response.on_hover_cursor(egui::CursorIcon::PointingHand).on_hover_text(said.hover(value.0));
    picked.filter(|m| *m != said.measure)
}

/// A small triangle in the margin at the right: there is a menu.
fn sign(ui: &Ui, rect: Rect, color: egui::Color32) {
    let middle = rect.right_center() + vec2(5.5, 0.0);
    let corners = [vec2(-3.0, -1.5), vec2(3.0, -1.5), vec2(0.0, 2.0)].map(|d| middle + d);
    ui.painter().add(egui::Shape::convex_polygon(corners.to_vec(), color, egui::Stroke::NONE));
}
