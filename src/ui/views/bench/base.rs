//! The base card: bases, their amounts, and the fat on their labels.

use egui::Ui;

use super::hand::{Hand, Row};
use super::shelf::{self, ShelfWords, numbered};
use crate::app::{Action, Command};
use crate::base::number;
use crate::doc::Edit;
use crate::doc::edit::{LabelField, Shelf};
use crate::doc::pantry::{self, Base, BaseKind};
use crate::ui::widgets::note::mend_link;

const WORDS: ShelfWords = ShelfWords { shelf: Shelf::Bases, title: "Base", may_be_empty: false };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let state = hand.state;
    let design = state.design();
    let all = shelf::choices(&design.snapshot.bases, &state.pantry.bases, |b| {
        (b.name.clone(), (0.25 * design.litres()).max(0.1))
    });
    let used: Vec<&str> = design.bases.iter().map(|b| b.entry.as_str()).collect();
    shelf::card(ui, hand, &WORDS, &all, &used, |ui, hand, i| {
        let Some(line) = design.bases.get(i) else { return };
        let entry = pantry::find(&design.snapshot.bases, &line.entry)
            .or_else(|| pantry::find(&state.pantry.bases, &line.entry));
        amount(ui, hand, i, line.litres, entry);
        if let Some(entry) = entry.filter(|e| e.kind != BaseKind::Water) {
            fat(ui, hand, i, line.label.fat, entry);
        }
        if i == 0 && mend_link(ui, "Read its label…").on_hover_text(Action::ReadLabel.tip()).clicked() {
            hand.out.push(Command::Do(Action::ReadLabel));
        }
    });
}

fn amount(ui: &mut Ui, hand: &mut Hand<'_>, i: usize, litres: f64, entry: Option<&Base>) {
    let pots = hand.design().pots.count;
    let each = hand.design().litres() / f64::from(pots.max(1));
    let beside = if i == 0 {
        let word = if pots == 1 { "one pot" } else { "pots" };
        let count = if pots == 1 { String::new() } else { format!("{pots} ") };
        format!("{count}{word} of {} L", number::figures(each, 2))
    } else {
        String::new()
    };
    let name = numbered("Base amount", i);
    let row = Row {
        name: &name,
        unit: "L",
        value: litres,
        saved: hand.saved().and_then(|d| d.bases.get(i)).map(|b| b.litres),
        range: (0.1, 10.0),
        usual: entry.map(|e| e.usual_litres),
        decimals: 2,
        step: 0.05,
        logarithmic: false,
        beside,
        hover: entry.map_or_else(String::new, |e| {
            format!("{}. {}. Density {}", e.name, e.handling, e.density.line())
        }),
    };
    hand.lever(ui, &row, |v| Edit::BaseLitres(i, v));
}

fn fat(ui: &mut Ui, hand: &mut Hand<'_>, i: usize, label: Option<f64>, entry: &Base) {
    let cream = hand.state.answer.facts.cream.iter().find(|c| c.line == i);
    let own = entry.composition.fat.v;
    let name = numbered("Fat on the label", i);
    let row = Row {
        name: &name,
        unit: "g/100 g",
        value: label.unwrap_or(own),
        saved: hand.saved().and_then(|d| d.bases.get(i)).map(|b| b.label.fat.unwrap_or(own)),
        range: (0.0, if entry.kind == BaseKind::Dairy { 20.0 } else { 35.0 }),
        usual: Some(entry.usual_fat),
        decimals: 1,
        step: 0.1,
        logarithmic: false,
        beside: cream
            .map_or_else(String::new, |c| format!("cream share {} %", number::fixed(c.share * 100.0, 0))),
        hover: format!(
            "Usual {} to {} g/100 g on labels. Unless the label says otherwise: {}",
            number::plain(entry.usual_fat.0),
            number::plain(entry.usual_fat.1),
            entry.composition.fat.line()
        ),
    };
    hand.lever(ui, &row, |v| Edit::BaseLabel(i, LabelField::Fat, Some(v)));
}
