//! Because of what: the share of each part in each difference, as bars.

use egui::Ui;

use potset_app::command::BesideCommand;
use potset_app::{Command, State};
use potset_compare::beside::{Because, Causes};
use potset_report::beside as say;
use potset_report::why::why;
use potset_ui_kit::widgets::bars::{Bar, bars};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::pill::pill;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Shares under this part of all are left out.
const TOLD: f64 = 0.01;

/// Draws the shares of one design's difference to the first.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let told = &state.columns.told.beside;
    let n = told.names.len();
    if n < 2 {
        return;
    }
    let which = state.columns.versus.clamp(1, n - 1);
    let quiet = format!("{} beside {}", told.names[which], told.names[0]);
    Card::new("Because of").quiet(&quiet).show(ui, |ui| {
        if n > 2 {
            ui.horizontal_wrapped(|ui| {
                for i in 1..n {
                    if pill(ui, &told.names[i], i == which).clicked() {
                        out.push(BesideCommand::Versus(i).into());
                    }
                }
            });
        }
        let small = fonts::regular(tokens::SMALL + 1.0);
        let Some(causes) = told.causes.get(which - 1).and_then(Option::as_ref) else {
            wrapped(ui, "Working it out…", small, t.ink_soft);
            return;
        };
        if causes.players.is_empty() {
            wrapped(ui, "Nothing differs that would change the pot.", small, t.ink_soft);
            return;
        }
        for line in why(told, which) {
            wrapped(ui, &line, fonts::regular(tokens::BODY), t.ink);
        }
        let noticed = |b: &Because| told.noticed(b.outcome, which);
        for because in causes.because.iter().filter(|b| noticed(b)) {
            shares(ui, causes, because);
        }
        if !causes.because.iter().any(noticed) {
            wrapped(ui, "You would notice none of the differences.", small, t.ink_soft);
        }
        let read = |b: &Because| b.outcome.on_paper().is_some();
        fold(ui, causes, "Too small to notice", |b| !noticed(b) && !read(b));
        fold(ui, causes, "On the label and in the price", read);
        let how = "The shares add up to the whole difference. Each is what one part does, averaged over the orders \
                   in which the parts could be changed.";
        wrapped(ui, how, fonts::regular(tokens::SMALL), t.ink_soft);
    });
}

/// Differences that are told only where they are asked for; nothing where there are none.
fn fold(ui: &mut Ui, causes: &Causes, title: &str, of: impl Fn(&Because) -> bool) {
    let those: Vec<&Because> = causes.because.iter().filter(|b| of(b)).collect();
    if those.is_empty() {
        return;
    }
    let text = egui::RichText::new(title).color(tokens::of(ui).ink_soft);
    egui::CollapsingHeader::new(text).id_salt(title).show(ui, |ui| {
        for because in those {
            shares(ui, causes, because);
        }
    });
}

fn shares(ui: &mut Ui, causes: &Causes, because: &Because) {
    let t = tokens::of(ui);
    let outcome = because.outcome;
    ui.add_space(4.0);
    let title = format!("{}: {}", outcome.name(), outcome.difference_words(because.whole()));
    wrapped(ui, &title, fonts::semibold(tokens::BODY), t.ink);
    let all: f64 = because.shares.iter().map(|s| s.abs()).sum();
    let mut rows: Vec<(String, f64, String)> = causes
        .players
        .iter()
        .zip(&because.shares)
        .filter(|(_, share)| share.abs() >= TOLD * all)
        .map(|(player, share)| (say::player(player), *share, outcome.difference_words(*share)))
        .collect();
    rows.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
    let rows: Vec<Bar<'_>> = rows
        .iter()
        .map(|(name, amount, value)| Bar { name, amount: *amount, value, color: t.accent })
        .collect();
    bars(ui, &rows, None);
    if let Some(words) = say::left_out(because) {
        wrapped(ui, &format!("{words}."), fonts::regular(tokens::SMALL), t.ink_soft);
    }
}
