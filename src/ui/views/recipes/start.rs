//! Where the house recipes are to be: asked once.

use std::path::{Path, PathBuf};

use egui::Ui;

use potset_app::Command;
use potset_app::command::RecipesCommand;
use potset_ui_kit::widgets::{card, field::field, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Name of the folder that is offered.
const FOLDER: &str = "Potset recipes";

/// The path as it is typed.
#[derive(Default)]
pub struct StartState {
    typed: Option<String>,
}

/// Asks for the folder.
pub fn show(ui: &mut Ui, view: &mut StartState, documents: Option<&Path>, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width().min(640.0));
        wrapped(ui, "Where shall your house recipes be?", fonts::semibold(tokens::HEADING), t.ink);
        let text = "Each recipe is a file in a folder of yours. You can copy, share and back up the folder. Potset keeps \
                    every version that you save, and nothing is thrown away without a bin.";
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink_soft);
        ui.add_space(6.0);
        let offered = documents.map_or_else(|| PathBuf::from(FOLDER), |path| path.join(FOLDER));
        let typed = view.typed.get_or_insert_with(|| offered.display().to_string());
        if let Some(text) = field(ui, "Folder of the recipes", typed, "The whole path", f32::INFINITY) {
            *typed = text;
        }
        ui.add_space(6.0);
        let path = PathBuf::from(typed.trim());
        let whole = path.is_absolute();
        let button = ui.add_enabled(whole, egui::Button::new("Keep them there"));
        if button.clicked() {
            out.push(RecipesCommand::Folder(path).into());
        }
        button.on_disabled_hover_text("Type the whole path of the folder, from the root of the disk");
    });
}
