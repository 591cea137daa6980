//! The Aim view: what is wanted, what may move, and settings that reach it, with their trade-offs; or what blocks.

mod add;
mod blocked;
mod follow;
mod moves;
mod only;
mod proposals;
mod trade_offs;
mod wants;

use egui::{Align, CentralPanel, Frame, Key, Layout, Margin, Panel, Popup, ProgressBar, Ui, vec2};

use potset_app::command::AimCommand;
use potset_app::state::{Dialog, disabled_look};
use potset_app::{Action, Command, State};
use potset_doc::fields;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Width of the column of wants.
const LEFT: f32 = 340.0;
/// Height of the row with the button that asks, whatever stands in it.
const ROW: f32 = 26.0;

/// Draws the view over the whole of `ui`.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    escape(ui, state, out);
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(9, 8));
    Panel::left("wanted").resizable(false).exact_size(LEFT).frame(frame).show(ui, |ui| {
        column(ui, "wanted", tokens::GAP, |ui| {
            start(ui, state, out);
            wants::card(ui, state, out);
            only::card(ui, state, out);
            moves::card(ui, state, out);
            follow::focus(ui, "wanted");
        });
    });
    let sheet = Frame::new().fill(t.sheet).inner_margin(Margin::symmetric(14, 10));
    CentralPanel::default().frame(sheet).show(ui, |ui| {
        column(ui, "found", tokens::GAP, |ui| {
            found(ui, state, out);
            follow::focus(ui, "found");
        });
    });
}

/// Escape stops a search, unless it was for a field, a menu or a window.
fn escape(ui: &Ui, state: &State, out: &mut Vec<Command>) {
    // Escape takes the keyboard from a field before anything is drawn: what counts is the frame before.
    let now = ui.ctx().text_edit_focused() || Popup::is_any_open(ui.ctx()) || state.dialog != Dialog::None;
    let before = ui.data_mut(|d| {
        let kept = d.get_temp_mut_or_default::<bool>(egui::Id::unique("aim typing"));
        std::mem::replace(kept, now)
    });
    if state.aims.busy() && !now && !before && ui.input(|i| i.key_pressed(Key::Escape)) {
        out.push(AimCommand::Stop.into());
    }
}

/// The button that asks, and what is under way.
fn start(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let aims = &state.aims;
    let busy = aims.busy();
    let row = vec2(ui.available_width(), ROW);
    ui.allocate_ui_with_layout(row, Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_height(ROW);
        let (words, hover) = if busy {
            (Action::StopLooking.label(), "Stops, and keeps what was found so far. Escape does the same")
        } else {
            (Action::LookForSettings.label(), Action::LookForSettings.tip())
        };
        let disabled_reason = disabled_look(state).filter(|_| !busy);
        let button = egui::Button::new(words).min_size(vec2(140.0, ROW));
        // One button under one name, so that the keyboard stays on it.
        let look = ui.push_id("look", |ui| ui.add_enabled(disabled_reason.is_none(), button)).inner;
        // The second press of two quick ones was not meant for what the first one made of the button.
        let pressed = look.clicked() && !(busy && look.double_clicked());
        look.on_hover_text(hover).on_disabled_hover_text(disabled_reason.unwrap_or_default());
        if pressed {
            out.push(Command::Aim(if busy { AimCommand::Stop } else { AimCommand::Start }));
        }
        if busy {
            let found = aims.aimed.as_ref().map(|a| &a.found);
            let (doing, share) = found.map_or(("", 0.0), |f| (potset_report::aim::doing(f.stage), f.share));
            let bar = ProgressBar::new(share as f32).desired_height(14.0).fill(t.accent_soft);
            ui.add(bar.text(doing));
        }
    });
    if let Some(fault) = &aims.fault {
        wrapped(ui, &fields::line(fault), fonts::regular(tokens::BODY), t.stop);
    }
}

fn found(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let aims = &state.aims;
    let Some(aimed) = &aims.aimed else {
        empty(ui, state);
        return;
    };
    if !aimed.something() {
        let words = if aims.busy() { "Searching…" } else { aims.unfinished().unwrap_or_default() };
        wrapped(ui, words, fonts::regular(tokens::BODY), t.ink_soft);
        return;
    }
    head(ui, state, out);
    if let Some(blocked) = &aimed.found.blocked {
        blocked::show(ui, state, aimed, blocked, out);
        return;
    }
    proposals::show(ui, state, aimed, out);
    if !aimed.found.proposals.is_empty() {
        trade_offs::show(ui, state, aimed, &aimed.found.proposals);
    }
}

/// What the settings are of and whether that still holds, and a way to copy them. It is always there, so that nothing moves
/// when one of them is taken.
fn head(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let aims = &state.aims;
    let mut words = Vec::new();
    let (mut color, mut font) = (t.warn, fonts::semibold(tokens::BODY));
    if let Some(i) = aims.taken {
        let nearest = aims.aimed.as_ref().is_some_and(|a| a.found.proposals.is_empty());
        let name = if nearest { "The nearest setting".to_owned() } else { format!("Setting {}", i + 1) };
        words.push(format!("{name} is on the bench. Undo goes back."));
        color = t.ready_ink;
    } else if aims.outdated {
        words.push("Your design or goals changed. Find settings again.".to_owned());
    }
    if aims.busy() {
        color = t.ink_soft;
    }
    words.extend(aims.unfinished().map(|text| format!("{text}.")));
    if words.is_empty() {
        words.push(aims.asked.as_ref().map_or_else(String::new, |a| format!("For {}", a.design.name)));
        (color, font) = (t.ink_soft, fonts::regular(tokens::BODY));
    }
    let row = vec2(ui.available_width(), 20.0);
    ui.allocate_ui_with_layout(row, Layout::right_to_left(Align::Min), |ui| {
        let copy = ui.add(egui::Button::new("Copy").small());
        copy.widget_info(|| {
            let role = egui::accesskit::Role::Button;
            egui::WidgetInfo::labeled(role, true, Action::CopySettings.label())
        });
        if copy.on_hover_text(Action::CopySettings.tip()).clicked() {
            out.push(Command::Do(Action::CopySettings));
        }
        ui.with_layout(Layout::top_down(Align::Min), |ui| {
            wrapped(ui, &words.join(" "), font, color);
        });
    });
}

fn empty(ui: &mut Ui, state: &State) {
    let t = tokens::of(ui);
    ui.set_max_width(ui.available_width().min(560.0));
    Card::new("Say what the pot is to be").quiet(&state.design().name).show(ui, |ui| {
        let text = "Aim turns the levers of your design until the pot reaches your goals. Where that helps, it tries another \
                    base, thickener, culture or warmer. It looks for settings that work in many possible pots, and shows up \
                    to three that differ clearly. What changes least comes first. If nothing reaches your goals, you see \
                    what blocks, by how much, and what comes nearest.";
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink);
        ui.add_space(4.0);
        let text = "Set your goals at the left, hold what must stay, and press Find settings. Nothing changes until you \
                    use one.";
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink_soft);
    });
}
