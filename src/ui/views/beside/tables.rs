//! The tables: in what the designs differ, and what that does, with what a person would notice.

use egui::accesskit::Role;
use egui::{Align, Rect, Sense, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use potset_app::State;
use potset_base::Severity;
use potset_base::words::TangWord;
use potset_compare::beside::{Pot, mark};
use potset_doc::settings::Depth;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::{line_in, marker, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Share of the width that the names of the rows have.
const NAMES: f32 = 0.27;

/// A cell: its words, words below them, and how they look.
#[derive(Default)]
pub struct Cell {
    pub text: String,
    pub below: String,
    pub strong: bool,
    pub soft: bool,
}

/// Inputs that differ; what is the same is left out.
pub fn inputs(ui: &mut Ui, state: &State) {
    let told = &state.columns.told.beside;
    let words = match told.inputs.len() {
        0 => "nothing".to_owned(),
        n => format!("{n} of the inputs; what is the same is hidden"),
    };
    Card::new("What differs").quiet(&words).show(ui, |ui| {
        head(ui, &told.names);
        let mut part = None;
        for row in &told.inputs {
            if part != Some(row.part) {
                part = Some(row.part);
                rule(ui);
            }
            let cells: Vec<Cell> = (0..told.names.len())
                .map(|i| Cell {
                    text: row.words(i),
                    below: if i > 0 { row.difference(i) } else { String::new() },
                    soft: row.values.get(i).is_none_or(Option::is_none),
                    strong: false,
                })
                .collect();
            self::row(ui, &row.name, &cells);
        }
    });
}

/// Outcomes, and how each stands to the first design.
pub fn outcomes(ui: &mut Ui, state: &State) {
    let told = &state.columns.told.beside;
    let money = &state.kitchen;
    Card::new("What it does").quiet("the likely line at each stop, beside the first").show(ui, |ui| {
        head(ui, &told.names);
        rule(ui);
        let texture = told.pots.iter().map(|pot| {
            let (word, below) = potset_report::beside::texture_words(pot);
            Cell { text: word.to_owned(), below, ..Cell::default() }
        });
        row(ui, potset_report::beside::TEXTURE, &texture.collect::<Vec<_>>());
        let plain = state.settings.depth == Depth::Plain;
        let tang = |pot: &Pot| Cell {
            text: pot.tang.map_or("not yogurt", TangWord::word).to_owned(),
            ..Cell::default()
        };
        rule(ui);
        row(ui, "tang in words", &told.pots.iter().map(tang).collect::<Vec<_>>());
        for row in &told.rows {
            if row.values.iter().all(Option::is_none)
                && row.outcome.missing() == potset_forecast::observable::Missing::NotKnown
                || plain && row.outcome.in_words()
            {
                continue;
            }
            rule(ui);
            let cells: Vec<Cell> = (0..told.names.len())
                .map(|i| {
                    let below = if i > 0 { row.difference_line(i, " · ") } else { String::new() };
                    let text = match (row.outcome, row.values[i]) {
                        (potset_forecast::observable::Observable::Cost, Some(v)) => {
                            format!("{} {}", money.money(v), row.outcome.unit())
                        }
                        _ => row.words(i),
                    };
                    Cell {
                        text,
                        below,
                        strong: i > 0 && row.noticed[i] && row.outcome.shows_notice(),
                        soft: row.values[i].is_none(),
                    }
                })
                .collect();
            self::row(ui, row.name(), &cells);
        }
    });
}

/// What the designs are warned of; nothing where none is.
pub fn cautions(ui: &mut Ui, state: &State) {
    let told = &state.columns.told.beside;
    let cautions = potset_report::warnings::rows(told);
    if cautions.is_empty() {
        return;
    }
    Card::new("Cautions").quiet("by the likely line of each").show(ui, |ui| {
        head(ui, &told.names);
        for row in &cautions {
            rule(ui);
            let cells: Vec<Cell> = (0..told.names.len())
                .map(|i| Cell {
                    text: row.words(i).to_owned(),
                    strong: row.of[i].is_some_and(|s| s >= Severity::Stop),
                    soft: row.of[i].is_none(),
                    ..Cell::default()
                })
                .collect();
            self::row(ui, &row.title, &cells);
        }
    });
}

/// Marks and names of the designs over their columns.
fn head(ui: &mut Ui, names: &[String]) {
    let t = tokens::of(ui);
    let width = ui.available_width();
    let (rect, _) = ui.allocate_exact_size(vec2(width, 16.0), Sense::hover());
    for (i, name) in names.iter().enumerate() {
        let cell = place(rect, i, names.len());
        let at = pos2(cell.left() + 5.0, rect.center().y);
        marker::paint(ui.painter(), at, mark::marker(i), 4.4, t.ink);
        let text = cell.with_min_x(cell.left() + 14.0);
        line_in(ui, text, name, fonts::regular(tokens::SMALL), t.ink_soft, Align::Min);
    }
}

/// A quiet line between rows.
pub fn rule(ui: &mut Ui) {
    let t = tokens::of(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 3.0), Sense::hover());
    ui.painter().hline(rect.x_range(), rect.center().y, egui::Stroke::new(tokens::HAIRLINE, t.rule));
}

/// The place of a design's column in a row.
fn place(row: Rect, i: usize, n: usize) -> Rect {
    let names = row.width() * NAMES;
    let each = (row.width() - names) / super::count(n.max(1));
    let left = row.left() + names + super::count(i) * each;
    Rect::from_min_max(pos2(left, row.top()), pos2(left + each - 6.0, row.bottom()))
}

/// A row whose cells wrap; its height is that of the highest.
pub fn row(ui: &mut Ui, name: &str, cells: &[Cell]) {
    let t = tokens::of(ui);
    let whole = ui.available_rect_before_wrap();
    let mut height: f32 = 0.0;
    let mut cell = |ui: &mut Ui, rect: Rect, salt: usize, body: &mut dyn FnMut(&mut Ui)| {
        let mut inner = ui.new_child(UiBuilder::new().max_rect(rect).id_salt((name, salt)));
        inner.spacing_mut().item_spacing.y = 0.0;
        body(&mut inner);
        height = height.max(inner.min_rect().height());
    };
    let names = whole.with_max_x(whole.left() + whole.width() * NAMES - 6.0);
    cell(ui, names, 99, &mut |ui| {
        wrapped(ui, name, fonts::regular(tokens::BODY - 0.5), t.ink_soft);
    });
    for (i, of) in cells.iter().enumerate() {
        cell(ui, place(whole, i, cells.len()), i, &mut |ui| {
            let font = if of.strong { fonts::semibold(tokens::BODY) } else { fonts::regular(tokens::BODY) };
            wrapped(ui, &of.text, font, if of.soft { t.ink_soft } else { t.ink });
            if !of.below.is_empty() {
                let color = if of.strong { t.ink } else { t.ink_soft };
                wrapped(ui, &of.below, fonts::regular(tokens::SMALL), color);
            }
        });
    }
    let (_, response) = ui.allocate_exact_size(vec2(whole.width(), height + 2.0), Sense::hover());
    response.widget_info(|| {
        let all: Vec<String> = cells
            .iter()
            .map(|c| if c.below.is_empty() { c.text.clone() } else { format!("{} ({})", c.text, c.below) })
            .collect();
        WidgetInfo::labeled(Role::Row, true, format!("{name}: {}", all.join("; ")))
    });
}
