//! The plan by the clock, and the pots under way.

use egui::{Grid, IdSalt, RichText, Ui};

use super::{running, told};
use potset_app::card::{CardFile, Told};
use potset_app::command::{BenchCommand, CardCommand, WindowCommand};
use potset_app::{Command, State};
use potset_base::Note;
use potset_base::clock::Moment;
use potset_doc::Edit;
use potset_doc::design::Clock;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::field::field;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::{fonts, tokens};

/// What the time of a design stands for.
const KINDS: [&str; 2] = ["The culture goes in", "It is to be ready"];

/// Draws the page.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    boxed(ui, "When", |ui| when(ui, state, out));
    running::show(ui, state, out);
    let Some(Told::Clock(clock)) = told(ui, state) else { return };
    if let Some(past) = &clock.past {
        boxed(ui, "This time is over", |ui| {
            plain(ui, &format!("The design says {past}. Give another time, or begin the pot now."));
        });
    }
    for clash in &clock.clashes {
        boxed(ui, "Two pots in one warmer", |ui| plain(ui, clash));
    }
    boxed(ui, &format!("The plan of {}", state.design().name), |ui| {
        let t = tokens::of(ui);
        Grid::new("plan").num_columns(2).spacing([18.0, 5.0]).show(ui, |ui| {
            for line in &clock.lines {
                ui.label(RichText::new(&line.when).font(fonts::semibold(tokens::BODY)).color(t.accent));
                ui.label(&line.what);
                ui.end_row();
            }
        });
        ui.add_space(4.0);
        ui.horizontal_wrapped(|ui| {
            let begin = ui.add_enabled(!clock.pot.culture_in.is_empty(), egui::Button::new("Begin this pot"));
            if begin.clicked() {
                out.push(CardCommand::Begin.into());
            }
            begin
                .on_hover_text("It is followed from now on: what is done, and what is next")
                .on_disabled_hover_text("Say when it starts first");
            if ui.button("Export to a calendar…").clicked() {
                out.push(CardCommand::AskExport(CardFile::Card, "ics").into());
            }
        });
    });
}

/// The time of the design.
fn when(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let (ready_by, text) = match &state.design().clock {
        Clock::Open => (false, ""),
        Clock::StartsAt(text) => (false, text.as_str()),
        Clock::ReadyBy(text) => (true, text.as_str()),
    };
    let make = |ready_by: bool, text: String| match (ready_by, text.is_empty()) {
        (_, true) => Clock::Open,
        (true, false) => Clock::ReadyBy(text),
        (false, false) => Clock::StartsAt(text),
    };
    let mut edit = |clock: Clock| out.push(BenchCommand::Edit(Edit::Clock(clock), None).into());
    let mut refused = None;
    ui.horizontal_wrapped(|ui| {
        if let Some(i) =
            picker(ui, IdSalt::new("when"), "What the time is of", KINDS[usize::from(ready_by)], &KINDS)
        {
            edit(make(i == 1, text.to_owned()));
        }
        let hint = "tomorrow 8:00, or Tue 18:30";
        if let Some(typed) = field(ui, "Time", text, hint, 260.0) {
            match (typed.trim(), state.moment(&typed)) {
                ("", _) => edit(Clock::Open),
                (_, Some(moment)) => edit(make(ready_by, moment.text())),
                (typed, None) => refused = Some(typed.to_owned()),
            }
        }
    });
    if let Some(typed) = refused {
        let title = format!("I don't know the time “{typed}”");
        let note = Note::error("Time", title, "Type it like tomorrow 8:00, Tue 18:30 or 2026-12-01 18:30");
        out.push(WindowCommand::ShowRefusal(note).into());
    }
    match Moment::parse(text) {
        Some(moment) => quiet(ui, &moment.date_and_time()),
        None => quiet(ui, "Without a time, the plan counts hours from when the culture goes in."),
    }
}
