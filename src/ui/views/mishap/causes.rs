//! The middle of the view: throw it away where that is so, the next question, the causes, and the curves of the chosen one.

use egui::{Sense, Ui};

use super::chart;
use super::known::answer;
use super::said::tap;
use potset_app::command::MishapCommand;
use potset_app::mishap::MishapTold;
use potset_app::{Command, State};
use potset_doc::settings::Depth;
use potset_mishap::{Asked, Chance, Fact, FactValue, Next, data};
use potset_report::mishap as say;
use potset_ui_kit::widgets::card::{self, boxed, nothing, plain, quiet};
use potset_ui_kit::widgets::note::edge;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// So many causes are listed in the plain view, and so many in Details.
const LISTED: usize = 3;
const LISTED_DETAILS: usize = 8;

/// Draws them.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let own = &state.mishap;
    if let Some(note) = &own.trouble {
        boxed(ui, &note.title, |ui| quiet(ui, &note.mend));
        return;
    }
    let Some(told) = &own.told else {
        if own.saw.is_empty() {
            let text = "Tap what the caller says of the pot. The likeliest causes stand here at once, with the next question \
                        to ask and what to do.";
            nothing(ui, "Nothing is said of the pot yet", text, |_| {});
        } else {
            quiet(ui, "The causes are weighed now");
        }
        return;
    };
    throw_away(ui, told);
    question(ui, state, told, out);
    causes(ui, state, told, out);
    chart::show(ui, state, told);
}

/// That the pot goes, before all else.
fn throw_away(ui: &mut Ui, told: &MishapTold) {
    let Some(of) = &told.what.throw_away else { return };
    let t = tokens::of(ui);
    let (title, why) = say::throw_away(of);
    let color = if say::still_open(of) { t.note_watch } else { t.note_stop };
    let shown = card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let ink = if say::still_open(of) { t.ink } else { t.note_stop };
        wrapped(ui, &format!("⚠ {title}"), fonts::semibold(tokens::HEADING + 2.0), ink);
        plain(ui, &why);
        wrapped(ui, &say::throw_away_source(of), fonts::regular(tokens::SMALL), t.ink_soft);
    });
    edge(ui, shown.response.rect, color);
}

/// What to ask next, with its answers.
fn question(ui: &mut Ui, state: &State, told: &MishapTold, out: &mut Vec<Command>) {
    boxed(ui, "Ask next", |ui| {
        let Next::Ask(all) = &told.next else {
            plain(ui, &say::next(&told.next));
            return;
        };
        let Some(row) = all.first().and_then(|best| data().fact(best.kind)) else { return };
        wrapped(ui, &say::question(row.key), fonts::semibold(tokens::BODY + 1.0), tokens::of(ui).ink);
        let skip = |ui: &mut Ui, out: &mut Vec<Command>| {
            if tap(ui, "Not known", false) {
                out.push(MishapCommand::Skip(row.key).into());
            }
        };
        match &row.of {
            Asked::Choice(answers) => {
                ui.horizontal_wrapped(|ui| {
                    for (i, words) in answers.iter().enumerate() {
                        if tap(ui, words, false) {
                            let value = FactValue::Choice(i);
                            out.push(MishapCommand::Know(Fact { kind: row.key, value }).into());
                        }
                    }
                    skip(ui, out);
                });
            }
            Asked::Number { .. } => {
                ui.horizontal(|ui| {
                    answer(ui, state, (row, &row.ask), out);
                    skip(ui, out);
                });
            }
        }
    });
}

/// The causes, each with why; a press shows its curves.
fn causes(ui: &mut Ui, state: &State, told: &MishapTold, out: &mut Vec<Command>) {
    let details = state.settings.depth == Depth::Details;
    boxed(ui, "What it may be", |ui| {
        let t = tokens::of(ui);
        let worth = told.ranking.causes.iter().filter(|c| details || c.word != Chance::Unlikely).count();
        let most = if details { LISTED_DETAILS } else { LISTED };
        for (i, cause) in told.ranking.causes.iter().enumerate().take(worth.clamp(1, most)) {
            let chosen = state.mishap.chosen == i;
            let title = say::line(cause);
            let row = ui.scope(|ui| {
                ui.set_width(ui.available_width());
                let font = if chosen {
                    fonts::semibold(tokens::BODY + 1.0)
                } else {
                    fonts::regular(tokens::BODY + 1.0)
                };
                wrapped(ui, &title, font, t.ink);
                quiet(ui, &say::why(cause));
                if details {
                    wrapped(ui, &say::source(cause), fonts::regular(tokens::SMALL), t.ink_soft);
                }
            });
            let pressed = ui.interact(row.response.rect, ui.scope_id().with(("cause", i)), Sense::click());
            pressed.widget_info(|| {
                egui::WidgetInfo::selected(egui::accesskit::Role::Button, true, chosen, &title)
            });
            potset_ui_kit::widgets::focus_ring(ui, &pressed, tokens::RADIUS_SMALL);
            if chosen {
                edge(ui, row.response.rect.translate(egui::vec2(-8.0, 0.0)), t.accent);
            }
            if pressed.clicked() {
                out.push(MishapCommand::Choose(i).into());
            }
            pressed.on_hover_cursor(egui::CursorIcon::PointingHand);
            ui.add_space(tokens::GAP_SMALL);
        }
        for line in say::apart(&told.ranking) {
            quiet(ui, &line);
        }
    });
}
