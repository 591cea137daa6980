//! A value explained whole: what it is made of, every law with its formula, every number that it rests on.

use egui::{Button, Key, ScrollArea, Ui};

use super::numbers::NumbersSheet;
use super::window;
use potset_app::command::WindowCommand;
use potset_app::{Action, Command};
use potset_report::explain::Explanation;
use potset_ui_kit::widgets::{explained, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Draws the window.
pub fn show(ui: &mut Ui, told: Option<&Explanation>, sheet: &mut NumbersSheet, out: &mut Vec<Command>) {
    let room = ui.ctx().content_rect().size();
    let (mut done, mut all) = (false, false);
    let closed = window(ui, "Where this value comes from", (room.x - 60.0).min(560.0), |ui| {
        let Some(e) = told else {
            ui.label("This pot does not have that value any more");
            done = ui.button("Close").clicked();
            return;
        };
        let height = (room.y - 150.0).clamp(120.0, 620.0);
        ScrollArea::vertical().max_height(height).auto_shrink([false, true]).show(ui, |ui| body(ui, e));
        explained::buttons(ui, |ui| {
            done = ui.button("Close").clicked();
            all = ui.button(Action::Numbers.label()).on_hover_text(Action::Numbers.tip()).clicked();
            let copy = Button::new("Copy");
            if ui.add(copy).on_hover_text("Copies all of it as text").clicked() {
                out.push(WindowCommand::Copy(e.text()).into());
            }
        });
    });
    if all {
        sheet.all_of_the_design();
        out.push(Command::Do(Action::Numbers));
    } else if closed || done {
        out.push(WindowCommand::CloseDialog.into());
    }
}

fn body(ui: &mut Ui, e: &Explanation) {
    let t = tokens::of(ui);
    scroll_by_keys(ui);
    explained::head(ui, e);
    explained::parts(ui, e.made_of, &e.parts, usize::MAX);
    let heading = |ui: &mut Ui, text: &str| {
        ui.add_space(tokens::GAP);
        wrapped(ui, text, fonts::semibold(tokens::BODY), t.ink);
    };
    heading(ui, if e.basis.laws.len() == 1 { "The law" } else { "The laws" });
    for law in &e.basis.laws {
        explained::law(ui, law);
    }
    heading(ui, &format!("The {} numbers that it rests on", e.basis.numbers.len()));
    for number in &e.basis.numbers {
        explained::number(ui, number);
    }
}

/// Up, down and the page keys scroll, since nothing in the text takes the keyboard.
fn scroll_by_keys(ui: &Ui) {
    let page = ui.clip_rect().height() - 40.0;
    let steps = [(Key::ArrowDown, -40.0), (Key::ArrowUp, 40.0), (Key::PageDown, -page), (Key::PageUp, page)];
    for (_, by) in steps.into_iter().filter(|(key, _)| ui.input(|i| i.key_pressed(*key))) {
        ui.scroll_with_delta(egui::vec2(0.0, by));
    }
}
