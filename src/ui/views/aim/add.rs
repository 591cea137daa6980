//! Adds one of many: a button that opens a list with a search above it.

use std::sync::{Arc, Mutex};

use egui::accesskit::Role;
use egui::{Button, Popup, PopupCloseBehavior, TextEdit, Ui, WidgetInfo, vec2};

use potset_ui_kit::widgets::line_in;
use potset_ui_kit::widgets::list::List;
use potset_ui_kit::{fonts, tokens};

const WIDTH: f32 = 300.0;
const HEIGHT: f32 = 264.0;
const ROW: f32 = 22.0;

/// One that can be added.
pub struct Choice<'a> {
    pub key: &'a str,
    pub name: &'a str,
    /// What kind it is, in a word.
    pub kind: &'static str,
    pub aliases: &'a [String],
}

impl Choice<'_> {
    fn has(&self, words: &[String]) -> bool {
        let mut all = format!("{} {} {}", self.name, self.key, self.kind);
        for alias in self.aliases {
            all.push(' ');
            all.push_str(alias);
        }
        let all = all.to_lowercase();
        words.iter().all(|word| all.contains(word))
    }
}

/// What was typed, and which line is marked.
#[derive(Default)]
struct Seek {
    open: bool,
    text: String,
    list: List,
}

/// Draws the button, and the list while it is open; the place of what was chosen.
///
/// `name` is what screen readers and tests call it.
pub fn add(ui: &mut Ui, name: &str, words: &str, all: &[Choice<'_>]) -> Option<usize> {
    let button = ui.add(Button::new(words).small());
    button.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, name));
    let kept = ui.data_mut(|d| {
        let id = button.id.with("seek");
        Arc::clone(d.get_temp_mut_or_default::<Arc<Mutex<Seek>>>(id))
    });
    let Ok(mut seek) = kept.lock() else { return None };
    let menu = Popup::menu(&button).width(WIDTH).close_behavior(PopupCloseBehavior::CloseOnClickOutside);
    let shown = menu.show(|ui| {
        let picked = listed(ui, name, &mut seek, all);
        if picked.is_some() {
            ui.close();
        }
        picked
    });
    seek.open = shown.is_some();
    let picked = shown.and_then(|shown| shown.inner);
    if picked.is_some() || !seek.open {
        *seek = Seek::default();
    }
    picked
}

fn listed(ui: &mut Ui, name: &str, seek: &mut Seek, all: &[Choice<'_>]) -> Option<usize> {
    let field = ui.add(
        TextEdit::singleline(&mut seek.text)
            .margin(vec2(6.0, 4.0))
            .desired_width(WIDTH - 12.0)
            .hint_text("Name, alias, kind or key"),
    );
    field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, format!("{name}: search")));
    if !seek.open {
        field.request_focus();
    }
    if field.changed() {
        seek.list.top();
    }
    seek.list.keys_from(ui, &field);
    let words: Vec<String> = seek.text.split_whitespace().map(str::to_lowercase).collect();
    let found: Vec<usize> = (0..all.len()).filter(|i| all[*i].has(&words)).collect();
    if found.is_empty() {
        ui.label("No entry has these letters in its name");
    }
    ui.set_width(WIDTH);
    let did = seek
        .list
        .show(ui, name, (found.len(), ROW, HEIGHT), |ui, place, marked| row(ui, &all[found[place]], marked));
    did.pressed.or(did.entered).and_then(|place| found.get(place).copied())
}

/// A line of the list; true if it was pressed.
fn row(ui: &mut Ui, choice: &Choice<'_>, marked: bool) -> bool {
    let t = tokens::of(ui);
    let size = vec2(ui.available_width(), ROW);
    let (rect, response) = ui.allocate_exact_size(size, egui::Sense::click());
    if marked || response.hovered() {
        let fill = if marked { t.accent_soft } else { t.hover };
        ui.painter().rect_filled(rect, tokens::RADIUS_SMALL, fill);
    }
    let inner = rect.shrink2(vec2(6.0, 0.0));
    let split = inner.right() - 76.0;
    let font = || fonts::regular(tokens::SMALL + 1.0);
    line_in(ui, inner.with_max_x(split - 6.0), choice.name, font(), t.ink, egui::Align::Min);
    line_in(ui, inner.with_min_x(split), choice.kind, font(), t.ink_soft, egui::Align::Max);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Add {}", choice.name)));
    response.clicked()
}
