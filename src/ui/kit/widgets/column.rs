//! A column that scrolls as one, with its bar in the panel's margin and never over what stands in the column.

use egui::{Margin, Rect, ScrollArea, Sense, Ui, UiBuilder};

use crate::tokens;

/// Draws `body` in a column over all that is left of `ui`, the last thing in its panel.
///
/// - `salt` — what tells the columns of one panel apart, so that each keeps where it was scrolled to.
/// - `gap` — between the parts of the column, points.
///
/// The panel's right margin must be at least [`tokens::SCROLL_BAR`] wide.
pub fn column<R>(ui: &mut Ui, salt: &'static str, gap: f32, body: impl FnOnce(&mut Ui) -> R) -> R {
    let own = ui.available_rect_before_wrap();
    let right = f32::from(tokens::SCROLL_BAR);
    let room = Rect::from_min_max(own.min, egui::pos2(own.right() + right, own.bottom()));
    let mut inner = ui.new_child(UiBuilder::new().max_rect(room));
    let margin = Margin { right: tokens::SCROLL_BAR, ..Margin::ZERO };
    let area = ScrollArea::vertical().id_salt(salt).auto_shrink(false).content_margin(margin);
    let shown = area.show(&mut inner, |ui| {
        ui.spacing_mut().item_spacing.y = gap;
        body(ui)
    });
    ui.allocate_rect(own, Sense::hover());
    shown.inner
}
