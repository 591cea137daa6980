//! The sugar card: food for the culture.

use egui::Ui;

use super::hand::{Hand, Row};
use super::shelf::{self, ShelfWords};
use crate::base::{measures, number};
use crate::doc::Edit;
use crate::doc::edit::Shelf;
use crate::doc::pantry;
use crate::ui::widgets::card::Card;

const WORDS: ShelfWords = ShelfWords { shelf: Shelf::Sugars, title: "Sugar", may_be_empty: true };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let state = hand.state;
    let design = state.design();
    let all = shelf::choices(&design.snapshot.sugars, &state.pantry.sugars, |s| {
        (s.name.clone(), 0.5 * (s.usual.0 + s.usual.1))
    });
    let used: Vec<&str> = design.sugars.iter().map(|s| s.entry.as_str()).collect();
    let count = used.len();
    let mut slot = Vec::new();
    let card = Card::new("Sugar").menu(|ui| {
        let mut hand = Hand { state, view: &mut super::hand::HandState::default(), out: &mut slot };
        if count > 0 {
            shelf::add_menu(ui, &mut hand, &WORDS, &all, &used);
        }
        shelf::line_picker(ui, &mut hand, &WORDS, &all, used.first().map(|key| (0, *key)), count);
    });
    card.show(ui, |ui| {
        for (i, line) in design.sugars.iter().enumerate() {
            if i > 0 {
                shelf::line_picker(ui, hand, &WORDS, &all, Some((i, &line.entry)), count);
            }
            let entry = pantry::find(&design.snapshot.sugars, &line.entry)
                .or_else(|| pantry::find(&state.pantry.sugars, &line.entry));
            let grams = line.g_per_l * design.litres();
            let spoons =
                entry.map_or_else(String::new, |e| measures::spoons(grams / e.bulk_density.v, design.spoons));
            let name = if i == 0 {
                "Sugar for the culture".to_owned()
            } else {
                format!("Sugar for the culture {}", i + 1)
            };
            let row = Row {
                name: &name,
                unit: "g/L",
                value: line.g_per_l,
                saved: hand.saved().and_then(|d| d.sugars.get(i)).map(|s| s.g_per_l),
                range: (0.0, 60.0),
                usual: entry.map(|e| e.usual),
                decimals: 1,
                step: 0.5,
                logarithmic: false,
                beside: format!("{spoons} for {} L", number::figures(design.litres(), 2)),
                hover: entry.map_or_else(String::new, |e| {
                    format!(
                        "{}. Usual {} to {} g/L (common practice: a tablespoon a litre). {}",
                        e.name,
                        number::plain(e.usual.0),
                        number::plain(e.usual.1),
                        e.handling
                    )
                }),
            };
            hand.lever(ui, &row, |v| Edit::SugarDose(i, v));
        }
    });
    hand.out.append(&mut slot);
}
