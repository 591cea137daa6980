//! The lessons in their order: put on the wall, handed out, prepared, changed, moved, shared; and one of one's own.

use egui::Ui;

use potset_app::class::{ClassFile, LessonRow};
use potset_app::command::ClassCommand;
use potset_app::{Action, Command, State};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::{Card, quiet};

/// Draws the list.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    ui.horizontal_wrapped(|ui| {
        if ui.button("New lesson").on_hover_text("A lesson of your own, from one or two designs").clicked() {
            out.push(ClassCommand::New.into());
        }
        if ui.button("Import a lesson…").on_hover_text("A lesson that someone shared").clicked() {
            out.push(ClassCommand::AskImport.into());
        }
        let mut still = state.settings.still;
        let tick = ui.checkbox(&mut still, "Reduced motion").on_hover_text(Action::StillMotion.tip());
        if tick.changed() {
            out.push(ClassCommand::Still(still).into());
        }
        ui.label("People");
        let mut people = state.class.people;
        let drag = egui::DragValue::new(&mut people).range(1..=potset_app::class::MOST_PEOPLE);
        let response = ui.add(drag.update_while_editing(false));
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::accesskit::Role::SpinButton, true, "People who come to the class")
        });
        if response.on_hover_text("For the run sheet").changed() {
            out.push(ClassCommand::People(people).into());
        }
        if state.class.removed.is_some()
            && ui.button("Put the lesson back").on_hover_text("The one that was removed last").clicked()
        {
            out.push(ClassCommand::PutBack.into());
        }
    });
    let words = "On the wall: page down and page up, or a clicker; B blanks; a number is a hand up; F is free play; \
                 Escape leaves.";
    potset_ui_kit::widgets::wrapped(ui, words, potset_ui_kit::fonts::regular(tokens::BODY), t.ink_soft);
    ui.add_space(tokens::GAP_SMALL);
    for (i, row) in state.class.lessons.iter().enumerate() {
        lesson(ui, (i, row), out);
    }
}

/// A lesson of the list.
fn lesson(ui: &mut Ui, (i, row): (usize, &LessonRow), out: &mut Vec<Command>) {
    let lesson = &row.lesson;
    let whose = if row.own_file().is_some() { "your own" } else { "" };
    Card::new(&format!("{}. {}", i + 1, lesson.title)).quiet(whose).show(ui, |ui| {
        quiet(ui, &lesson.question);
        ui.horizontal_wrapped(|ui| {
            let key = || row.key.clone();
            let named = |ui: &mut Ui, words: &str, name: &str| {
                let response = ui.button(words);
                response.widget_info(|| {
                    let name = format!("{name}: {}", lesson.title);
                    egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, name)
                });
                response.clicked()
            };
            let mut push = |command: ClassCommand| out.push(command.into());
            if named(ui, "▶ Show it", "Show it") {
                push(ClassCommand::Open(key()));
            }
            if named(ui, "Hand-out…", "Hand-out") {
                push(ClassCommand::AskFile(ClassFile::HandOut, key()));
            }
            if named(ui, "Run sheet…", "Run sheet") {
                push(ClassCommand::AskFile(ClassFile::RunSheet, key()));
            }
            if named(ui, "Share…", "Share") {
                push(ClassCommand::AskFile(ClassFile::Lesson, key()));
            }
            let (words, name) = match row.own_file() {
                Some(_) => ("Change", "Change"),
                None => ("Make it mine", "Make it mine"),
            };
            if named(ui, words, name) {
                push(ClassCommand::Change(key()));
            }
            if named(ui, "↑", "Sooner") {
                push(ClassCommand::Move(key(), true));
            }
            if named(ui, "↓", "Later") {
                push(ClassCommand::Move(key(), false));
            }
            if row.own_file().is_some() && named(ui, "Remove", "Remove") {
                push(ClassCommand::Remove(key()));
            }
        });
    });
}
