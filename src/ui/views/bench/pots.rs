//! The pots card: vessels, style, and what is done to the pot afterwards.

use egui::{IdSalt, Ui};

use super::hand::Hand;
use crate::base::words::Style;
use crate::doc::Edit;
use crate::doc::design::{Clock, Disturbed};
use crate::doc::pantry;
use crate::ui::widgets::card::Card;
use crate::ui::widgets::picker::picker;

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let state = hand.state;
    let design = state.design();
    let vessels = &state.pantry.vessels;
    let vessel = pantry::find(&design.snapshot.vessels, &design.pots.vessel)
        .or_else(|| pantry::find(vessels, &design.pots.vessel))
        .map_or(design.pots.vessel.as_str(), |v| v.name.as_str());
    let start = match &design.clock {
        Clock::StartsAt(text) => format!("starts {text}"),
        Clock::ReadyBy(text) => format!("ready by {text}"),
        Clock::Open => String::new(),
    };
    Card::new("Pots and serving").quiet(&start).show(ui, |ui| {
        ui.horizontal(|ui| {
            let mut count = design.pots.count;
            let label = ui.label("Pots");
            let drag = egui::DragValue::new(&mut count).range(1..=200).speed(0.1);
            if ui.add(drag).labelled_by(label.id).changed() && count != design.pots.count {
                hand.edit(Edit::PotCount(count));
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
    });
}
