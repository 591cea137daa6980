//! What may move: a tick for each lever and for each list, and bounds where the maker sets them.

use egui::Ui;

use potset_app::command::AimCommand;
use potset_app::{Command, State};
use potset_doc::Design;
use potset_forecast::lever::lines::list_of;
use potset_forecast::lever::{Lever, LeverId, levers};
use potset_search::aim::moves::{ENTRIES, Movable, Reach};
use potset_search::aim::{Beyond, Moves, Want, bounds, main_line};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Draws the card.
pub fn card(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let old = state.aims.moves_on(state.design());
    let mut moves = old.clone();
    let all = levers(state.design(), &state.pantry);
    Card::new("What may move").quiet("tick what may change").show(ui, |ui| {
        for kind in ENTRIES {
            let word = kind.one();
            // Ticked or not, a line of which something is held keeps what is in it.
            let held = list_of(kind).is_some_and(|s| moves.holds_line(s, main_line(state.design(), s)));
            let mut on = moves.entry(kind) && !held;
            let name = format!("Another {word}");
            let ticked = ui.add_enabled_ui(!held, |ui| tick(ui, &mut on, name)).inner;
            let why = format!("The {word} stays, because its amount or another lever of it is held below");
            if ticked.on_disabled_hover_text(why).changed() {
                let mut kinds: Vec<_> = ENTRIES.into_iter().filter(|k| moves.entry(*k)).collect();
                kinds.retain(|k| *k != kind);
                if on {
                    kinds.push(kind);
                }
                moves.held.retain(|m| *m != Movable::Entry(kind));
                moves.entries = Some(kinds);
            }
        }
        ui.separator();
        let spans = "As far as is usual. A span that you set here is kept.";
        wrapped(ui, spans, fonts::regular(tokens::SMALL + 1.0), tokens::of(ui).ink_soft);
        let mut unusual = moves.beyond == Beyond::Far;
        let hover = "Otherwise no amount goes beyond twice the usual most, even where nothing usual reaches your \
                     goals.";
        if tick(ui, &mut unusual, "Allow unusual amounts").on_hover_text(hover).changed() {
            moves.beyond = if unusual { Beyond::Far } else { Beyond::default() };
        }
        for lever in &all {
            one(ui, lever, (state.design(), &all, &state.aims.wants), &mut moves);
        }
    });
    if moves != old {
        out.push(AimCommand::Moves(moves).into());
    }
}

/// The levers that may move as a list, to change it: what is held stays in it, with its bounds.
fn listed(moves: &Moves, all: &[Lever]) -> Vec<Reach> {
    let usual = || all.iter().filter_map(|l| Moves::default().lever(l.lever_id)).collect();
    moves.levers.clone().unwrap_or_else(usual)
}

/// A lever: its tick, and below it how far it may be turned, there whether it is ticked or not: nothing moves under the pointer.
fn one(ui: &mut Ui, lever: &Lever, (design, all, wants): (&Design, &[Lever], &[Want]), moves: &mut Moves) {
    let lever_id = lever.lever_id;
    let mut on = moves.lever(lever_id).is_some();
    // A held share can be let go; one that nothing follows cannot be moved.
    let still = on && matches!(lever_id, LeverId::BaseShare(_)) && !moves.shares_move(design);
    on &= !still;
    let ticked = ui.add_enabled_ui(!still, |ui| tick(ui, &mut on, lever.name.as_str())).inner;
    if ticked.on_disabled_hover_text("No other share could follow").changed() {
        if on {
            moves.held.retain(|m| *m != Movable::Lever(lever_id));
            if moves.lever(lever_id).is_none() {
                let mut reaches = listed(moves, all);
                reaches.push(Reach { lever_id, bounds: None, step: None });
                (moves.levers, moves.fed) = (Some(reaches), true);
            }
        } else {
            moves.held.push(Movable::Lever(lever_id));
        }
    }
    let reach = listed(moves, all).into_iter().find(|r| r.lever_id == lever_id);
    let (from, to) = reach.and_then(|r| r.bounds).unwrap_or_else(|| bounds(lever, wants, Beyond::Never));
    let mut new = (from, to);
    ui.add_enabled_ui(on, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.add_space(22.0);
            let (low, high) = lever.range;
            for (word, value, range) in [("from", from, low..=to), ("to", to, from..=high)] {
                ui.label(word);
                let number = Number {
                    name: &format!("{} {word}", lever.name),
                    // There is little room: the name above says what it is of.
                    unit: if lever_id.is_rate() { "×" } else { lever.unit },
                    value,
                    range,
                    decimals: lever.decimals,
                    speed: lever.step,
                    hover: "How far it may be turned",
                };
                if let Some(v) = number.show(ui).value {
                    if word == "from" { new.0 = v } else { new.1 = v }
                }
            }
        });
    });
    if on && new != (from, to) && new.0 < new.1 {
        let mut reaches = listed(moves, all);
        for r in reaches.iter_mut().filter(|r| r.lever_id == lever_id) {
            r.bounds = Some(new);
        }
        (moves.levers, moves.fed) = (Some(reaches), true);
    }
}
