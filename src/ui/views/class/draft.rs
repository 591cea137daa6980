//! A lesson of one's own: from which designs, what it shows; then its texts, a look at it, and kept.

use egui::Ui;

use potset_app::class::{Draft, DraftFrom, DraftWish};
use potset_app::columns::Holds;
use potset_app::command::ClassCommand;
use potset_app::{Command, State};
use potset_base::words::capital;
use potset_doc::lesson::check::faults;
use potset_doc::lesson::{Guess, LessonCurve};
use potset_doc::{Lesson, assets, fields};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::field::{area, field};

/// Draws it.
pub fn show(ui: &mut Ui, state: &State, draft: &Draft, out: &mut Vec<Command>) {
    match &draft.lesson {
        None => from(ui, state, draft.wish, out),
        Some(lesson) => texts(ui, lesson, out),
    }
}

/// The designs that it may be made from, with their names.
fn sources(state: &State) -> Vec<(DraftFrom, String)> {
    let mut all = vec![(DraftFrom::Bench, format!("On the bench: {}", state.design().name))];
    for column in &state.columns.list {
        if let Holds::Kept(..) = column.holds {
            let name = &state.column_design(&column.holds).name;
            all.push((DraftFrom::Column(column.id), format!("Beside: {name}")));
        }
    }
    let demos = assets::demo_names().iter();
    all.extend(demos.map(|(file, name)| (DraftFrom::Demo(file), name.clone())));
    all
}

/// Asks from which designs, and what is shown.
fn from(ui: &mut Ui, state: &State, wish: DraftWish, out: &mut Vec<Command>) {
    let mut new = wish;
    boxed(ui, "A lesson of your own", |ui| {
        quiet(ui, "Two pots that differ in one thing make a lesson. One pot alone does, too.");
        let all = sources(state);
        let name = |from: Option<DraftFrom>| {
            let named = all.iter().find(|(one, _)| Some(*one) == from);
            named.map_or("none: one pot alone", |(_, name)| name.as_str()).to_owned()
        };
        pick(ui, "First pot", &name(Some(wish.first)), |ui| {
            for (one, name) in &all {
                if ui.selectable_label(wish.first == *one, name).clicked() {
                    new.first = *one;
                }
            }
        });
        pick(ui, "Second pot", &name(wish.second), |ui| {
            if ui.selectable_label(wish.second.is_none(), "none: one pot alone").clicked() {
                new.second = None;
            }
            for (one, name) in &all {
                if ui.selectable_label(wish.second == Some(*one), name).clicked() {
                    new.second = Some(*one);
                }
            }
        });
        pick(ui, "What it shows", &capital(wish.of.words()), |ui| {
            for of in LessonCurve::ALL {
                if ui.selectable_label(wish.of == of, capital(of.words())).clicked() {
                    new.of = of;
                }
            }
        });
        ui.add_space(tokens::GAP);
        ui.horizontal(|ui| {
            if ui.button("Make the lesson").clicked() {
                out.push(ClassCommand::Write.into());
            }
            if ui.button("Cancel").clicked() {
                out.push(ClassCommand::GiveUp.into());
            }
        });
    });
    if new != wish {
        out.push(ClassCommand::Wish(new).into());
    }
}

/// A list to choose from, under its name.
fn pick(ui: &mut Ui, name: &str, chosen: &str, rows: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.label(name);
        let shown = egui::ComboBox::from_id_salt(name).width(360.0).selected_text(chosen).show_ui(ui, rows);
        shown.response.widget_info(|| {
            let mut info = egui::WidgetInfo::labeled(egui::accesskit::Role::ComboBox, true, name);
            info.current_text_value = Some(chosen.to_owned());
            info
        });
    });
}

/// The texts, each in a field of its own.
fn texts(ui: &mut Ui, lesson: &Lesson, out: &mut Vec<Command>) {
    let mut new = lesson.clone();
    let text = |ui: &mut Ui, name: &str, words: &mut String, hint: &str| {
        ui.label(name);
        let width = ui.available_width();
        if let Some(typed) = field(ui, name, words, hint, width) {
            *words = typed;
        }
    };
    boxed(ui, "Your lesson", |ui| {
        text(ui, "Title", &mut new.title, "A few words");
        text(ui, "Question", &mut new.question, "What the room is asked before it sees anything");
        text(ui, "Name of the first pot", &mut new.first.name, "With sugar");
        if let Some(second) = &mut new.second {
            text(ui, "Name of the second pot", &mut second.name, "Without sugar");
        }
        text(ui, "What is done", &mut new.change, "In what the pots differ");
        if let Guess::Choose(answers) = &mut new.guess {
            for (i, answer) in answers.iter_mut().enumerate() {
                text(ui, &format!("Answer {}", i + 1), &mut answer.words, "What the room may guess");
            }
        }
        text(ui, "Source", &mut new.source.text, "Where you know it from");
        ui.label("Why, a line for each of two sentences");
        let reason = new.reason.join("\n");
        if let Some(typed) = area(ui, "Why, in two sentences", &reason, "One sentence a line") {
            new.reason =
                typed.lines().map(str::trim).filter(|line| !line.is_empty()).map(str::to_owned).collect();
        }
        let wrong = faults(&new);
        for note in wrong.iter().take(3) {
            let t = tokens::of(ui);
            potset_ui_kit::widgets::wrapped(
                ui,
                &format!("⚠ {}", fields::line(note)),
                potset_ui_kit::fonts::regular(tokens::BODY),
                t.stop,
            );
        }
        ui.add_space(tokens::GAP);
        ui.horizontal(|ui| {
            let fine = wrong.is_empty();
            if ui.add_enabled(fine, egui::Button::new("Try it on the wall")).clicked() {
                out.push(ClassCommand::Preview.into());
            }
            if ui.add_enabled(fine, egui::Button::new("Keep the lesson")).clicked() {
                out.push(ClassCommand::Keep.into());
            }
            if ui.button("Cancel").clicked() {
                out.push(ClassCommand::GiveUp.into());
            }
        });
    });
    if new != *lesson {
        // The words come first: what was pressed in the same frame goes by them.
        out.insert(0, ClassCommand::Words(Box::new(new)).into());
    }
}
