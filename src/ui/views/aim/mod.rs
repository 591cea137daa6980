//! The Aim view: what is wanted, what may move, and settings that reach it, with their trade-offs; or what blocks.

mod blocked;
mod moves;
mod only;
mod proposals;
mod trade_offs;
mod wants;

use egui::{CentralPanel, Frame, Margin, Panel, ProgressBar, ScrollArea, Ui};

use crate::app::command::AimCommand;
use crate::app::{Command, State};
use crate::doc::fields;
use crate::ui::widgets::card::Card;
use crate::ui::widgets::wrapped;
use crate::ui::{fonts, tokens};

/// Width of the column of wants.
const LEFT: f32 = 340.0;

/// Draws the view over the whole of `ui`.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(9, 8));
    Panel::left("wanted").resizable(false).exact_size(LEFT).frame(frame).show(ui, |ui| {
        ScrollArea::vertical().id_salt("wanted").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 8.0;
            start(ui, state, out);
            wants::card(ui, state, out);
            only::card(ui, state, out);
            moves::card(ui, state, out);
        });
    });
    let sheet = Frame::new().fill(t.sheet).inner_margin(Margin::symmetric(14, 10));
    CentralPanel::default().frame(sheet).show(ui, |ui| {
        ScrollArea::vertical().id_salt("found").auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 8.0;
            found(ui, state, out);
        });
    });
}

/// The button that asks, and what is under way.
fn start(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let aims = &state.aims;
    ui.horizontal(|ui| {
        if aims.busy() {
            if ui.button("Stop").on_hover_text("Leaves what was found so far").clicked() {
                out.push(Command::Aim(AimCommand::Stop));
            }
            let found = aims.aimed.as_ref().map(|a| &a.found);
            let (doing, share) = found.map_or(("", 0.0), |f| (f.doing, f.share));
            #[allow(clippy::cast_possible_truncation, reason = "a share of one")]
            let bar = ProgressBar::new(share as f32).desired_height(14.0).fill(t.accent_soft);
            ui.add(bar.text(doing));
        } else {
            let can = !aims.wants.is_empty() && state.answer.errors.is_empty();
            let button = egui::Button::new("Look for settings").min_size(egui::vec2(140.0, 26.0));
            let barred =
                if aims.wants.is_empty() { "Say what is wanted first" } else { "There is no forecast" };
            let hover = "Up to three settings that reach all of it, the surest first";
            if ui.add_enabled(can, button).on_hover_text(hover).on_disabled_hover_text(barred).clicked() {
                out.push(Command::Aim(AimCommand::Start));
            }
        }
    });
    if let Some(fault) = &aims.fault {
        wrapped(ui, &fields::line(fault), fonts::regular(tokens::BODY), t.stop);
    }
}

fn found(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let aims = &state.aims;
    let Some(aimed) = aims.aimed.as_ref().filter(|a| !a.found.doing.is_empty() || a.found.complete) else {
        empty(ui, state);
        return;
    };
    if aims.outdated {
        let text =
            "This is of the design or the wants as they were. Look again for settings of what they are now.";
        wrapped(ui, text, fonts::semibold(tokens::BODY), t.warn);
    }
    if let Some(blocked) = &aimed.found.blocked {
        blocked::show(ui, state, aimed, blocked, out);
        return;
    }
    if aimed.found.proposals.is_empty() {
        let words = if aims.busy() { "Looking…" } else { "Stopped before anything was found" };
        wrapped(ui, words, fonts::regular(tokens::BODY), t.ink_soft);
        return;
    }
    proposals::show(ui, state, aimed, out);
    trade_offs::show(ui, aimed, &aimed.found.proposals);
}

fn empty(ui: &mut Ui, state: &State) {
    let t = tokens::of(ui);
    ui.set_max_width(ui.available_width().min(560.0));
    Card::new("Say what the pot is to be").quiet(&state.design().name).show(ui, |ui| {
        let text = "Aim turns levers of the design on the bench, and puts another base, thickener or culture in where that \
                    helps, until the pot is what you want it to be. It looks for settings that hold for many possible pots, \
                    not for the likely one alone, and shows up to three that are clearly different. If nothing reaches it, \
                    you are told what blocks, by how much, and what comes nearest.";
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink);
        ui.add_space(4.0);
        let text = "Say what is wanted at the left, hold what must stay, and press Look for settings. Nothing changes \
                    until you take one.";
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink_soft);
    });
}
