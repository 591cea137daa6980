//! The page of one pot: its reading line, what it is now and when it is ready, the chart, and all that is known of it.

use egui::{RichText, Ui};

use super::{BatchesView, about, amounts, chart, line, readings};
use potset_app::batches::OpenBatch;
use potset_app::command::{BatchFile, BatchesCommand, MishapCommand};
use potset_app::{Action, Command, State};
use potset_base::clock::Moment;
use potset_doc::batch::known::BatchSummary;
use potset_report::batch::{line as list_line, underway};
use potset_report::learn as say;
use potset_ui_kit::widgets::card::{self, nothing};
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::note::mend_link;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Height of what is said of a pot under way, points.
const NOW: f32 = 96.0;

/// Of a pot that began longer ago than this, hours since the culture are told: a day of the week would be of another week.
const WEEK_H: f64 = 144.0;

/// Draws the page.
pub fn show(ui: &mut Ui, view: &mut BatchesView, state: &State, out: &mut Vec<Command>) {
    let Some(open) = &state.batches.open else {
        if state.batches.opening.is_some() {
            quiet(ui, "The pot is read now");
        } else {
            let text = "Press a pot of the list. Or begin one: its design stays with it as it is now, and you type what you \
                        read in one line, as “now 4.9” or “21:40 bright”.";
            nothing(ui, "No pot is open", text, |ui| super::act(ui, state, Action::BeginPot, out));
        }
        return;
    };
    head(ui, view, state, open, out);
    chart::show(ui, state, open);
    plan(ui, state, open);
    ui.push_id("readings of the pot", |ui| readings::show(ui, state, open, out));
    about::show(ui, state, open, out);
    amounts::show(ui, open, out);
    files(ui, view, open, out);
}

/// Name, reading line, and what is now.
fn head(ui: &mut Ui, view: &mut BatchesView, state: &State, open: &OpenBatch, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let said = list_line(&BatchSummary::of(&open.batch), state.now, &state.zone);
        wrapped(ui, &said.name, fonts::semibold(tokens::HEADING + 3.0), t.ink);
        let began =
            if said.when.is_empty() { String::new() } else { format!("Culture in {} · ", said.when) };
        quiet(ui, &format!("{began}{}", said.state));
        line::show(ui, &mut view.line, state, out);
        // The room of what is said of a pot under way is kept while that is worked out: nothing below it moves.
        ui.scope(|ui| {
            if open.batch.running() && open.trouble.is_none() {
                ui.set_min_height(NOW);
            }
            now(ui, state, open, out);
        });
    });
}

/// What the forecast says now, when it is ready, and the next reading.
fn now(ui: &mut Ui, state: &State, open: &OpenBatch, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let batch = &open.batch;
    if let Some(note) = &open.trouble {
        wrapped(
            ui,
            &format!("There is no forecast of it: {}", note.line()),
            fonts::regular(tokens::BODY),
            t.warn,
        );
        return;
    }
    if !batch.running() {
        return;
    }
    let Some(told) = &open.ahead else {
        if batch.start().is_some() {
            quiet(ui, "The forecast ahead is worked out now");
        }
        return;
    };
    let old = state.now.and_then(|now| batch.hours_to(now, &state.zone)).is_some_and(|h| h > WEEK_H);
    let start = batch.start().filter(|_| !old);
    let now_h = state.now.and_then(|now| batch.hours_to(now, &state.zone)).unwrap_or(told.now_h);
    let strong = fonts::semibold(tokens::HEADING);
    let last_h = told.ahead.t.last().copied().unwrap_or(0.0);
    if (0.0..=last_h).contains(&now_h)
        && let Some(words) = say::now(&told.ahead, now_h)
    {
        wrapped(ui, &words, strong.clone(), t.ink);
    }
    wrapped(ui, &say::ready_ahead(&told.ahead, start), strong, t.ink);
    plain(ui, &say::range_ahead(&told.ahead, start));
    if told.ahead.strained {
        wrapped(ui, say::STRAINED, fonts::regular(tokens::BODY), t.warn);
    }
    let words = say::next_reading(told.next, start);
    match told.next {
        Some(next) => {
            let link = mend_link(ui, &words);
            if link.clicked() {
                out.push(BatchesCommand::Put(put(start, next.at_h), None).into());
            }
            link.on_hover_text("Puts its time into the reading line");
        }
        None => quiet(ui, &words),
    }
    if let Some(used) = say::used(&state.learnt).filter(|_| open.cloud.as_ref().is_some_and(|c| c.uses)) {
        quiet(ui, &used);
    }
}

/// The time of a reading as it is typed: by the clock where there is one.
fn put(start: Option<Moment>, at_h: f64) -> String {
    match start {
        Some(start) => format!("{} pH ", start.after(at_h).day_and_time()),
        None => format!("+{} h pH ", potset_base::number::plain(at_h)),
    }
}

/// What is done with it next, by the plan that was frozen when it was begun.
fn plan(ui: &mut Ui, state: &State, open: &OpenBatch) {
    let batch = &open.batch;
    let told = state.now.filter(|_| batch.running()).and_then(|now| underway(batch, now, &state.zone));
    let Some(told) = told else { return };
    let t = tokens::of(ui);
    boxed(ui, "What is next", |ui| {
        let next = told.next.as_deref().unwrap_or("Nothing more of the plan is to be done");
        plain(ui, next);
        if let Some(last) = &told.now {
            quiet(ui, &format!("Last: {last}"));
        }
        let lines = told.lines;
        ui.collapsing("The whole plan", |ui| {
            for (when, what, over) in &lines {
                let color = if *over { t.ink_soft } else { t.ink };
                let mark = if *over { "✓ " } else { "" };
                ui.add(egui::Label::new(RichText::new(format!("{mark}{when}: {what}")).color(color)).wrap());
            }
        });
    });
}

/// The record, the table of readings, and the bin.
fn files(ui: &mut Ui, view: &mut BatchesView, open: &OpenBatch, out: &mut Vec<Command>) {
    boxed(ui, "Record and files", |ui| {
        quiet(
            ui,
            "The record says what went in, what was read and who made it. It is an aid: local codes decide.",
        );
        ui.horizontal_wrapped(|ui| {
            if ui.button("Print the record").clicked() {
                out.push(BatchesCommand::Print.into());
            }
            if ui.button("Export the record…").clicked() {
                out.push(BatchesCommand::AskExport(BatchFile::Record).into());
            }
            if ui.button("Export the readings…").clicked() {
                out.push(BatchesCommand::AskExport(BatchFile::Readings).into());
            }
            let why = ui.button("Why did it go wrong?");
            if why.on_hover_text("Asks about this pot in Mishap").clicked() {
                out.push(MishapCommand::OfBatch.into());
            }
            if view.throw.as_ref() == Some(&open.file) {
                if ui.button("Yes, to the bin").clicked() {
                    view.throw = None;
                    out.push(BatchesCommand::ThrowAway.into());
                }
                if ui.button("Keep it").clicked() {
                    view.throw = None;
                }
            } else if ui
                .button("Throw away")
                .on_hover_text("Moves the pot to the bin; Undo brings it back")
                .clicked()
            {
                view.throw = Some(open.file.clone());
            }
        });
    });
}
