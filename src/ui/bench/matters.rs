//! The fold *What matters*: what you can turn, what you can find out, and which reading tells most.

use egui::{RichText, Ui};

use super::chances::AS_IT_WAS;
use potset_app::command::WindowCommand;
use potset_app::{Action, Command, State};
use potset_doubt::matters::Matters;
use potset_report::matters::{self as say, RANKED};
use potset_ui_kit::widgets::{card, wrapped};
use potset_ui_kit::{fonts, tokens};

/// What stands in for the lists where there are none.
const NOT_KNOWN: &str = "It could not be worked out for this design";

/// Lines of each list.
const TOLD: usize = 6;

/// Draws the fold.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let title = RichText::new("What matters").font(fonts::semibold(tokens::BODY)).color(t.ink);
    egui::CollapsingHeader::new(title).id_salt("what matters").show_unindented(ui, |ui| {
        if !state.settings.spread {
            let text = RichText::new("Show the range to find out").size(tokens::SMALL + 1.0);
            if ui.link(text).clicked() {
                out.push(Command::Do(Action::Spread));
            }
            return;
        }
        let current = state.doubt.of.1 == state.question;
        if state.doubt.trouble.is_some() {
            wrapped(ui, NOT_KNOWN, fonts::regular(tokens::SMALL), t.warn);
            return;
        }
        match &state.doubt.matters {
            Some(matters) if matters.pots == 0 => {
                wrapped(ui, NOT_KNOWN, fonts::regular(tokens::SMALL), t.warn);
            }
            Some(matters) => {
                if !current {
                    wrapped(ui, AS_IT_WAS, fonts::regular(tokens::SMALL), t.ink_soft);
                }
                lists(ui, matters);
            }
            None => {
                wrapped(ui, "Being worked out", fonts::regular(tokens::SMALL), t.ink_soft);
            }
        }
        if let Some(matters) = state.doubt.matters.as_ref().filter(|m| current && m.pots > 0) {
            let text = RichText::new("Copy what matters").size(tokens::SMALL);
            if ui.link(text).clicked() {
                out.push(WindowCommand::Copy(say::text(matters)).into());
            }
        }
    });
}

fn lists(ui: &mut Ui, m: &Matters) {
    let turns =
        m.turns.iter().take(TOLD).map(|turn| (say::turn_name(turn), say::effects(turn), String::new()));
    let quiet = |ui: &mut Ui, text: &str| {
        wrapped(ui, text, fonts::regular(tokens::SMALL), tokens::of(ui).ink_soft);
    };
    list(ui, "What you can turn", &turns.collect::<Vec<_>>());
    more(ui, m.turns.len(), "levers do less");
    quiet(ui, RANKED);
    if let Some(said) = say::unnoticed(m) {
        quiet(ui, &said);
    }
    let finds = m.finds.iter().take(TOLD).map(|f| {
        let (what, how) = say::doubt(&f.remedy);
        (what, say::find_gain(f, &m.watched), format!("To find out: {how}"))
    });
    list(ui, "What you can find out", &finds.collect::<Vec<_>>());
    more(ui, m.finds.len(), "unknowns do less");
    let readings =
        m.readings.iter().take(3).map(|w| (say::reading(w), say::reading_gain(w, &m.watched), String::new()));
    list(ui, "Which reading helps most", &readings.collect::<Vec<_>>());
    for said in say::shares(m) {
        quiet(ui, said);
    }
    for left_out in say::left_out(m) {
        quiet(ui, &left_out);
    }
}

/// How many are not listed here.
fn more(ui: &mut Ui, all: usize, what: &str) {
    if all > TOLD {
        let text = format!("{} more {what}: the copy has all", all - TOLD);
        wrapped(ui, &text, fonts::regular(tokens::SMALL), tokens::of(ui).ink_soft);
    }
}

/// A list: a strong line, what it does, how.
fn list(ui: &mut Ui, head: &str, lines: &[(String, String, String)]) {
    if lines.is_empty() {
        return;
    }
    let t = tokens::of(ui);
    wrapped(ui, head, fonts::semibold(tokens::SMALL + 1.0), t.ink);
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 1.0;
        for (i, (what, does, how)) in lines.iter().enumerate() {
            if i > 0 {
                ui.add_space(4.0);
            }
            wrapped(ui, what, fonts::regular(tokens::SMALL + 1.0), t.ink);
            wrapped(ui, does, fonts::regular(tokens::SMALL), t.ink_soft);
            if !how.is_empty() {
                wrapped(ui, how, fonts::regular(tokens::SMALL), t.ink_soft);
            }
        }
    });
}
