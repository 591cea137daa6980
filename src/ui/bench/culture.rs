//! The culture card: dose, and what to weigh.

use egui::Ui;

use super::hand::{EditContext, Row};
use super::shelf::{self, ShelfWords, numbered};
use super::{age, pack};
use potset_base::measures::Said;
use potset_base::units::prose::prose;
use potset_doc::Edit;
use potset_doc::design::Powder;
use potset_doc::edit::LineKind;
use potset_doc::pantry::{Culture, Form};
use potset_forecast::lever::spans;
use potset_ui_kit::widgets::tick::tick;

const WORDS: ShelfWords = ShelfWords { shelf: LineKind::Cultures, title: "Culture", may_be_empty: true };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let all = shelf::choices(hand, LineKind::Cultures, |_: &Culture| 1.0);
    shelf::card(ui, hand, &WORDS, &all, line);
}

fn line(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize) {
    let state = hand.state;
    let design = state.design();
    let Some(line) = design.cultures.get(i) else { return };
    let entry = design.entry::<Culture>(&state.pantry, &line.entry);
    let form = entry.map_or_else(Form::default, |e| e.form);
    let what = match (line.powder, form) {
        (Powder::OneToTen, _) => " of tenfold mix",
        (Powder::OneToHundred, _) => " of hundredfold mix",
        (Powder::Straight, Form::FreezeDried | Form::Capsule) => " of powder",
        (Powder::Straight, Form::Liquid) => " of culture",
        (Powder::Straight, Form::BackSlop) => " of the last pot",
    };
    let said = Said { what, ..line.said(entry, design.litres(), design.spoons) };
    let name = numbered("Culture dose", i);
    let saved = hand.saved().and_then(|d| d.cultures.get(i)).map(|c| c.rate);
    let row = Row {
        hover: entry.map_or_else(String::new, |e| {
            let cells: Vec<String> =
                e.doses.iter().map(|d| format!("{} {}", d.organism, d.cfu_per_g.line())).collect();
            format!("{}. {}. {}", e.name, prose(&e.handling), cells.join("; "))
        }),
        ..Row::new(&name, &spans::culture(entry), line.rate, saved)
    };
    hand.amount(ui, &row, (LineKind::Cultures, i), said, |v| Edit::CultureRate(i, v));
    if hand.plain() {
        return;
    }
    let mut split = line.powder != Powder::Straight;
    // Only a powder can be thinned with a powder.
    let label = match line.powder {
        Powder::OneToHundred => "Weighed as a hundredfold mix",
        Powder::Straight | Powder::OneToTen => "Weighed as a tenfold mix",
    };
    if (form.dry() || split) && tick(ui, &mut split, numbered(label, i)).changed() {
        hand.edit(Edit::CulturePowder(i, if split { Powder::OneToTen } else { Powder::Straight }));
    }
    if let Some(entry) = entry.filter(|_| form.dry()) {
        pack::culture(ui, hand, i, line, entry);
    }
    age::show(ui, hand, i, line, form);
    if let Some(entry) = entry {
        super::measured::culture(ui, hand, i, line, entry);
    }
}
