//! The sugar card: food for the culture, or sweetness for the tongue.

use egui::{IdSalt, Ui};

use super::hand::EditContext;
use super::shelf::{self, ShelfWords, Spooned, numbered};
use potset_doc::Edit;
use potset_doc::design::SweetWhen;
use potset_doc::edit::LineKind;
use potset_doc::pantry::Sweetener;
use potset_forecast::lever::spans;
use potset_ui_kit::widgets::picker::picker;

const WORDS: ShelfWords = ShelfWords { shelf: LineKind::Sugars, title: "Sugar", may_be_empty: true };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let all = shelf::choices(hand, LineKind::Sugars, |s: &Sweetener| 0.5 * (s.usual.0 + s.usual.1));
    shelf::card(ui, hand, &WORDS, &all, line);
}

fn line(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize) {
    let state = hand.state;
    let design = state.design();
    let Some(line) = design.sugars.get(i) else { return };
    let late = line.when == SweetWhen::AfterTheHold;
    let entry = design.entry::<Sweetener>(&state.pantry, &line.entry);
    let span = spans::sugar(entry, line.when);
    let entry =
        entry.map(|e| Spooned { name: &e.name, handling: &e.handling, bulk_density: e.bulk_density.value });
    let name = numbered(if late { "Sugar stirred in" } else { "Sugar for the culture" }, i);
    let saved = hand.saved().and_then(|d| d.sugars.get(i)).map(|s| s.g_per_l);
    let row = shelf::dose_row(&name, &span, line.g_per_l, saved, entry.as_ref());
    let said = shelf::dose_said(design, line.measure, entry.as_ref());
    hand.amount(ui, &row, (LineKind::Sugars, i), said, |v| Edit::SugarDose(i, v));
    if hand.plain() && !late {
        return;
    }
    let words = ["for the culture", "stirred in after the hold"];
    let label = numbered("When the sugar goes in", i);
    let salt = IdSalt::new(("sugar when", i));
    if let Some(picked) = picker(ui, salt, &label, words[usize::from(late)], &words) {
        let when = if picked == 1 { SweetWhen::AfterTheHold } else { SweetWhen::BeforeTheCulture };
        hand.edit(Edit::SugarWhen(i, when));
    }
}
