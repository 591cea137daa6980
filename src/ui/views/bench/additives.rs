//! The card of what goes in besides base, sugar, thickener and culture: acids, salts, chalk, lactase, fruit.

use egui::{IdSalt, Ui};

use super::hand::{Hand, Row};
use super::shelf::{self, ShelfWords, Spooned, numbered};
use crate::doc::Edit;
use crate::doc::design::AddedWhen;
use crate::doc::edit::Shelf;
use crate::doc::pantry;
use crate::ui::widgets::card::Card;
use crate::ui::widgets::picker::picker;

const WORDS: ShelfWords = ShelfWords { shelf: Shelf::Additives, title: "Also in", may_be_empty: true };

/// Usual dose of what has no entry, g/L.
const UNKNOWN: (f64, f64) = (0.0, 20.0);

/// Draws the card; an empty list has only its head.
pub fn card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let state = hand.state;
    let design = state.design();
    let all =
        shelf::choices(hand, Shelf::Additives, &design.snapshot.additives, &state.pantry.additives, |a| {
            (a.name.clone(), 0.5 * (a.usual.0 + a.usual.1))
        });
    if all.is_empty() && design.additives.is_empty() {
        Card::new(WORDS.title).quiet("nothing in the pantry").show(ui, |_| {});
        return;
    }
    let used: Vec<&str> = design.additives.iter().map(|a| a.entry.as_str()).collect();
    shelf::card(ui, hand, &WORDS, &all, &used, line);
}

fn line(ui: &mut Ui, hand: &mut Hand<'_>, i: usize) {
    let state = hand.state;
    let design = state.design();
    let Some(line) = design.additives.get(i) else { return };
    let entry = pantry::find(&design.snapshot.additives, &line.entry)
        .or_else(|| pantry::find(&state.pantry.additives, &line.entry));
    let spooned = entry.map(|e| Spooned {
        name: &e.name,
        handling: &e.handling,
        usual: e.usual,
        bulk_density: e.bulk_density.v,
    });
    let name = numbered("Amount of it", i);
    let saved = hand.saved().and_then(|d| d.additives.get(i)).map(|a| a.g_per_l);
    let (most, decimals) = reach(entry.map_or(UNKNOWN, |e| e.usual).1);
    let row = Row {
        range: (0.0, most),
        decimals,
        step: 10.0_f64.powi(-i32::try_from(decimals).unwrap_or(0)),
        ..shelf::dose_row(&name, line.g_per_l, saved, spooned.as_ref())
    };
    let said = shelf::dose_said(design, line.by, spooned.as_ref());
    hand.amount(ui, &row, (Shelf::Additives, i), said, |v| Edit::AdditiveDose(i, v));
    ui.horizontal(|ui| {
        ui.label("goes in");
        let names = AddedWhen::ALL.map(AddedWhen::words);
        let label = numbered("When it goes in", i);
        let salt = IdSalt::new(("additive when", i));
        if let Some(picked) = picker(ui, salt, &label, line.when.words(), &names) {
            hand.edit(Edit::AdditiveWhen(i, AddedWhen::ALL[picked]));
        }
    });
}

/// The end of a rail that a usual dose sits well on, g/L, and the decimals for it.
fn reach(usual_high: f64) -> (f64, usize) {
    const ENDS: [(f64, usize); 11] = [
        (0.1, 4),
        (0.5, 3),
        (1.0, 3),
        (2.0, 2),
        (5.0, 2),
        (10.0, 2),
        (20.0, 1),
        (50.0, 1),
        (100.0, 0),
        (200.0, 0),
        (500.0, 0),
    ];
    ENDS.into_iter().find(|(end, _)| *end >= 1.6 * usual_high).unwrap_or((500.0, 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rail_suits_drops_and_fruit() {
        assert_eq!(reach(0.2), (0.5, 3));
        assert_eq!(reach(3.0), (5.0, 2));
        assert_eq!(reach(150.0), (500.0, 0));
        assert_eq!(reach(900.0), (500.0, 0));
    }
}
