//! A panel that scrolls follows the keyboard: what it comes to is brought into sight.

use egui::{Id, Ui};

/// To be called at the end of what is scrolled. `panel` tells one scrolled panel from the next.
///
/// What the pointer comes to is in sight already, and is not moved under it.
pub fn focus(ui: &Ui, panel: &str) {
    let focused = ui.memory(egui::Memory::focused);
    let place = Id::unique(("follows", panel));
    let before = ui.data_mut(|d| {
        let kept = d.get_temp_mut_or_default::<Option<Id>>(place);
        std::mem::replace(kept, focused)
    });
    if focused == before || ui.input(|i| i.pointer.any_down() || i.pointer.any_released()) {
        return;
    }
    let Some(widget) = focused.and_then(|id| ui.ctx().read_response(id)) else { return };
    // Of bars and other panels a part is in sight outside of this one; of what is scrolled away none is.
    let elsewhere = widget.interact_rect.is_positive() && !ui.clip_rect().contains_rect(widget.interact_rect);
    let inside = ui.min_rect().contains(widget.rect.center()) && widget.layer_id == ui.layer_id();
    if inside && !elsewhere {
        ui.scroll_to_rect(widget.rect.expand(4.0), None);
    }
}
