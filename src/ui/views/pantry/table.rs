//! The table of entries: heads that order, rows in sight only, and what to do when nothing fits.

use egui::accesskit::Role;
use egui::{Align, Rect, RichText, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use super::filters;
use super::kept::EntriesState;
use potset_app::command::PantryCommand;
use potset_app::shelves::PantryPage;
use potset_app::{Command, State};
use potset_base::units;
use potset_catalogue::pantry_table::{Column, Filter, Row, Sort};
use potset_doc::pantry::EntryKind;
use potset_ui_kit::widgets::{card, line_in, reading, wrapped};
use potset_ui_kit::{fonts, tokens};

const HEAD: f32 = 34.0;
const ROW: f32 = 23.0;
/// Space left and right of the text in a cell.
const PAD: f32 = 5.0;
/// Width of the bar that marks the open entry, and of the dot of own ones.
const BAR: f32 = 3.0;
/// Least part of the width for the columns of words.
const LEAST_WORDS: f32 = 0.42;

/// Draws the table.
pub fn show(ui: &mut Ui, view: &mut EntriesState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let kept = &view.kept;
    let kind = view.kind.map_or("All kinds", EntryKind::many);
    let told = if kept.shown.len() == kept.table.rows.len() {
        format!("{kind}: {}", kept.table.rows.len())
    } else {
        format!("{kind}: {} of {} shown", kept.shown.len(), kept.table.rows.len())
    };
    wrapped(ui, &told, fonts::semibold(tokens::BODY), t.ink);
    if kept.shown.is_empty() {
        empty(ui, view, state, out);
        return;
    }
    card::frame(t).inner_margin(6).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let places = Places::new(ui, kept.table.columns);
        let mut sort = view.sort;
        head(ui, kept.table.columns, &places, &mut sort);
        let height = (ui.available_height() - 2.0).max(ROW * 3.0);
        let open = state.shelves.open.as_ref();
        let (rows, shown) = (&kept.table.rows, &kept.shown);
        let name = format!("{kind} of the pantry");
        let did = view.list.show(ui, &name, (shown.len(), ROW, height), |ui, place, marked| {
            let one = &rows[shown[place]];
            let is_open = open.is_some_and(|(kind, key)| *kind == one.kind && *key == one.key);
            row(ui, one, kept.table.columns, &places, (place, marked, is_open))
        });
        if let Some(place) = did.pressed.or(did.entered) {
            let one = &rows[shown[place]];
            out.push(PantryCommand::OpenEntry(Some((one.kind, one.key.clone()))).into());
        }
        view.sort = sort;
    });
}

/// Where the columns stand, from the left edge of the row.
struct Places(Vec<(f32, f32)>);

impl Places {
    fn new(ui: &Ui, columns: &[Column]) -> Self {
        let whole = ui.available_width() - BAR;
        let points = |columns: &[Column]| columns.iter().map(|c| c.points).sum::<f32>();
        // Where there is no room for all, the last columns stay on the page of the entry.
        let mut columns = columns;
        while columns.len() > 2 && points(columns) > (1.0 - LEAST_WORDS) * whole {
            columns = &columns[..columns.len() - 1];
        }
        let shares = columns.iter().map(|c| c.share).sum::<f32>().max(1.0);
        let rest = (whole - points(columns)).max(0.0);
        let mut left = BAR;
        let place = |c: &Column| {
            let from = left;
            left += c.points + c.share / shares * rest;
            (from, left)
        };
        Self(columns.iter().map(place).collect())
    }

    /// How many columns there is room for.
    fn count(&self) -> usize {
        self.0.len()
    }

    fn cell(&self, row: Rect, column: usize) -> Rect {
        let (from, to) = self.0[column];
        row.with_min_x(row.left() + from + PAD).with_max_x(row.left() + to - PAD)
    }
}

const fn align(column: &Column) -> Align {
    if column.number { Align::Max } else { Align::Min }
}

