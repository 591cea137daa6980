//! The finder: every action by name.

use std::sync::LazyLock;

use egui::{Key, TextEdit, Ui};

use super::window;
use potset_app::{Action, Command, State};
use potset_base::lexicon;

/// What was typed, and which line is marked.
#[derive(Default)]
pub struct Find {
    text: String,
    marked: usize,
}

impl Find {
    /// Draws the finder.
    pub fn show(&mut self, ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
        let mut chosen = None;
        // Room for all that was found before: it does not open small after a narrow search.
        let room = (ui.ctx().content_rect().height() - 220.0).clamp(120.0, 420.0);
        let closed = window(ui, "Find an action", 420.0, |ui| {
            let field = ui.add(
                TextEdit::singleline(&mut self.text)
                    .desired_width(f32::INFINITY)
                    .hint_text("What do you want to do? print, thicker, compare …"),
            );
            field.widget_info(|| {
                egui::WidgetInfo::labeled(egui::accesskit::Role::TextInput, true, "Part of the name")
            });
            if !field.has_focus() && !field.lost_focus() {
                field.request_focus();
            }
            let found = matching(&self.text);
            let (down, up, enter) = ui.input(|i| {
                (i.key_pressed(Key::ArrowDown), i.key_pressed(Key::ArrowUp), i.key_pressed(Key::Enter))
            });
            if field.changed() {
                self.marked = 0;
            }
            if down {
                self.marked += 1;
            }
            if up {
                self.marked = self.marked.saturating_sub(1);
            }
            self.marked = self.marked.min(found.len().saturating_sub(1));
            egui::ScrollArea::vertical()
                .max_height(room)
                .min_scrolled_height(room)
                .auto_shrink([false, true])
                .show(ui, |ui| {
                    for (i, action) in found.iter().enumerate() {
                        let disabled_reason = action.disabled_reason(state);
                        let button = egui::Button::selectable(i == self.marked, action.label())
                            .shortcut_text(action.key_words())
                            .min_size(egui::vec2(ui.available_width(), 22.0));
                        let response = ui.add_enabled(disabled_reason.is_none(), button);
                        let pressed =
                            response.clicked() || enter && i == self.marked && disabled_reason.is_none();
                        response
                            .on_hover_text(action.tip())
                            .on_disabled_hover_text(disabled_reason.unwrap_or_default());
                        if pressed {
                            chosen = Some(*action);
                        }
                    }
                    if found.is_empty() {
                        ui.label("Nothing is found. Try another word, or fewer letters");
                    }
                });
        });
        if closed || chosen.is_some() {
            out.push(Command::Do(Action::Find));
        }
        if let Some(action) = chosen.filter(|a| *a != Action::Find) {
            out.push(Command::Do(action));
        }
    }
}

/// The text of the shipped list of other words.
const TEXT: &str = include_str!("../../../assets/find_words.ron");

/// Other words for an action.
fn other_words(action: Action) -> &'static [String] {
    static WORDS: LazyLock<Vec<(String, Vec<String>)>> = LazyLock::new(|| lexicon::shipped(TEXT));
    WORDS.iter().find(|(name, _)| name == action.key_name()).map_or(&[], |(_, words)| words)
}

/// Actions whose name, sentence or other words hold every typed word.
fn matching(text: &str) -> Vec<Action> {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    let mut found: Vec<Action> = Action::ALL
        .into_iter()
        .filter(|a| *a != Action::Find)
        .filter(|a| {
            let all = format!("{} {} {}", a.label(), a.tip(), other_words(*a).join(" ")).to_lowercase();
            words.iter().all(|w| all.contains(w))
        })
        .collect();
    // What is called so comes before what only tells of it.
    found.sort_by_key(|a| !words.iter().all(|w| a.label().to_lowercase().contains(w)));
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_by_parts_of_words() {
        assert!(matching("und").contains(&Action::Undo));
        assert!(matching("dark").contains(&Action::DarkTheme));
        assert!(matching("xyz").is_empty());
        assert_eq!(matching("kitchen").first(), Some(&Action::Kitchen));
    }

    #[test]
    fn finds_by_what_people_say() {
        for (typed, wanted) in [
            ("print", Action::ExportPicture),
            ("print", Action::ExportCard),
            ("library", Action::Recipes),
            ("thicker", Action::Aim),
            ("compare", Action::Beside),
            ("help", Action::Words),
            ("cups", Action::UnitedStatesSpoons),
        ] {
            assert!(matching(typed).contains(&wanted), "{typed}");
        }
        let all: Vec<(String, Vec<String>)> = lexicon::options().from_str(TEXT).unwrap();
        assert_eq!(all.len(), 51);
        for (name, words) in &all {
            assert!(Action::ALL.iter().any(|a| a.key_name() == name) && !words.is_empty(), "{name}");
        }
    }
}
