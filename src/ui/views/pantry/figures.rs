//! Every figure of an entry with unit, spread and source; those of own entries are changed by typing.

use egui::{Align, Sense, Ui, pos2, vec2};

use potset_app::Command;
use potset_app::command::PantryCommand;
use potset_catalogue::pantry_page::{Figure, Page};
use potset_doc::own::OwnEdit;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::field::field;
use potset_ui_kit::widgets::{kind_mark, line_in, typed, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Width of a value, as text and as a field.
const VALUE: f32 = 132.0;

/// Draws the card of figures.
pub fn card(ui: &mut Ui, page: &Page, trouble: &mut Option<(String, String)>, out: &mut Vec<Command>) {
    let quiet = if page.own { "Enter sets a typed figure" } else { "copy the entry to change them" };
    Card::new("Figures").quiet(quiet).show(ui, |ui| {
        for figure in &page.figures {
            one(ui, page, figure, trouble, out);
        }
    });
}

fn one(
    ui: &mut Ui,
    page: &Page,
    figure: &Figure,
    trouble: &mut Option<(String, String)>,
    out: &mut Vec<Command>,
) {
    let t = tokens::of(ui);
    let number = &figure.number;
    let height = if page.own { 24.0 } else { 17.0 };
    let (row, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    kind_mark::paint(ui, pos2(row.left() + 5.0, row.center().y), number.kind);
    let name = row.with_min_x(row.left() + 14.0).with_max_x(row.right() - VALUE - tokens::GAP_SMALL);
    line_in(ui, name, &number.name, fonts::regular(tokens::BODY - 0.5), t.ink, Align::Min);
    let value = row.with_min_x(row.right() - VALUE);
    if page.own {
        let mut place = ui.new_child(egui::UiBuilder::new().max_rect(value));
        let label = typed::named(&number.name, &number.unit);
        let shown = number.quantity();
        if let Some(text) = field(&mut place, &label, &shown, "a number", VALUE) {
            match typed::parse_any(&text, &number.unit) {
                Some(v) => {
                    *trouble = None;
                    let edit = OwnEdit::Figure(page.kind, page.key.clone(), figure.path.clone(), v);
                    out.push(PantryCommand::Own(edit).into());
                }
                None => *trouble = Some((figure.path.clone(), unread(&text, &number.unit))),
            }
        }
    } else {
        line_in(ui, value, &number.quantity(), fonts::semibold(tokens::BODY - 0.5), t.ink, Align::Max);
    }
    if let Some((_, why)) = trouble.as_ref().filter(|(path, _)| *path == figure.path) {
        wrapped(ui, why, fonts::regular(tokens::SMALL), t.stop);
    }
    let spread =
        if number.spread.is_empty() { String::new() } else { format!("usually {} · ", number.within()) };
    let valid = if number.valid.is_empty() { String::new() } else { format!("; holds for {}", number.valid) };
    let source = format!("{spread}{}: {}{valid}", number.kind.words(), number.source);
    let color = if number.kind.weak() { t.warn } else { t.ink_soft };
    wrapped(ui, &source, fonts::regular(tokens::SMALL), color);
    ui.add_space(2.0);
}

/// Why a typed figure was not taken.
pub fn unread(text: &str, unit: &str) -> String {
    let unit = if unit.is_empty() { String::new() } else { format!(" in {unit}") };
    format!("“{}” is no number{unit}; the old one stays", text.trim())
}
