//! Lists of pantry entries: each card's lines, with pickers to swap, add and remove.

use egui::{IdSalt, Ui};

use super::hand::Hand;
use crate::doc::Edit;
use crate::doc::edit::Shelf;
use crate::doc::pantry::Keyed;
use crate::ui::widgets::picker::picker;

/// Word for an empty list, and for taking a line out.
const NONE: &str = "none";

/// One entry that can be picked: key, name, usual amount.
pub struct Choice {
    pub key: String,
    pub name: String,
    pub amount: f64,
}

/// Choices from the pantry, with the design's own entries that the pantry lacks put first.
pub fn choices<T: Keyed>(own: &[T], shipped: &[T], read: impl Fn(&T) -> (String, f64)) -> Vec<Choice> {
    let mut all: Vec<Choice> = Vec::new();
    for entry in own.iter().chain(shipped) {
        if !all.iter().any(|c| c.key == entry.key()) {
            let (name, amount) = read(entry);
            all.push(Choice { key: entry.key().to_owned(), name, amount });
        }
    }
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all
}

/// What a shelf is called, and whether it may be empty.
pub struct ShelfWords {
    pub shelf: Shelf,
    pub title: &'static str,
    pub may_be_empty: bool,
}

/// The picker of one line. `line` is `None` for an empty list.
pub fn line_picker(
    ui: &mut Ui,
    hand: &mut Hand<'_>,
    words: &ShelfWords,
    all: &[Choice],
    line: Option<(usize, &str)>,
    count: usize,
) {
    let current = line.map_or(NONE, |(_, key)| all.iter().find(|c| c.key == key).map_or(key, |c| &c.name));
    let removable = words.may_be_empty || count > 1;
    let mut names: Vec<&str> = all.iter().map(|c| c.name.as_str()).collect();
    if removable {
        names.push(NONE);
    }
    let place = line.map_or(0, |(i, _)| i);
    let name = if place == 0 { words.title.to_owned() } else { format!("{} {}", words.title, place + 1) };
    let salt = IdSalt::new(("picker", words.title, place));
    let Some(picked) = picker(ui, salt, &name, current, &names) else { return };
    let edit = match (line, all.get(picked)) {
        (Some((i, _)), Some(choice)) => Edit::Swap(words.shelf, i, choice.key.clone()),
        (Some((i, _)), None) => Edit::Remove(words.shelf, i),
        (None, Some(choice)) => Edit::Add(words.shelf, choice.key.clone(), choice.amount),
        (None, None) => return,
    };
    hand.edit(edit);
}

/// The small menu that adds a line.
pub fn add_menu(ui: &mut Ui, hand: &mut Hand<'_>, words: &ShelfWords, all: &[Choice], used: &[&str]) {
    let shown = ui.menu_button("+", |ui| {
        for choice in all {
            let there = used.contains(&choice.key.as_str());
            if ui.add_enabled(!there, egui::Button::new(&choice.name)).clicked() {
                hand.edit(Edit::Add(words.shelf, choice.key.clone(), choice.amount));
                ui.close();
            }
        }
    });
    let name = format!("Add to {}", words.title.to_lowercase());
    shown.response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &name));
    shown.response.on_hover_text(name);
}