/// Heads with their units; each orders the rows.
fn head(ui: &mut Ui, columns: &[Column], places: &Places, sort: &mut Sort) {
    let t = tokens::of(ui);
    let (row, _) = ui.allocate_exact_size(vec2(ui.available_width(), HEAD), Sense::hover());
    for (i, column) in columns.iter().take(places.count()).enumerate() {
        let cell = places.cell(row, i);
        let on = sort.column == Some(i);
        let press = ui.interact(cell, ui.scope_id().with(("order", column.head)), Sense::click());
        let upper = cell.with_max_y(cell.top() + 17.0);
        let lower = cell.with_min_y(cell.top() + 16.0);
        line_in(ui, upper, column.head, fonts::semibold(tokens::SMALL), t.accent, align(column));
        let mark = match (on, sort.reversed) {
            (false, _) => "",
            (true, false) => "↑ ",
            (true, true) => "↓ ",
        };
        let below = format!("{mark}{}", units::scale(column.unit).unit);
        if !below.is_empty() {
            line_in(ui, lower, &below, fonts::regular(tokens::SMALL), t.ink_soft, align(column));
        }
        let order = match (on, sort.reversed) {
            (true, false) => ", ordered from its least",
            (true, true) => ", ordered from its most",
            (false, _) => "",
        };
        let told = format!("Order by {}{order}", column.head.to_lowercase());
        press.widget_info(|| WidgetInfo::labeled(Role::Button, true, &told));
        reading::underline(ui, &press);
        if press.clicked() {
            *sort = sort.pressed(i);
        }
        press.on_hover_text(column.tip);
    }
    ui.painter().hline(row.x_range(), row.bottom(), Stroke::new(tokens::HAIRLINE, t.rule));
}

/// One entry in a line; true if it was pressed.
fn row(
    ui: &mut Ui,
    one: &Row,
    columns: &[Column],
    places: &Places,
    (place, marked, open): (usize, bool, bool),
) -> bool {
    let t = tokens::of(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::hover());
    // A press opens it; the keyboard stays with the list.
    let response = ui.interact(rect, ui.scope_id().with(("entry", place)), Sense::CLICK);
    if marked || open || response.hovered() {
        let fill = if open { t.accent_soft } else { t.hover };
        ui.painter().rect_filled(rect, tokens::RADIUS_SMALL, fill);
    }
    if open {
        ui.painter().rect_filled(rect.with_max_x(rect.left() + BAR), 1.0, t.accent);
    }
    let strong = marked || open || response.hovered();
    for (i, (column, cell)) in columns.iter().zip(&one.cells).take(places.count()).enumerate() {
        let color = if i == 0 || column.number || strong { t.ink } else { t.ink_soft };
        let at = places.cell(rect, i);
        let font = fonts::regular(tokens::SMALL + 1.0);
        if i == 0 && one.own {
            // Own entries have a dot before their name.
            ui.painter().circle_filled(pos2(at.left() + 2.5, at.center().y), 2.5, t.accent);
            line_in(ui, at.with_min_x(at.left() + 9.0), cell.text(), font, color, Align::Min);
        } else {
            line_in(ui, at, cell.text(), font, color, align(column));
        }
    }
    response.widget_info(|| WidgetInfo::selected(Role::ListItem, true, open || marked, &one.told));
    response.clicked()
}

/// What to do when no entry fits.
fn empty(ui: &mut Ui, view: &mut EntriesState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let quiet = |ui: &mut Ui, text: &str| wrapped(ui, text, fonts::regular(tokens::BODY), t.ink_soft);
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        if view.filter.is_open() {
            let kind = view.kind.map_or("entry", EntryKind::one);
            ui.label(RichText::new(format!("There is no {kind} yet")).color(t.ink));
            quiet(ui, "Import a file that another maker shared, or copy an entry and change it.");
            if ui.button("Import a shared file…").clicked() {
                out.push(PantryCommand::AskTakeIn.into());
            }
            return;
        }
        ui.label(RichText::new("Nothing fits").color(t.ink));
        if view.filter.only_own && state.shelves.own.count() == 0 {
            quiet(
                ui,
                "You have no entries of your own yet. Open an entry and press “Copy to change”, or read a label and \
                 keep it. You can also make a base from a starting ingredient.",
            );
            if ui.button("Read a label…").clicked() {
                out.push(PantryCommand::Page(PantryPage::Label).into());
            }
        } else {
            quiet(ui, "Remove a filter, or try other words: a part of a name, another name, or its key.");
        }
        if view.kind.is_some() && ui.button("Look in all kinds").clicked() {
            filters::choose(view, None);
        }
        if ui.button("Clear all filters").clicked() {
            view.filter = Filter::default();
        }
    });
}
