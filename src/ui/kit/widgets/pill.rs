//! A button that is one of several: the one in use is filled.

use egui::accesskit::Role;
use egui::{Button, Response, RichText, Stroke, Ui, WidgetInfo, vec2};

use super::focus_ring;
use crate::{fonts, tokens};

/// Draws it.
pub fn pill(ui: &mut Ui, words: &str, on: bool) -> Response {
    let t = tokens::of(ui);
    let font = if on { fonts::semibold(tokens::BODY) } else { fonts::regular(tokens::BODY) };
    let text = RichText::new(words).font(font).color(if on { t.ink } else { t.ink_soft });
    let button = Button::selectable(on, text)
        .fill(if on { t.accent_soft } else { t.page })
        .stroke(Stroke::NONE)
        .corner_radius(f32::from(tokens::RADIUS_PILL))
        .min_size(vec2(0.0, 26.0));
    let response = ui.add(button);
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, on, words));
    focus_ring(ui, &response, tokens::RADIUS_PILL);
    response
}
