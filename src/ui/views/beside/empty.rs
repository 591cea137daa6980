//! The Beside view with nothing beside the design on the bench yet: what it is for, and what to begin with.

use egui::{Button, Ui};

use super::bar;
use potset_app::command::BesideCommand;
use potset_app::{Command, State};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Demo designs to begin with, in words.
const FIRST: [(&str, &str); 4] = [
    ("whole-milk-pot.ron", "A whole milk pot"),
    ("coconut-pot.ron", "A coconut pot"),
    ("oat-and-coconut.ron", "Oat and coconut"),
    ("soy-set-pots.ron", "Soy set pots"),
];

/// Draws it.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    ui.set_max_width(ui.available_width().min(560.0));
    Card::new("Nothing stands beside this design yet").show(ui, |ui| {
        let text = "Add up to three other designs: another pot, an earlier try, dairy against non-dairy, one \
                    thickener against another. You see their curves next to each other, how the designs differ, what \
                    you would notice, and why.";
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink);
        ui.add_space(6.0);
        wrapped(ui, "Begin with", fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
        ui.horizontal_wrapped(|ui| {
            for (name, words) in FIRST {
                if ui.button(words).clicked() {
                    out.push(BesideCommand::AddDemo(name).into());
                }
            }
        });
        ui.add_space(4.0);
        wrapped(ui, "Or", fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
        ui.horizontal_wrapped(|ui| {
            let duplicate = potset_app::Action::DuplicateAndChange;
            let button = Button::new(duplicate.label()).shortcut_text(duplicate.key_words());
            if ui.add(button).on_hover_text(duplicate.tip()).clicked() {
                out.push(Command::Do(duplicate));
            }
            ui.menu_button("Something else…", |ui| bar::choices(ui, state, out));
        });
        ui.add_space(4.0);
        wrapped(ui, "Files can be dropped here, too.", fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
    });
}
