//! The pots card: vessels, style, and what is done to the pot afterwards.

use egui::{IdSalt, Ui};

use super::hand::EditContext;
use potset_base::clock::Moment;
use potset_base::number;
use potset_base::words::Style;
use potset_doc::Edit;
use potset_doc::design::{Clock, Disturbed};
use potset_doc::pantry::EntryKind;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::field;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let design = state.design();
    let vessels = &state.pantry.vessels;
    let vessel = design.name_of(&state.pantry, EntryKind::Vessel, &design.pots.vessel);
    Card::new("Pots and serving").show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label("Pots");
            let count = Number {
                name: "Pots",
                unit: "",
                value: f64::from(design.pots.count),
                range: 1.0..=200.0,
                decimals: 0,
                speed: 0.1,
                hover: "",
            };
            if let Some(n) = count.show(ui).value.map(|v| v.round() as u32)
                && n != design.pots.count
            {
                hand.edit(Edit::PotCount(n));
            }
            let names: Vec<&str> = vessels.iter().map(|v| v.name.as_str()).collect();
            if let Some(i) = picker(ui, IdSalt::new("vessel"), "Vessel", vessel, &names)
                && let Some(entry) = vessels.get(i)
            {
                hand.edit(Edit::Vessel(entry.key.clone()));
            }
        });
        ui.horizontal(|ui| {
            ui.label("Style");
            ui.spacing_mut().combo_width = 80.0;
            let names = Style::ALL.map(Style::word);
            if let Some(i) = picker(ui, IdSalt::new("style"), "Style", design.style.word(), &names) {
                hand.edit(Edit::Style(Style::ALL[i]));
            }
            ui.spacing_mut().combo_width = 130.0;
            let names = Disturbed::ALL.map(Disturbed::words);
            if let Some(i) =
                picker(ui, IdSalt::new("disturbed"), "Disturbed", design.disturbed.words(), &names)
            {
                hand.edit(Edit::Disturbed(Disturbed::ALL[i]));
            }
        });
        serving(ui, hand);
        clock(ui, hand);
    });
}

/// One serving, and how many the pots give.
fn serving(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let n = &hand.state.answer.nutrition;
    let servings = format!("gives {}", number::fixed(n.servings, 1));
    ui.horizontal(|ui| {
        ui.label("Serving");
        let number = Number {
            name: "Serving size",
            unit: "g",
            value: hand.design().pots.serving_g,
            range: 5.0..=2000.0,
            decimals: 0,
            speed: 1.0,
            hover: "What one person eats. Nutrition and price are for this",
        };
        hand.number(ui, &number, Edit::Serving);
        ui.label(servings);
    });
}

/// When the pot starts, or by when it is to be ready; empty: no clock.
fn clock(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let (ready_by, text) = match &state.design().clock {
        Clock::Open => (false, ""),
        Clock::StartsAt(text) => (false, text.as_str()),
        Clock::ReadyBy(text) => (true, text.as_str()),
    };
    let make = |ready_by: bool, text: &str| match (ready_by, text.trim()) {
        (_, "") => Clock::Open,
        (true, text) => Clock::ReadyBy(text.to_owned()),
        (false, text) => Clock::StartsAt(text.to_owned()),
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().combo_width = 92.0;
        let words = ["starts at", "ready by"];
        if let Some(i) = picker(ui, IdSalt::new("clock"), "Clock", words[usize::from(ready_by)], &words) {
            hand.edit(Edit::Clock(make(i == 1, text)));
        }
        let hint = "tomorrow 18:30";
        if let Some(typed) = field::field(ui, "Date and time", text, hint, 150.0) {
            // What cannot be read stays as it was typed, with the fault and its mend.
            let typed = state.moment(&typed).map_or(typed, Moment::text);
            hand.edit(Edit::Clock(make(ready_by, &typed)));
        }
    });
}
