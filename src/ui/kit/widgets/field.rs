//! A field of text that hands its text on when it is left.

use egui::{Id, TextEdit, Ui};

/// Draws the field; the new text when it was changed and left (Enter, Tab, or a press elsewhere).
///
/// `name` is what screen readers and tests call it. What is typed lives in egui's memory until then.
pub fn field(ui: &mut Ui, name: &str, text: &str, hint: &str, width: f32) -> Option<String> {
    show(ui, name, text, hint, width, false)
}

/// The same for several lines.
pub fn area(ui: &mut Ui, name: &str, text: &str, hint: &str) -> Option<String> {
    let width = ui.available_width();
    show(ui, name, text, hint, width, true)
}

/// What was typed was refused: it stays in the field to be mended.
pub fn refuse(ui: &Ui, name: &str, typed: &str) {
    let id = Id::unique(("field", name));
    ui.data_mut(|d| {
        d.insert_temp(id, typed.to_owned());
        d.insert_temp(id.with("refused"), true);
    });
}

fn show(ui: &mut Ui, name: &str, text: &str, hint: &str, width: f32, lines: bool) -> Option<String> {
    let id = Id::unique(("field", name));
    let kept = ui.data(|d| d.get_temp::<String>(id));
    let mut typed = kept.clone().unwrap_or_else(|| text.to_owned());
    let edit = if lines {
        TextEdit::multiline(&mut typed).desired_rows(3)
    } else {
        TextEdit::singleline(&mut typed)
    };
    let response = ui.add(edit.desired_width(width).hint_text(hint).id(id.with("edit")));
    response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::accesskit::Role::TextInput, true, name);
        info.current_text_value = Some(text.to_owned());
        info
    });
    let refused = ui.data(|d| d.get_temp::<bool>(id.with("refused"))).unwrap_or(false);
    if refused && !response.has_focus() && !response.lost_focus() {
        return None;
    }
    if refused && response.has_focus() {
        ui.data_mut(|d| d.remove::<bool>(id.with("refused")));
    }
    if response.has_focus() {
        if kept.as_ref() != Some(&typed) {
            ui.data_mut(|d| d.insert_temp(id, typed));
        }
        return None;
    }
    if kept.is_some() {
        ui.data_mut(|d| d.remove::<String>(id));
    }
    (response.lost_focus() && typed != text).then_some(typed)
}
