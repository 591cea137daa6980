//! The label reader: the words of a label at the left, what was understood at the right.

use egui::accesskit::Role;
use egui::{Button, TextEdit, Ui, WidgetInfo};

use super::examples::EXAMPLES;
use super::halves;
use super::label_told::{self, LabelState};
use potset_app::command::PantryCommand;
use potset_app::{Command, State};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

const LEFT: f32 = 400.0;

/// What the empty field shows.
const HINT: &str = "Type or paste the words of a label, a line as it stands on the packet:\n\nCoconut milk\nPer 100 g\nFat \
                    17.5 g\nCarbohydrate 3.3 g\nof which sugars 1.7 g\nProtein 1.3 g\nIngredients: coconut extract (70 %), \
                    water, guar gum";

/// Draws the page.
pub fn show(ui: &mut Ui, view: &mut LabelState, state: &State, out: &mut Vec<Command>) {
    let mut told = Vec::new();
    view.renew(state);
    halves(
        ui,
        ("label words", LEFT),
        |ui| words(ui, state, out),
        |ui| label_told::show(ui, view, state, &mut told),
    );
    out.append(&mut told);
}

fn words(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    Card::new("Words of the label").show(ui, |ui| {
        let mut text = state.shelves.label.text.clone();
        let field = TextEdit::multiline(&mut text)
            .desired_width(f32::INFINITY)
            .desired_rows(17)
            .hint_text(HINT)
            .id_salt("label words");
        let response = ui.add(field);
        response.widget_info(|| {
            let mut info = WidgetInfo::labeled(Role::MultilineTextInput, true, "Words of the label");
            info.current_text_value = Some(state.shelves.label.text.clone());
            info
        });
        if response.changed() {
            out.push(PantryCommand::LabelText(text).into());
        }
        let any = !state.shelves.label.text.is_empty();
        if ui.add_enabled(any, Button::new("Clear the label")).clicked() {
            out.push(PantryCommand::LabelText(String::new()).into());
        }
    });
    Card::new("To try it").quiet("invented labels").show(ui, |ui| {
        for (name, text) in EXAMPLES {
            if ui.button(name).clicked() {
                out.push(PantryCommand::LabelText(text.to_owned()).into());
            }
        }
    });
    let what = "Nothing is guessed silently. You see what the label states, what was filled in from the nearest \
                entry, and what was not understood.";
    wrapped(ui, what, fonts::regular(tokens::SMALL), t.ink_soft);
}
