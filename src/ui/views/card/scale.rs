//! The design for another amount.

use egui::{Grid, IdSalt, RichText, Ui};

use super::numbers::{Wanted, number};
use super::told;
use potset_app::card::{CardWish, ScaleKind, Told};
use potset_app::command::CardCommand;
use potset_app::{Command, State};
use potset_base::number::{self, NBSP};
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::{fonts, tokens};

/// How many of something.
const COUNT: Wanted = Wanted {
    name: "So many",
    unit: "",
    range: 0.1..=10_000.0,
    decimals: 1,
    hover: "So many jars, packs, servings or litres",
};

/// Draws the page.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let wish = &state.card.wish;
    boxed(ui, "Make another amount", |ui| {
        ui.horizontal_wrapped(|ui| {
            if !matches!(wish.scale, ScaleKind::Packet | ScaleKind::Warmer) {
                number(ui, &COUNT, wish.count, wish, out, |wish, v| wish.count = v);
            }
            let kinds: Vec<&str> = ScaleKind::ALL.iter().map(|kind| kind.words()).collect();
            if let Some(i) = picker(ui, IdSalt::new("scale"), "Scale to", wish.scale.words(), &kinds) {
                let wish = CardWish { scale: ScaleKind::ALL[i], ..wish.clone() };
                out.push(CardCommand::Wish(wish).into());
            }
        });
        quiet(ui, "Doses stay per litre. What is weighed is rounded to your scale's step.");
    });
    let Some(Told::Scale(scaled)) = told(ui, state) else { return };
    boxed(ui, &format!("{}{NBSP}times as much", number::rough(scaled.times)), |ui| {
        let t = tokens::of(ui);
        Grid::new("scaled").num_columns(3).striped(true).spacing([18.0, 4.0]).show(ui, |ui| {
            for head in ["", "now", "then"] {
                ui.label(RichText::new(head).font(fonts::regular(tokens::SMALL)).color(t.ink_soft));
            }
            ui.end_row();
            for [name, now, then] in &scaled.lines {
                ui.label(name);
                ui.label(RichText::new(now).color(t.ink_soft));
                ui.label(RichText::new(then).font(fonts::semibold(tokens::BODY)).color(t.ink));
                ui.end_row();
            }
        });
        ui.add_space(4.0);
        for line in &scaled.vessels {
            plain(ui, line);
        }
        for line in &scaled.rounded {
            quiet(ui, line);
        }
        ui.add_space(4.0);
        let same = (scaled.times - 1.0).abs() < 1e-9 && scaled.rounded.is_empty();
        let button = ui.add_enabled(!same, egui::Button::new("Use this amount"));
        if button.clicked() {
            out.push(CardCommand::UseScaled.into());
        }
        button.on_disabled_hover_text("Your design already makes this much");
    });
}
