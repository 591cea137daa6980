//! The base card: bases, their amounts, and the fat on their labels.

use egui::Ui;

use super::hand::{EditContext, Row};
use super::shelf::{self, ShelfWords, numbered};
use super::{blend, pack};
use potset_app::{Action, Command};
use potset_base::measures::Said;
use potset_base::measures::whole::volume;
use potset_base::number::{self, NBSP};
use potset_base::units::prose::prose;
use potset_doc::design::BaseLine;
use potset_doc::edit::{LabelField, LineKind};
use potset_doc::lines::Packed;
use potset_doc::pantry::{Base, BaseKind};
use potset_doc::{Design, Edit};
use potset_forecast::lever::spans;
use potset_ui_kit::widgets::note::mend_link;
use potset_ui_kit::{fonts, tokens, widgets};

const WORDS: ShelfWords = ShelfWords { shelf: LineKind::Bases, title: "Base", may_be_empty: false };

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let design = state.design();
    let all = shelf::choices(hand, LineKind::Bases, |_: &Base| (0.25 * design.litres()).max(0.1));
    shelf::card(ui, hand, &WORDS, &all, |ui, hand, i| {
        let Some(line) = design.bases.get(i) else { return };
        let entry = design.entry::<Base>(&state.pantry, &line.entry);
        let line = &line.with_pack(entry, &state.pantry);
        if let Some(packed) = &line.packed {
            said_on_it(ui, packed);
        }
        amount(ui, hand, i, line, entry);
        if design.bases.len() > 1 {
            blend::share(ui, hand, i);
        }
        let mut fold = None;
        let details = !hand.plain();
        if let Some(entry) = entry.filter(|e| details && e.kind != BaseKind::Water) {
            fat(ui, hand, i, line.label.fat, entry);
            pack::base(ui, hand, i, line, entry);
            let top = ui.cursor().top();
            super::measured::base(ui, hand, i, line, entry);
            fold = Some(top);
        }
        if i == 0 && read_label(ui, fold) {
            hand.out.push(Command::Do(Action::ReadLabel));
        }
        if i > 0 && i + 1 == design.bases.len() {
            ui.separator();
            blend::reach(ui, hand);
        }
    });
}

/// Whose label it is, and what stands on it besides figures.
fn said_on_it(ui: &mut Ui, packed: &Packed) {
    let mut said =
        vec![if packed.name.is_empty() { "As its label says".to_owned() } else { packed.name.clone() }];
    if !packed.additives.is_empty() {
        said.push(format!("with {}", packed.additives.join(", ")));
    }
    if !packed.may_contain.is_empty() {
        said.push(format!("may contain {}", packed.may_contain.join(", ")));
    }
    widgets::wrapped(ui, &said.join("; "), fonts::regular(tokens::SMALL), tokens::of(ui).ink_soft);
}

/// The way to the label reader: at the right of the fold that begins at `top`, or on a line of its own.
fn read_label(ui: &mut Ui, top: Option<f32>) -> bool {
    let draw =
        |ui: &mut Ui| mend_link(ui, "Read its label…").on_hover_text(Action::ReadLabel.tip()).clicked();
    let Some(top) = top else { return draw(ui) };
    let line = ui.max_rect().with_min_y(top).with_max_y(top + ui.spacing().interact_size.y);
    let builder =
        egui::UiBuilder::new().max_rect(line).layout(egui::Layout::right_to_left(egui::Align::Center));
    draw(&mut ui.new_child(builder))
}

fn amount(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, line: &BaseLine, entry: Option<&Base>) {
    let what = if i == 0 { in_pots(hand.design()) } else { String::new() };
    let said = Said { what: &what, ..line.said(entry, hand.design().spoons) };
    let name = numbered("Base amount", i);
    let saved = hand.saved().and_then(|d| d.bases.get(i)).map(|b| b.litres);
    let row = Row {
        hover: entry.map_or_else(String::new, |e| {
            let handling = prose(e.handling.trim_end_matches('.'));
            format!("{}. {handling}. Density {}", e.name, e.density.line())
        }),
        ..Row::new(&name, &spans::litres(entry), line.litres, saved)
    };
    hand.amount(ui, &row, (LineKind::Bases, i), said, |v| Edit::BaseLitres(i, v));
}

fn in_pots(design: &Design) -> String {
    let each = volume(design.litres() / f64::from(design.pots.count.max(1)), 2).replace(NBSP, " ");
    match design.pots.count {
        1 => ", one pot".to_owned(),
        count => format!(", {count} × {each}"),
    }
}

fn fat(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, label: Option<f64>, entry: &Base) {
    let cream = hand.state.answer.facts.cream.iter().find(|c| c.line == i);
    let own = entry.composition.fat.value;
    let name = numbered("Fat on the label", i);
    let saved = hand.saved().and_then(|d| d.bases.get(i)).map(|b| b.label.fat.unwrap_or(own));
    let row = Row {
        beside: cream.map_or_else(String::new, |c| format!("cream share {}", c.percent())),
        hover: format!(
            "{}Usual {} to {} g/100 g on labels. Unless the label says otherwise: {}",
            cream.map_or_else(String::new, |c| format!("Cream share: {}. ", c.words())),
            number::figures(entry.usual_fat.0, 2),
            number::figures(entry.usual_fat.1, 2),
            entry.composition.fat.line()
        ),
        ..Row::new(&name, &spans::fat(entry), label.unwrap_or(own), saved)
    };
    hand.lever(ui, &row, |v| Edit::BaseLabel(i, LabelField::Fat, Some(v)));
}
