//! A picker: the entry in use, and the others to put in its place.

use egui::{ComboBox, IdSalt, RichText, Ui};

use crate::ui::{fonts, tokens};

/// A longer name is cut with an ellipsis; the list shows it whole.
const WIDEST: f32 = 176.0;

/// Draws the picker and returns the place of a newly picked option.
///
/// `name` is what screen readers and tests call it ("Base").
pub fn picker(ui: &mut Ui, salt: IdSalt, name: &str, current: &str, options: &[&str]) -> Option<usize> {
    let t = tokens::of(ui);
    let mut picked = None;
    let text = RichText::new(current).font(fonts::regular(tokens::SMALL + 1.0)).color(t.ink_soft);
    let shown = ui.scope(|ui| {
        ui.set_max_width(WIDEST.min(ui.available_width()));
        ComboBox::from_id_salt(salt).selected_text(text).truncate().show_ui(ui, |ui| {
            for (i, option) in options.iter().enumerate() {
                if ui.selectable_label(*option == current, *option).clicked() && *option != current {
                    picked = Some(i);
                }
            }
        })
    });
    let shown = shown.inner;
    shown.response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::accesskit::Role::ComboBox, true, name);
        info.current_text_value = Some(current.to_owned());
        info
    });
    picked
}
