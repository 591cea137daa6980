//! The card of what goes in besides base, sugar, thickener and culture: acids, salts, chalk, lactase, fruit.

use egui::{IdSalt, Ui};

use super::hand::EditContext;
use super::shelf::{self, ShelfWords, Spooned, numbered};
use potset_base::words::lower;
use potset_doc::Edit;
use potset_doc::design::AddedWhen;
use potset_doc::edit::LineKind;
use potset_doc::pantry::Additive;
use potset_forecast::lever::spans;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

const WORDS: ShelfWords =
    ShelfWords { shelf: LineKind::Additives, title: "Other additions", may_be_empty: true };

/// Draws the card; an empty list has only its head.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let all = shelf::choices(hand, LineKind::Additives, |a: &Additive| 0.5 * (a.usual.0 + a.usual.1));
    if all.is_empty() && hand.design().additives.is_empty() {
        Card::new(WORDS.title).quiet("nothing in the pantry").show(ui, |_| {});
        return;
    }
    shelf::card(ui, hand, &WORDS, &all, line);
}

/// What else is in the pot, for a bench without this card.
pub fn named(ui: &mut Ui, hand: &EditContext<'_>) {
    let design = hand.design();
    let name = |key: &String| {
        let entry = design.entry::<Additive>(&hand.state.pantry, key);
        entry.map_or_else(|| key.clone(), |e| lower(&e.name))
    };
    let names: Vec<String> = design.additives.iter().map(|line| name(&line.entry)).collect();
    if !names.is_empty() {
        let words = format!("Other addition: {}", names.join(", "));
        wrapped(ui, &words, fonts::regular(tokens::SMALL), tokens::of(ui).ink_soft);
    }
}

fn line(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize) {
    let state = hand.state;
    let design = state.design();
    let Some(line) = design.additives.get(i) else { return };
    let entry = design.entry::<Additive>(&state.pantry, &line.entry);
    let spooned =
        entry.map(|e| Spooned { name: &e.name, handling: &e.handling, bulk_density: e.bulk_density.value });
    let name = numbered("Amount of it", i);
    let saved = hand.saved().and_then(|d| d.additives.get(i)).map(|a| a.g_per_l);
    let row = shelf::dose_row(&name, &spans::additive(entry), line.g_per_l, saved, spooned.as_ref());
    let said = shelf::dose_said(design, line.measure, spooned.as_ref());
    hand.amount(ui, &row, (LineKind::Additives, i), said, |v| Edit::AdditiveDose(i, v));
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
