//! What would be lost: work of windows that ended without saving, and a file that others wrote meanwhile.

use egui::{Label, RichText, ScrollArea, Ui};

use super::window;
use potset_app::command::{FileCommand, OnChanged};
use potset_app::{Command, State};
use potset_ui_kit::tokens;

/// Work that was found, each with its file; nothing goes unless its button is pressed.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let mut later = false;
    let closed = window(ui, "Unsaved work was found", 460.0, |ui| {
        ui.label("Potset ended before these designs were saved.");
        ui.add_space(4.0);
        ScrollArea::vertical().max_height(320.0).show(ui, |ui| {
            for (i, lost) in state.recovery.iter().enumerate() {
                ui.push_id(i, |ui| {
                    let unsaved = &lost.unsaved;
                    let name = &unsaved.design.name;
                    let place = unsaved
                        .path
                        .as_ref()
                        .map_or_else(|| "not in a file yet".to_owned(), |path| path.display().to_string());
                    ui.separator();
                    ui.add(Label::new(RichText::new(name).strong()).wrap());
                    ui.add(Label::new(RichText::new(place).size(tokens::SMALL).color(t.ink_soft)).wrap());
                    ui.horizontal(|ui| {
                        for (words, take) in [("Recover", true), ("Throw away", false)] {
                            let button = ui.button(words);
                            let label = format!("{words}: {name}");
                            button.widget_info(|| {
                                egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &label)
                            });
                            if button.clicked() {
                                out.push(FileCommand::Recover(i, take).into());
                            }
                        }
                    });
                });
            }
        });
        ui.add_space(8.0);
        later = ui
            .button("Later")
            .on_hover_text("They stay where they are, and are found again at the next start")
            .clicked();
    });
    if closed || later {
        out.push(FileCommand::RecoverLater.into());
    }
}

/// Most differences that are listed.
const MOST: usize = 8;

/// In what the design differs from what stands in its file now.
fn differences(ui: &mut Ui, state: &State) {
    let small = |words: String| RichText::new(words).size(tokens::SMALL).color(tokens::of(ui).ink_soft);
    let lines = match &state.theirs {
        None => return,
        Some(Err(why)) => vec![small(format!("The file cannot be read now: {why}"))],
        Some(Ok(all)) if all.is_empty() => vec![small("The file holds the same design as yours".to_owned())],
        Some(Ok(all)) => {
            let more = all.len().saturating_sub(MOST);
            let mut lines = vec![small("The file, and yours now:".to_owned())];
            lines.extend(all.iter().take(MOST).map(|line| small(line.clone())));
            lines.extend((more > 0).then(|| small(format!("and {more} more"))));
            lines
        }
    };
    ui.add_space(4.0);
    for line in lines {
        ui.add(Label::new(line).wrap());
    }
}

/// The file changed since it was read here: it is not written over unasked.
pub fn changed(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let file = state.session.path.as_ref().map_or_else(String::new, |path| path.display().to_string());
    let mut choice = None;
    let closed = window(ui, "The file changed on the disk", 460.0, |ui| {
        let words =
            "Another window or program changed the file since you opened it. Your design was not saved.";
        ui.add(Label::new(words).wrap());
        ui.add(Label::new(RichText::new(file).size(tokens::SMALL).color(tokens::of(ui).ink_soft)).wrap());
        differences(ui, state);
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            for (words, what) in [
                ("Keep both: save under another name", OnChanged::Elsewhere),
                ("Replace it", OnChanged::Replace),
                ("Cancel", OnChanged::Cancel),
            ] {
                if ui.button(words).clicked() {
                    choice = Some(what);
                }
            }
        });
    });
    if let Some(choice) = choice.or(closed.then_some(OnChanged::Cancel)) {
        out.push(FileCommand::Changed(choice).into());
    }
}
