//! What is swept: the levers, their spans, and what the map shows.

use egui::{IdSalt, Ui};

use potset_app::command::SweepCommand;
use potset_app::sweeps::{LeverSpan, SweepWish};
use potset_app::{Command, State};
use potset_doc::fields;
use potset_forecast::lever::{Lever, levers};
use potset_forecast::observable::Observable;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Draws the controls.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let sweeps = &state.sweeps;
    let Some(wish) = sweeps.wish else { return };
    let all = levers(state.design(), &state.pantry);
    let mut new = wish;
    Card::new("What is turned").quiet("on the bench").show(ui, |ui| {
        if let Some(x) = axis(ui, "Across", &all, Some(wish.x), false) {
            new.x = x.unwrap_or(wish.x);
        }
        ui.add_space(4.0);
        if let Some(y) = axis(ui, "Upwards", &all, wish.y, true) {
            new.y = y;
        }
    });
    if new != wish {
        out.push(SweepCommand::Wish(settled(new, wish)).into());
    }
    if wish.y.is_some() {
        Card::new("What the map shows").show(ui, |ui| {
            for outcome in Observable::SWEPT {
                let on = sweeps.outcome == outcome;
                if ui.selectable_label(on, outcome.name()).clicked() {
                    out.push(SweepCommand::Observable(outcome).into());
                }
            }
        });
    }
    if let Some(fault) = &sweeps.fault {
        wrapped(ui, &fields::line(fault), fonts::regular(tokens::BODY), t.stop);
    }
    if let Some(swept) = &sweeps.swept {
        let (done, whole) = (swept.sweep.done, swept.sweep.cells.len());
        if done < whole && !sweeps.stopped {
            ui.horizontal(|ui| {
                ui.label(format!("{done} of {whole} points"));
                if ui.button("Stop").on_hover_text("Stops, and keeps the points worked out so far").clicked()
                {
                    out.push(SweepCommand::Stop.into());
                }
            });
        } else {
            let words = if done < whole { "stopped" } else { "points, all worked out" };
            wrapped(ui, &format!("{done} {words}"), fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
        }
    }
    let help = "Every point is a whole forecast of the design with these levers turned. Press a point, or go there with \
                the arrows and press Enter: it becomes the design, and can be undone.";
    wrapped(ui, help, fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
}

/// One lever cannot be turned in both directions: the other one gives way.
fn settled(new: SweepWish, old: SweepWish) -> SweepWish {
    match new.y {
        Some(y) if y.lever_id == new.x.lever_id => {
            if new.x.lever_id == old.x.lever_id {
                SweepWish { x: old.y.unwrap_or(old.x), ..new }
            } else {
                SweepWish { y: None, ..new }
            }
        }
        _ => new,
    }
}

/// A direction: its lever, from, to. Something if the maker changed it.
fn axis(
    ui: &mut Ui,
    name: &str,
    all: &[Lever],
    now: Option<LeverSpan>,
    may_be_none: bool,
) -> Option<Option<LeverSpan>> {
    let mut names: Vec<&str> = all.iter().map(|l| l.name.as_str()).collect();
    if may_be_none {
        names.push("nothing");
    }
    let lever = now.and_then(|now| all.iter().find(|l| l.lever_id == now.lever_id));
    let current = lever.map_or("nothing", |l| l.name.as_str());
    let mut changed = None;
    if let Some(i) = picker::row(ui, name, IdSalt::new(("sweep", name)), name, current, &names) {
        changed = Some(all.get(i).map(LeverSpan::usual));
    }
    let (Some(now), Some(lever)) = (now, lever) else { return changed };
    ui.horizontal_wrapped(|ui| {
        for (words, end, value) in [("from", 0, now.from), ("to", 1, now.to)] {
            ui.label(words);
            let number = Number {
                name: &format!("{name}, {words}"),
                unit: lever.unit,
                value,
                range: lever.range.0..=lever.range.1,
                decimals: lever.decimals,
                speed: lever.step,
                hover: "",
            };
            if let Some(v) = number.show(ui).value {
                changed = Some(Some(if end == 0 {
                    LeverSpan { from: v, ..now }
                } else {
                    LeverSpan { to: v, ..now }
                }));
            }
        }
    });
    changed
}
