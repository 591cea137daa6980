//! What is known of the pot: the questions that part most causes, and those that were answered; each may be not known.

use egui::{IdSalt, Ui};

use potset_app::command::MishapCommand;
use potset_app::{Command, State};
use potset_base::Note;
use potset_base::units::scale;
use potset_mishap::{Asked, Fact, FactKind, FactRow, FactValue, data};
use potset_report::mishap::number;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::field::{field, refuse};
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::typed;

/// What is asked of every pot: how it looks stands above.
const OPENING: [FactKind; 4] = [FactKind::Base, FactKind::Hours, FactKind::Warmth, FactKind::Dose];

/// What stands in a field that was not answered.
const NOT_KNOWN: &str = "not known";

/// Draws the answers.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    boxed(ui, "What is known?", |ui| {
        quiet(ui, "Leave what the caller does not know.");
        let answered = |kind: &FactKind| state.mishap.known.iter().any(|fact| fact.kind == *kind);
        let more =
            data().facts.iter().map(|row| row.key).filter(|kind| !OPENING.contains(kind) && answered(kind));
        let all: Vec<FactKind> = OPENING.into_iter().chain(more).collect();
        for kind in all {
            let Some(row) = data().fact(kind) else { continue };
            ui.label(&row.short);
            ui.horizontal(|ui| answer(ui, state, (row, &row.short), out));
        }
        let passed = &state.mishap.skipped;
        if !passed.is_empty() {
            let names = passed.iter().filter_map(|kind| data().fact(*kind)).map(|row| row.short.as_str());
            let names: Vec<&str> = names.collect();
            quiet(ui, &format!("Not known: {}", names.join(", ")));
        }
    });
}

/// The field of an answer under a name; emptied, it is taken back.
pub fn answer(ui: &mut Ui, state: &State, (row, name): (&FactRow, &str), out: &mut Vec<Command>) {
    let now = state.mishap.known.iter().find(|fact| fact.kind == row.key).map(|fact| fact.value);
    let know = |value| Command::from(MishapCommand::Know(Fact { kind: row.key, value }));
    match &row.of {
        Asked::Number { unit, .. } => {
            let text = match now {
                Some(FactValue::Number(v)) => number(row, v),
                _ => String::new(),
            };
            let hint = scale(unit).unit;
            if let Some(new) = field(ui, name, &text, hint, 130.0) {
                if new.trim().is_empty() {
                    out.push(MishapCommand::Forget(row.key).into());
                } else {
                    match Fact::read(&format!("{}={new}", row.names[0])) {
                        Ok(fact) => out.push(MishapCommand::Know(fact).into()),
                        Err(note) => {
                            refuse(ui, name, &new);
                            typed::refuse(ui.ctx(), Note { field: row.short.clone(), ..note });
                        }
                    }
                }
            }
        }
        Asked::Choice(answers) => {
            let shown = match now {
                Some(FactValue::Choice(at)) => answers.get(at).map_or(NOT_KNOWN, String::as_str),
                _ => NOT_KNOWN,
            };
            let names: Vec<&str> =
                std::iter::once(NOT_KNOWN).chain(answers.iter().map(String::as_str)).collect();
            match picker(ui, IdSalt::new(("known", row.key as usize)), name, shown, &names) {
                Some(0) => out.push(MishapCommand::Forget(row.key).into()),
                Some(at) => out.push(know(FactValue::Choice(at - 1))),
                None => {}
            }
        }
    }
}
