//! The list of recipes.

use egui::Ui;

use super::{RecipesView, row};
use potset_app::command::RecipesCommand;
use potset_app::{Action, Command, State};
use potset_ui_kit::widgets::card::nothing;

/// Draws the list.
pub fn show(ui: &mut Ui, view: &mut RecipesView, state: &State, out: &mut Vec<Command>) {
    let recipes = &state.recipes;
    if let Some(note) = &recipes.trouble {
        nothing(ui, &note.title, &format!("{} {}", note.mend, note.sentence), |_| {});
        return;
    }
    if recipes.listed.list.is_empty() && recipes.listed.left == 0 {
        let text = "Save the design on the bench into the folder, or import a folder with recipes. Each save keeps a \
                    version.";
        nothing(ui, "There is no recipe yet", text, |ui| {
            if ui.button("Save this design here…").clicked() {
                out.push(Command::Do(Action::SaveAs));
            }
        });
        return;
    }
    if view.kept.shown.is_empty() {
        nothing(ui, "No recipe fits", "Try fewer words, or remove a tick.", |_| {});
        return;
    }
    let height = (ui.available_height() - 2.0).max(row::HEIGHT * 2.0);
    let kept = &view.kept;
    let open = recipes.open.as_deref();
    let did =
        view.list.show(ui, "House recipes", (kept.shown.len(), row::HEIGHT, height), |ui, place, marked| {
            let at = kept.shown[place];
            let one = &recipes.listed.list[at];
            let twin = kept.twins.iter().any(|(a, b)| *a == at || *b == at);
            row::show(ui, one, place, row::Look { marked, open: open == Some(&*one.file), twin })
        });
    if let Some(place) = did.pressed {
        let file = recipes.listed.list[kept.shown[place]].file.clone();
        out.push(RecipesCommand::Open(Some(file)).into());
    }
    if let Some(place) = did.entered {
        let file = recipes.listed.list[kept.shown[place]].file.clone();
        out.push(RecipesCommand::ToBench(file).into());
    }
}
