//! The right of the view: what to do with the pot, next time, the answer to read out or to send, and the call for the log.

use egui::{TextEdit, Ui};

use potset_app::command::MishapCommand;
use potset_app::mishap::{AnswerForm, MishapTold};
use potset_app::{Command, State};
use potset_report::mends;
use potset_report::mishap as say;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::field::field;
use potset_ui_kit::widgets::note::mend_link;
use potset_ui_kit::widgets::pill::pill;

/// Height that is kept for what to do, so that the buttons below stay where they are, points.
const HEIGHT: f32 = 118.0;

/// Draws it.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let Some(told) = &state.mishap.told else {
        boxed(ui, "What to do", |ui| quiet(ui, "What to do and an answer to send stand here then."));
        return;
    };
    what_to_do(ui, state, told, out);
    text(ui, state, out);
    call(ui, state, out);
}

fn what_to_do(ui: &mut Ui, state: &State, told: &MishapTold, out: &mut Vec<Command>) {
    boxed(ui, "What to do", |ui| {
        ui.set_min_height(HEIGHT);
        match (&told.what.throw_away, told.what.rescue) {
            (Some(of), _) => {
                plain(ui, &format!("This pot: {}.", potset_base::words::lower(&say::throw_away(of).0)));
            }
            (None, Some(at)) => {
                plain(ui, &format!("This pot: {}", potset_base::words::lower(&say::rescue(at))));
            }
            (None, None) => {}
        }
        if let Some((at, mend)) = &told.what.next_time {
            plain(ui, &format!("Next time: {}", potset_base::words::lower(&say::next_time(*at))));
            let here = state.mishap.asked.as_ref().is_some_and(|asked| asked.on_bench);
            if let Some(mend) = mend.as_ref().filter(|_| here) {
                let link = mend_link(ui, &mends::label(&mend.how));
                if link.clicked() {
                    out.push(MishapCommand::NextTime.into());
                }
                link.on_hover_text("Changes the design on the bench; Undo takes it back");
            }
        }
        // Where the model forecasts nothing of the cause there is nothing to look at.
        if !matches!(told.curves.get(state.mishap.chosen), Some(Some(_))) {
            return;
        }
        let link = mend_link(ui, "Put the failed pot beside the design");
        if link.clicked() {
            out.push(MishapCommand::PutBeside.into());
        }
        link.on_hover_text("Beside tells what differs and what it does");
    });
}

/// The answer, which can be changed.
fn text(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let Some(answer) = state.mishap.answer() else { return };
    boxed(ui, "Answer", |ui| {
        ui.horizontal_wrapped(|ui| {
            for form in AnswerForm::ALL {
                if pill(ui, form.words(), state.mishap.form == form).clicked() {
                    out.push(MishapCommand::Form(form).into());
                }
            }
        });
        let mut typed = answer.clone();
        let edit =
            TextEdit::multiline(&mut typed).desired_rows(10).desired_width(f32::INFINITY).id_salt("answer");
        let response = ui.add(edit);
        response.widget_info(|| {
            let mut info =
                egui::WidgetInfo::labeled(egui::accesskit::Role::MultilineTextInput, true, "Answer");
            info.current_text_value = Some(answer.clone());
            info
        });
        if typed != answer {
            out.push(MishapCommand::Text(Some(typed.clone())).into());
        }
        quiet(ui, &format!("{} words", typed.split_whitespace().count()));
        ui.horizontal_wrapped(|ui| {
            if ui.button("Copy the answer").clicked() {
                out.push(MishapCommand::Copy.into());
            }
            if state.mishap.text.is_some() && ui.button("As it was").clicked() {
                out.push(MishapCommand::Text(None).into());
            }
        });
    });
}

/// The call, for the log.
fn call(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    boxed(ui, "Log this call", |ui| {
        quiet(ui, "Base, culture, lot and cause; nothing about the caller.");
        ui.horizontal_wrapped(|ui| {
            ui.label("Lot of the culture");
            if let Some(lot) = field(ui, "Lot of the culture", &state.mishap.lot, "as printed", 110.0) {
                out.push(MishapCommand::Lot(lot).into());
            }
        });
        ui.horizontal_wrapped(|ui| {
            ui.label("Months since opened");
            if let Some(age) = field(ui, "Months since opened", &state.mishap.age, "months", 80.0) {
                out.push(MishapCommand::Age(age).into());
            }
        });
        if state.mishap.logged {
            quiet(ui, "This call is in the log.");
        } else if ui.button("Put it into the log").clicked() {
            out.push(MishapCommand::Log.into());
        }
    });
}
