//! The call log: every call, and how often each cause came with each lot.

use egui::{Grid, Ui};

use potset_app::command::MishapCommand;
use potset_app::mishap::words_of;
use potset_app::{Command, State};
use potset_ui_kit::widgets::card::{boxed, nothing, quiet};
use potset_ui_kit::{fonts, tokens};

/// What the page keeps between frames.
#[derive(Default)]
pub struct LogView {
    /// The call that is asked about before it is removed.
    remove: Option<usize>,
}

/// Draws the log.
pub fn show(ui: &mut Ui, view: &mut LogView, state: &State, out: &mut Vec<Command>) {
    let log = &state.mishap.log;
    if log.calls.is_empty() && state.mishap.removed.is_empty() {
        let text = "Calls that you put into the log stand here: day, base, culture, lot and cause. Nothing about the caller is \
                    kept.";
        nothing(ui, "No call is logged yet", text, |_| {});
        return;
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button("Export the log…").clicked() {
            out.push(MishapCommand::AskExport.into());
        }
        if !state.mishap.removed.is_empty() && ui.button("Put the removed call back").clicked() {
            out.push(MishapCommand::PutBack.into());
        }
    });
    let counts: Vec<[String; 4]> = log
        .counts()
        .into_iter()
        .map(|count| [count.culture, or_dash(&count.lot), words_of(&count.cause), count.calls.to_string()])
        .collect();
    boxed(ui, "How often each cause came", |ui| {
        table(ui, "counts", ["Culture", "Lot", "Cause", "Calls"], &counts);
    });
    boxed(ui, "Calls", |ui| {
        for (i, call) in log.calls.iter().enumerate().rev() {
            let said: Vec<String> = call.saw.iter().map(|key| words_of(key).to_lowercase()).collect();
            let age = call.age_months.map_or_else(String::new, |months| {
                format!(", opened {} months before", potset_base::number::plain(months))
            });
            let lot = if call.lot.is_empty() { String::new() } else { format!(", lot {}", call.lot) };
            ui.label(format!("{} · {} · {}", or_dash(&call.day), words_of(&call.cause), said.join(", ")));
            quiet(ui, &format!("{}; {}{lot}{age}", call.base, call.culture));
            ui.horizontal(|ui| {
                if view.remove == Some(i) {
                    if ui.button("Yes, remove it").clicked() {
                        out.push(MishapCommand::Remove(i).into());
                        view.remove = None;
                    }
                    if ui.button("Keep it").clicked() {
                        view.remove = None;
                    }
                } else if ui.small_button("Remove").clicked() {
                    view.remove = Some(i);
                }
            });
            ui.add_space(tokens::GAP_SMALL);
        }
    });
}

fn or_dash(text: &str) -> String {
    if text.is_empty() { "–".to_owned() } else { text.to_owned() }
}

fn table(ui: &mut Ui, salt: &str, head: [&str; 4], rows: &[[String; 4]]) {
    let t = tokens::of(ui);
    Grid::new(salt).striped(true).spacing(egui::vec2(16.0, 4.0)).show(ui, |ui| {
        for cell in head {
            ui.label(egui::RichText::new(cell).font(fonts::semibold(tokens::BODY)).color(t.ink));
        }
        ui.end_row();
        for row in rows {
            for cell in row {
                ui.label(cell);
            }
            ui.end_row();
        }
    });
}
