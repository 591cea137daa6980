//! Lists of pantry entries: each card's lines, with pickers to swap, add and remove.

use std::rc::Rc;

use egui::{IdSalt, Ui};

use super::hand::{EditContext, HandState, Row};
use super::kept::{Choice, Kept};
use potset_base::measures::{Measure, Said};
use potset_base::number;
use potset_base::units::prose::prose;
use potset_doc::edit::LineKind;
use potset_doc::pantry::{Entry, Listed};
use potset_doc::{Design, Edit, said};
use potset_forecast::lever::lines::keys;
use potset_forecast::lever::spans::Span;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::{self, picker};

/// Word for an empty list, and for taking a line out.
const NONE: &str = "none";

/// Choices from the pantry and the design's own entries, put together anew only when one of both is another: a maker may have
/// thousands.
pub fn choices<T: Listed + Entry>(
    hand: &mut EditContext<'_>,
    shelf: LineKind,
    amount: impl Fn(&T) -> f64,
) -> Rc<Vec<Choice>> {
    let state = hand.state;
    let (own, shipped) = (T::list(&state.design().snapshot), T::list(&state.pantry));
    let shelves = hand.state.shelves.number;
    // Only of bases the usual amount hangs on the design.
    let litres = if shelf == LineKind::Bases { hand.design().litres() } else { 0.0 };
    let kept = hand.view.choices.entry(shelf).or_default();
    let known: Vec<(String, String)> =
        own.iter().map(|e| (e.key().to_owned(), e.name().to_owned())).collect();
    if kept.shelves != shelves || kept.litres.to_bits() != litres.to_bits() || kept.own != known {
        *kept = Kept { shelves, own: known, litres, all: Rc::new(sorted(own, shipped, amount)) };
    }
    Rc::clone(&kept.all)
}

/// Choices from the pantry, with the design's own entries that the pantry lacks, by name.
fn sorted<T: Entry>(own: &[T], shipped: &[T], amount: impl Fn(&T) -> f64) -> Vec<Choice> {
    let mut all: Vec<Choice> = Vec::new();
    let mut met = std::collections::BTreeSet::new();
    for entry in own.iter().chain(shipped) {
        if met.insert(entry.key()) {
            let (key, name) = (entry.key().to_owned(), entry.name().to_owned());
            all.push(Choice { key, name, amount: amount(entry) });
        }
    }
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all
}

/// What a shelf is called, and whether it may be empty.
pub struct ShelfWords {
    pub shelf: LineKind,
    pub title: &'static str,
    pub may_be_empty: bool,
}

/// The picker of one line. `line` is `None` for an empty list.
fn line_picker(
    ui: &mut Ui,
    hand: &mut EditContext<'_>,
    words: &ShelfWords,
    all: &[Choice],
    line: Option<(usize, &str)>,
    count: usize,
) {
    let current = line.map_or(NONE, |(_, key)| all.iter().find(|c| c.key == key).map_or(key, |c| &c.name));
    let removable = words.may_be_empty || count > 1;
    let mut names: Vec<&str> = all.iter().map(|c| c.name.as_str()).collect();
    if removable {
        names.push(NONE);
    }
    let place = line.map_or(0, |(i, _)| i);
    let name = numbered(words.title, place);
    let salt = IdSalt::new(("picker", words.title, place));
    let Some(picked) = picker(ui, salt, &name, current, &names) else { return };
    let edit = match (line, all.get(picked)) {
        (Some((i, _)), Some(choice)) => Edit::Swap(words.shelf, i, choice.key.clone()),
        (Some((i, _)), None) => Edit::Remove(words.shelf, i),
        (None, Some(choice)) => Edit::Add(words.shelf, choice.key.clone(), choice.amount),
        (None, None) => return,
    };
    hand.edit(edit);
}

