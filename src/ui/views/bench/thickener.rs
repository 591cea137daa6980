//! The thickener card: doses, and how they go in.

use egui::Ui;

use super::hand::{Hand, Row};
use super::shelf::{self, ShelfWords};
use crate::base::{measures, number};
use crate::doc::Edit;
use crate::doc::design::GoesIn;
use crate::doc::edit::Shelf;
use crate::doc::pantry::{self, Action};
use crate::ui::widgets::card::Card;
use crate::ui::widgets::tick::tick;

const WORDS: ShelfWords = ShelfWords { shelf: Shelf::Thickeners, title: "Thickener", may_be_empty: true };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let state = hand.state;
    let design = state.design();
    let all = shelf::choices(&design.snapshot.thickeners, &state.pantry.thickeners, |s| {
        (s.name.clone(), 0.5 * (s.usual.0 + s.usual.1))
    });
    let used: Vec<&str> = design.thickeners.iter().map(|s| s.entry.as_str()).collect();
    let count = used.len();
    let mut slot = Vec::new();
    let card = Card::new("Thickener").menu(|ui| {
        let mut hand = Hand { state, view: &mut super::hand::HandState::default(), out: &mut slot };
        if count > 0 {
            shelf::add_menu(ui, &mut hand, &WORDS, &all, &used);
        }
        shelf::line_picker(ui, &mut hand, &WORDS, &all, used.first().map(|key| (0, *key)), count);
    });
    card.show(ui, |ui| {
        for (i, key) in used.iter().enumerate() {
            if i > 0 {
                shelf::line_picker(ui, hand, &WORDS, &all, Some((i, *key)), count);
            }
            line(ui, hand, i);
        }
    });
    hand.out.append(&mut slot);
}

fn line(ui: &mut Ui, hand: &mut Hand<'_>, i: usize) {
    let state = hand.state;
    let design = state.design();
    let Some(line) = design.thickeners.get(i) else { return };
    let entry = pantry::find(&design.snapshot.thickeners, &line.entry)
        .or_else(|| pantry::find(&state.pantry.thickeners, &line.entry));
    let grams = line.g_per_l * design.litres();
    let spoons =
        entry.map_or_else(String::new, |e| measures::spoons(grams / e.bulk_density.v, design.spoons));
    let numbered = |name: &str| if i == 0 { name.to_owned() } else { format!("{name} {}", i + 1) };
    let name = numbered("Thickener amount");
    let row = Row {
        name: &name,
        unit: "g/L",
        value: line.g_per_l,
        saved: hand.saved().and_then(|d| d.thickeners.get(i)).map(|t| t.g_per_l),
        range: (0.0, 60.0),
        usual: entry.map(|e| e.usual),
        decimals: 1,
        step: 0.5,
        logarithmic: false,
        beside: format!("{spoons} for {} L", number::figures(design.litres(), 2)),
        hover: entry.map_or_else(String::new, |e| {
            format!(
                "{}. Usual {} to {} g/L. {}",
                e.name,
                number::plain(e.usual.0),
                number::plain(e.usual.1),
                e.handling
            )
        }),
    };
    hand.lever(ui, &row, |v| Edit::ThickenerDose(i, v));
    let clumps = entry.is_some_and(|e| e.lumps.v > 0.0);
    ui.horizontal(|ui| {
        if clumps {
            let mut first = line.mixed_first;
            if tick(ui, &mut first, numbered("Rubbed into the sugar first")).changed() {
                hand.edit(Edit::ThickenerMixedFirst(i, first));
            }
        }
        if entry.is_some_and(|e| !matches!(e.action, Action::ColdStarch { .. })) {
            let mut early = line.goes_in == GoesIn::WithTheBase;
            let words = numbered("In before the base is heated");
            if tick(ui, &mut early, words).changed() {
                let when = if early { GoesIn::WithTheBase } else { GoesIn::WithTheCulture };
                hand.edit(Edit::ThickenerGoesIn(i, when));
            }
        }
    });
}
