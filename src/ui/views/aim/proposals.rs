//! The proposals: what each is best at, its chance, what it changes, how it stands to what is wanted, and what to do with it.

use egui::{RichText, Ui, UiBuilder, vec2};

use potset_app::aims::TargetResult;
use potset_app::command::AimCommand;
use potset_app::{Command, State};
use potset_report::aim;
use potset_search::aim::Proposal;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Below this width a card stands under the one before it.
const NARROW: f32 = 210.0;

/// Draws the cards next to each other, or under each other where there is no room.
pub fn show(ui: &mut Ui, state: &State, aimed: &TargetResult, out: &mut Vec<Command>) {
    show_found(ui, aimed);
    let all = &aimed.found.proposals;
    if all.is_empty() {
        return;
    }
    let n = all.len().max(1);
    let width = (ui.available_width() - 10.0 * (n - 1) as f32) / n as f32;
    if width < NARROW {
        for (i, proposal) in all.iter().enumerate() {
            card(ui, state, i, proposal, out);
        }
    } else {
        let place = ui.available_rect_before_wrap();
        let mut bottom = place.top();
        for (i, proposal) in all.iter().enumerate() {
            let left = place.left() + i as f32 * (width + 10.0);
            let rect = egui::Rect::from_min_size(egui::pos2(left, place.top()), vec2(width, place.height()));
            let mut column = ui.new_child(UiBuilder::new().max_rect(rect).id_salt(("proposal", i)));
            card(&mut column, state, i, proposal, out);
            bottom = bottom.max(column.min_rect().bottom());
        }
        ui.allocate_space(vec2(place.width(), bottom - place.top()));
    }
    ui.horizontal(|ui| {
        let on = state.aims.on_bench;
        let words = if on { "Hide them on the bench" } else { "Show them on the bench" };
        let hover = "Their pale curves beside those of the design, each with its number";
        let disabled_reason = state.aims.disabled_show();
        let show = ui.add_enabled(disabled_reason.is_none(), egui::Button::new(words)).on_hover_text(hover);
        if show.on_disabled_hover_text(disabled_reason.unwrap_or_default()).clicked() {
            out.push(AimCommand::OnBench(!on).into());
        }
    });
}

/// What is to be said before the settings: that the design does it already, that it was looked beyond what is usual.
pub fn show_found(ui: &mut Ui, aimed: &TargetResult) {
    let t = tokens::of(ui);
    for (i, line) in aim::lines(&aimed.found).iter().enumerate() {
        let head = i == 0 && aimed.found.does_already();
        let font = if head { fonts::semibold(tokens::BODY) } else { fonts::regular(tokens::BODY) };
        wrapped(ui, line, font, if head { t.ready_ink } else { t.ink });
    }
}

fn card(ui: &mut Ui, state: &State, i: usize, p: &Proposal, out: &mut Vec<Command>) {
    let best = aim::best_at(p);
    Card::new(&format!("Setting {}", i + 1)).quiet(&best).show(ui, |ui| {
        body(ui, p, &aim::headline(p));
        ui.add_space(2.0);
        buttons(ui, state, i, &format!("setting {}", i + 1), out);
    });
}

/// The words of a setting, under a headline: how it stands as a whole.
pub fn body(ui: &mut Ui, p: &Proposal, headline: &str) {
    let t = tokens::of(ui);
    let small = || fonts::regular(tokens::SMALL + 1.0);
    let ink = if p.holds() { t.ready_ink } else { t.stop };
    wrapped(ui, headline, fonts::semibold(tokens::BODY), ink);
    ui.add_space(2.0);
    for said in aim::said(p) {
        wrapped(ui, &said, fonts::regular(tokens::BODY), t.ink);
    }
    for turned in &p.turned {
        wrapped(
            ui,
            &aim::turned::words(turned),
            fonts::regular(tokens::BODY),
            if turned.unusual.is_some() { t.warn } else { t.ink },
        );
    }
    if p.changes() == 0 {
        wrapped(ui, "Nothing changes", fonts::regular(tokens::BODY), t.ink);
    }
    ui.add_space(2.0);
    for s in &p.standings {
        let mark = if s.holds() { "✓" } else { "⚠" };
        let color = if s.holds() { t.ink_soft } else { t.stop };
        wrapped(ui, &format!("{mark} {}", aim::standing::words(s)), small(), color);
    }
    for line in aim::watch(p) {
        wrapped(ui, &line, fonts::semibold(tokens::SMALL + 1.0), t.warn);
    }
}

/// Use it, or put it beside. `name` tells one setting from the next.
pub fn buttons(ui: &mut Ui, state: &State, i: usize, name: &str, out: &mut Vec<Command>) {
    ui.horizontal_wrapped(|ui| {
        let disabled_reason = state.aims.disabled_take(i);
        let ready = disabled_reason.is_none();
        let take = ui.add_enabled(ready, egui::Button::new(RichText::new("Use it").strong()));
        named(&take, ready, &format!("Use {name}"));
        let take = take.on_hover_text("Makes this the design on the bench. Undo goes back in one step");
        if take.on_disabled_hover_text(disabled_reason.unwrap_or_default()).clicked() {
            out.push(AimCommand::Take(i).into());
        }
        let room = ready && state.columns.full().is_none();
        let beside = ui.add_enabled(room, egui::Button::new("Add it to Beside"));
        named(&beside, room, &format!("Put {name} beside"));
        if beside
            .on_hover_text("A column of its own; the design on the bench stays as it is")
            .on_disabled_hover_text(disabled_reason.unwrap_or("Four designs are beside each other already"))
            .clicked()
        {
            out.push(AimCommand::Beside(i).into());
        }
    });
}

fn named(response: &egui::Response, on: bool, name: &str) {
    response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, on, name));
}
