//! What pots taught: before and after in words, what each pot says, and whether forecasts use it.

use std::sync::Arc;

use egui::{Button, Ui};

use potset_app::batches::{BatchesPage, PotTold, Taught};
use potset_app::command::BatchesCommand;
use potset_app::{Command, State};
use potset_base::clock::day_words;
use potset_doc::settings::Depth;
use potset_report::learn::{LearntLine, used};
use potset_ui_kit::widgets::card::nothing;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Pots that are shown at first, and so many more at each press.
const STEP: usize = 20;

/// What the page keeps between frames.
#[derive(Default)]
pub struct TaughtState {
    more: usize,
}

/// What all pots taught, if it is known; else it is said why not.
pub fn told<'a>(ui: &mut Ui, state: &'a State, out: &mut Vec<Command>) -> Option<&'a Arc<Taught>> {
    let learning = &state.batches.learning;
    if let Some(note) = &learning.trouble {
        nothing(ui, "What pots taught cannot be worked out", &note.line(), |ui| {
            if ui.button("Try again").clicked() {
                out.push(BatchesCommand::Learn.into());
            }
        });
        return None;
    }
    if learning.told.is_none() {
        let text = if learning.busy() {
            "Each pot with readings is forecast anew for this. Twenty pots take some seconds; go on with something else meanwhile."
        } else {
            "Begin a pot and type what you read. Pots with readings say how your culture, base and warmer differ from what was \
             expected."
        };
        let title =
            if learning.busy() { "It is worked out now" } else { "No pot has readings to learn from yet" };
        nothing(ui, title, text, |_| {});
        return None;
    }
    if learning.busy() {
        quiet(ui, "The pots changed: it is worked out anew now.");
    }
    learning.told.as_ref()
}

/// Draws the page.
pub fn show(ui: &mut Ui, view: &mut TaughtState, state: &State, out: &mut Vec<Command>) {
    kept(ui, state, out);
    let Some(told) = told(ui, state, out) else { return };
    let details = state.settings.depth == Depth::Details;
    boxed(ui, "What is known now", |ui| {
        wrapped(ui, &told.summary, fonts::semibold(tokens::BODY), tokens::of(ui).ink);
        // Plain tells what is otherwise than expected; all the rest is the same sentence for each thing.
        for line in told.lines.iter().filter(|line| details || line.news) {
            one_line(ui, line, details);
        }
        let rest = told.lines.iter().filter(|line| !line.news).count();
        if !details && rest > 0 {
            let more = if rest < told.lines.len() { "All else is" } else { "All is" };
            quiet(ui, &format!("{more} about as expected so far. Details has each with its numbers"));
        }
    });
    let most = STEP + view.more;
    boxed(ui, "What each pot says", |ui| {
        for pot in told.pots.iter().rev().take(most) {
            ui.push_id(&pot.file, |ui| one_pot(ui, pot, details, out));
        }
        if told.pots.len() > most && ui.button("Show older pots").clicked() {
            view.more += STEP;
        }
    });
}

/// Whether forecasts use what pots taught, and what can be done about that.
fn kept(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let learning = &state.batches.learning;
    let now = &learning.kept.now;
    boxed(ui, "In your forecasts", |ui| {
        let words = match used(now) {
            Some(used) if now.day.is_empty() => format!("Your forecasts: {used}"),
            Some(used) => format!("{used}, kept on {}", day_words(&now.day)),
            None => "Your forecasts use nothing that pots taught".to_owned(),
        };
        plain(ui, &words);
        ui.horizontal_wrapped(|ui| {
            let why = learning.disabled_keep();
            let keep = ui.add_enabled(why.is_none(), Button::new("Keep what they taught"));
            if keep.clicked() {
                out.push(BatchesCommand::Keep.into());
            }
            keep.on_hover_text("All forecasts of this kitchen use it from now on")
                .on_disabled_hover_text(why.unwrap_or_default());
            let back =
                ui.add_enabled(!learning.kept.earlier.is_empty(), Button::new("Undo the last keeping"));
            if back.clicked() {
                out.push(BatchesCommand::UndoKept.into());
            }
            back.on_disabled_hover_text("Nothing was kept before");
            let forget = ui.add_enabled(!now.is_empty(), Button::new("Forget all"));
            if forget.clicked() {
                out.push(BatchesCommand::Forget.into());
            }
            forget
                .on_hover_text(
                    "Forecasts use nothing of it any more. Undo brings it back; your pots stay as they are",
                )
                .on_disabled_hover_text("Nothing is kept");
        });
    });
}

fn one_line(ui: &mut Ui, line: &LearntLine, details: bool) {
    let t = tokens::of(ui);
    ui.add_space(tokens::GAP_SMALL);
    wrapped(ui, &line.about, fonts::semibold(tokens::BODY), t.ink);
    plain(ui, &line.words);
    if details {
        quiet(ui, &line.numbers);
    }
}

fn one_pot(ui: &mut Ui, pot: &PotTold, details: bool, out: &mut Vec<Command>) {
    ui.add_space(tokens::GAP_SMALL);
    ui.horizontal_wrapped(|ui| {
        let link = ui.link(&pot.name).on_hover_text("Opens this pot");
        if link.clicked() {
            out.push(BatchesCommand::Page(BatchesPage::Pot).into());
            out.push(BatchesCommand::Open(Some(pot.file.clone())).into());
        }
        quiet(ui, &pot.when);
    });
    for words in &pot.why_not {
        quiet(ui, &format!("Nothing is learnt from it: {words}"));
    }
    if pot.says.is_empty() && pot.why_not.is_empty() {
        quiet(ui, "It says nothing new");
    }
    for words in &pot.says {
        plain(ui, words);
    }
    if let Some(hours) = &pot.hours {
        quiet(ui, hours);
    }
    for words in &pot.aside {
        wrapped(ui, words, fonts::regular(tokens::BODY), tokens::of(ui).warn);
    }
    // Of many pairs the first says the most.
    let pairs = if details { pot.apart.len() } else { 1 };
    for words in pot.apart.iter().take(pairs) {
        quiet(ui, words);
    }
}