/// A card for a list of entries: pickers in its head and above each further line, `line` draws what belongs to one.
pub fn card(
    ui: &mut Ui,
    hand: &mut EditContext<'_>,
    words: &ShelfWords,
    all: &[Choice],
    mut line: impl FnMut(&mut Ui, &mut EditContext<'_>, usize),
) {
    let state = hand.state;
    // The head's slot and the body both push commands; the slot's go out last.
    let mut slot = Vec::new();
    let used: Vec<&str> = keys(state.design(), words.shelf).collect();
    let name = used.first().map_or(NONE, |key| all.iter().find(|c| c.key == **key).map_or(*key, |c| &c.name));
    let add = if used.is_empty() || hand.plain() { 0.0 } else { tokens::PRESS + tokens::GAP };
    let width = picker::width(ui, name) + add;
    let card = Card::new(words.title).menu_of(width, |ui| {
        let mut hand = EditContext { state, view: &mut HandState::default(), out: &mut slot };
        if !used.is_empty() && !hand.plain() {
            add_menu(ui, &mut hand, words, all, &used);
        }
        line_picker(ui, &mut hand, words, all, used.first().map(|key| (0, *key)), used.len());
    });
    card.show(ui, |ui| {
        for (i, key) in used.iter().enumerate() {
            if i > 0 {
                ui.separator();
                line_picker(ui, hand, words, all, Some((i, *key)), used.len());
            }
            line(ui, hand, i);
        }
    });
    hand.out.append(&mut slot);
}

/// "Sugar for the culture", and "Sugar for the culture 2" for the second line.
pub fn numbered(name: &str, i: usize) -> String {
    if i == 0 { name.to_owned() } else { format!("{name} {}", i + 1) }
}

/// A number of a lever, to be typed: unit, reach and decimals are those of its span.
pub fn of_span<'a>(name: &'a str, span: &Span, value: f64, speed: f64, hover: &'a str) -> Number<'a> {
    Number { name, unit: span.unit, value, range: span.reach(), decimals: span.decimals, speed, hover }
}

/// What is dosed in grams per litre and said in spoons.
pub struct Spooned<'a> {
    pub name: &'a str,
    pub handling: &'a str,
    /// g/mL.
    pub bulk_density: f64,
}

/// The lever row of such a dose.
pub fn dose_row<'a>(
    name: &'a str,
    span: &Span,
    g_per_l: f64,
    saved: Option<f64>,
    entry: Option<&Spooned<'_>>,
) -> Row<'a> {
    let hover = entry.zip(span.usual).map_or_else(String::new, |(e, usual)| {
        let (low, high) = (number::plain(usual.0), number::plain(usual.1));
        format!("{}. Usual {low} to {high} g/L (common practice). {}", e.name, prose(e.handling))
    });
    Row { hover, ..Row::new(name, span, g_per_l, saved) }
}

/// How such a dose is said: by the measure of its line, in the whole design.
pub fn dose_said(design: &Design, by: Measure, entry: Option<&Spooned<'_>>) -> Said<'static> {
    said::dose(design, by, entry.map(|e| e.bulk_density))
}

/// The small menu that adds a line.
fn add_menu(ui: &mut Ui, hand: &mut EditContext<'_>, words: &ShelfWords, all: &[Choice], used: &[&str]) {
    let shown = ui.menu_button("+", |ui| {
        // A long shelf scrolls instead of leaving the window.
        egui::ScrollArea::vertical().max_height(0.5 * ui.ctx().content_rect().height()).show(ui, |ui| {
            for choice in all {
                let there = used.contains(&choice.key.as_str());
                if ui.add_enabled(!there, egui::Button::new(&choice.name)).clicked() {
                    hand.edit(Edit::Add(words.shelf, choice.key.clone(), choice.amount));
                    ui.close();
                }
            }
        });
    });
    let name = format!("Add to {}", words.title.to_lowercase());
    shown.response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &name));
    shown.response.on_hover_text(name);
}
