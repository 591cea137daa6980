//! A picker: the entry in use, and the others to put in its place.

use egui::{ComboBox, IdSalt, Key, RichText, Ui};

use crate::{fonts, tokens};

/// A longer name is cut with an ellipsis; the list shows it whole.
const WIDEST: f32 = 300.0;

/// The width that a picker needs for its name: with its margins and the sign that there is a list.
pub fn width(ui: &Ui, current: &str) -> f32 {
    let font = fonts::regular(tokens::SMALL + 1.0);
    let text = ui.painter().layout_no_wrap(current.to_owned(), font, egui::Color32::PLACEHOLDER).size().x;
    let spacing = ui.spacing();
    (text + spacing.icon_width + spacing.icon_spacing + 2.0 * spacing.button_padding.x + 4.0).min(WIDEST)
}

/// A word with its picker after it, or below it where the name of what is in use has no room there.
pub fn row(
    ui: &mut Ui,
    word: &str,
    salt: IdSalt,
    name: &str,
    current: &str,
    options: &[&str],
) -> Option<usize> {
    let font = fonts::regular(tokens::BODY);
    let before = ui.painter().layout_no_wrap(word.to_owned(), font, egui::Color32::PLACEHOLDER).size().x;
    let fits = before + ui.spacing().item_spacing.x + width(ui, current) <= ui.available_width();
    if fits {
        return ui
            .horizontal(|ui| {
                ui.label(word);
                picker(ui, salt, name, current, options)
            })
            .inner;
    }
    ui.label(word);
    picker(ui, salt, name, current, options)
}

/// Draws the picker and returns the place of a newly picked option.
///
/// `name` is what screen readers and tests call it ("Base").
pub fn picker(ui: &mut Ui, salt: IdSalt, name: &str, current: &str, options: &[&str]) -> Option<usize> {
    let t = tokens::of(ui);
    let mut picked = None;
    let text = RichText::new(current).font(fonts::regular(tokens::SMALL + 1.0)).color(t.ink_soft);
    // Opened by a key, the keys go on from what is in use.
    let open_at = ui.scope_id().with((salt, "open"));
    let opened = ui.data(|d| d.get_temp::<bool>(open_at)).unwrap_or(false);
    let first = !opened && ui.input(|i| i.key_pressed(Key::Enter) || i.key_pressed(Key::Space));
    let shown = ui.scope(|ui| {
        ui.set_max_width(WIDEST.min(ui.available_width()));
        ComboBox::from_id_salt(salt).selected_text(text).truncate().show_ui(ui, |ui| {
            for (i, option) in options.iter().enumerate() {
                let line = ui.selectable_label(*option == current, *option);
                if first && *option == current {
                    line.request_focus();
                }
                if line.clicked() {
                    picked = (*option != current).then_some(i);
                    ui.close();
                }
            }
        })
    });
    let shown = shown.inner;
    let open = shown.inner.is_some();
    ui.data_mut(|d| d.insert_temp(open_at, open));
    // Closed by a key, the keys go back to where they came from: what they were on is gone.
    if opened && ui.input(|i| i.key_pressed(Key::Enter) || i.key_pressed(Key::Escape)) {
        shown.response.request_focus();
    }
    shown.response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::accesskit::Role::ComboBox, true, name);
        info.current_text_value = Some(current.to_owned());
        info
    });
    picked
}
