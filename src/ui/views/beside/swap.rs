//! The Swap page: another base, sugar, thickener or culture in a line's place, and what else changes with it.

use egui::{CentralPanel, Frame, IdSalt, Margin, Panel, Ui};

use super::tables::{Cell, row, rule};
use potset_app::command::SweepCommand;
use potset_app::{Command, State};
use potset_base::Severity;
use potset_doc::Design;
use potset_doc::edit::LineKind;
use potset_doc::fields;
use potset_doc::pantry::Pantry;
use potset_forecast::observable::Observable;
use potset_judge::outcomes::Outcomes;
use potset_report::advice::warned;
use potset_report::swap::{brings, said};
use potset_search::swap::{SwapAsk, Swapped};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::picker;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Draws the page over the room that is left.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(10, 6));
    Panel::left("swap controls").resizable(false).exact_size(330.0).frame(frame).show(ui, |ui| {
        column(ui, "swap", tokens::GAP, |ui| {
            controls(ui, state, out);
        });
    });
    CentralPanel::default().frame(frame).show(ui, |ui| {
        column(ui, "swapped", tokens::GAP_SMALL, |ui| show_result(ui, state, out));
    });
}

/// The lines of a design that can be swapped: shelf, place, name.
fn lines(design: &Design, pantry: &Pantry) -> Vec<(LineKind, usize, String)> {
    let swapped = LineKind::ALL.into_iter().filter(|shelf| *shelf != LineKind::Additives);
    let of = |shelf: LineKind| {
        let lines = design.lines(shelf).into_iter().enumerate();
        lines.map(move |(i, line)| (shelf, i, design.name_of(pantry, shelf.kind(), line.entry()).to_owned()))
    };
    swapped.flat_map(of).collect()
}

/// Keys and names of what may come in its place.
fn others(pantry: &Pantry, shelf: LineKind) -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> =
        pantry.entries(shelf.kind()).iter().map(|e| (e.key().to_owned(), e.name().to_owned())).collect();
    all.sort_by(|a, b| a.1.cmp(&b.1));
    all
}

fn controls(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let wish = &state.sweeps.swap.wish;
    let mut new = wish.clone();
    let lines = lines(state.design(), &state.pantry);
    Card::new("Swap").quiet("in the design on the bench").show(ui, |ui| {
        let at = lines.iter().position(|(shelf, i, _)| (*shelf, *i) == (wish.shelf, wish.line));
        let words: Vec<String> =
            lines.iter().map(|(shelf, _, name)| format!("{}: {name}", shelf.one())).collect();
        let names: Vec<&str> = words.iter().map(String::as_str).collect();
        let current = at.map_or("pick a line", |i| names[i]);
        let salt = IdSalt::new("swap line");
        if let Some(i) = picker::row(ui, "This", salt, "What is swapped", current, &names) {
            let (shelf, line, _) = &lines[i];
            new = SwapAsk { shelf: *shelf, line: *line, entry: String::new(), ..wish.clone() };
        }
        let all = others(&state.pantry, wish.shelf);
        let names: Vec<&str> = all.iter().map(|(_, name)| name.as_str()).collect();
        let current =
            all.iter().find(|(key, _)| *key == wish.entry).map_or("pick an entry", |(_, name)| name);
        let salt = IdSalt::new("swap entry");
        if let Some(i) = picker::row(ui, "for", salt, "What comes in its place", current, &names) {
            new.entry.clone_from(&all[i].0);
        }
        ui.add_space(4.0);
        tick(ui, &mut new.equal_thickness, "At equal thickness");
        tick(ui, &mut new.equal_tang, "At equal tang");
        let how = match (new.equal_thickness, new.equal_tang) {
            (false, false) => {
                "At the usual amount: the middle of what is usual for the new entry; a base by its volume."
            }
            (true, false) => "A thickener's dose is turned until the chilled pot is as thick as before.",
            (false, true) => "The stop line is moved until the pot tastes as sour as before.",
            (true, true) => {
                "A thickener's dose and the stop line are turned until thickness and tang are as before."
            }
        };
        wrapped(ui, how, fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
    });
    if new != *wish {
        out.push(SweepCommand::Swap(new).into());
    }
}

fn show_result(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let desk = &state.sweeps.swap;
    let font = fonts::regular(tokens::BODY);
    let Some(told) = &desk.told else {
        wrapped(
            ui,
            "Choose what comes in its place. You see what else would change before anything does.",
            font,
            t.ink_soft,
        );
        return;
    };
    match told.as_ref() {
        Err(note) => {
            Card::new("This swap is not possible")
                .show(ui, |ui| wrapped(ui, &fields::line(note), font, t.stop));
        }
        Ok(swapped) => {
            // Before it is used: what a guest with an allergy, or the pot, would have to live with.
            if !(brings(&swapped.brings).is_empty() && swapped.warned.is_empty()) {
                Card::new("New with this swap").show(ui, |ui| {
                    let strong = fonts::semibold(tokens::BODY);
                    for sentence in brings(&swapped.brings) {
                        wrapped(ui, &sentence, strong.clone(), t.ink);
                    }
                    for advice in &swapped.warned {
                        let ink = if advice.severity >= Severity::Stop { t.stop } else { t.ink };
                        wrapped(ui, &warned(advice), font.clone(), ink);
                    }
                });
                ui.add_space(8.0);
            }
            Card::new("What is changed").show(ui, |ui| {
                for sentence in said(swapped) {
                    wrapped(ui, &sentence, font.clone(), t.ink);
                }
                ui.add_space(4.0);
                ui.horizontal(|ui| {
                    let ready = desk.answered == desk.question;
                    let take = ui.add_enabled(ready, egui::Button::new("Use it"));
                    if take
                        .on_hover_text("Makes this the design on the bench. Undo goes back in one step")
                        .clicked()
                    {
                        out.push(SweepCommand::TakeSwap.into());
                    }
                    let room = state.columns.full().is_none();
                    let beside = ui.add_enabled(ready && room, egui::Button::new("Add it to Beside"));
                    if beside
                        .on_hover_text("A column of its own; the design on the bench stays as it is")
                        .on_disabled_hover_text("Four designs are beside each other already")
                        .clicked()
                    {
                        out.push(SweepCommand::SwapBeside.into());
                    }
                });
            });
            ui.add_space(8.0);
            outcomes(ui, swapped);
        }
    }
}

fn outcomes(ui: &mut Ui, swapped: &Swapped) {
    let read = |all: &Outcomes, o: Observable| o.words_of(all.get(o));
    Card::new("What it does").quiet("now, and with the swap").show(ui, |ui| {
        for o in Observable::ALL {
            let (a, b) = (swapped.before.get(o), swapped.after.get(o));
            if a.is_none() && b.is_none() {
                continue;
            }
            rule(ui);
            let noticed = swapped.before.notices(&swapped.after, o);
            let difference = a.zip(b).map(|(a, b)| o.scaled(b) - o.scaled(a));
            let below = o.difference_line(difference, noticed, " · ");
            let cells = [
                Cell { text: read(&swapped.before, o), soft: a.is_none(), ..Cell::default() },
                Cell {
                    text: read(&swapped.after, o),
                    below,
                    strong: noticed && o.shows_notice(),
                    soft: b.is_none(),
                },
            ];
            row(ui, o.name(), &cells);
        }
    });
}
