//! The page of entries: filters at the left, the table in the middle, the page of one entry at the right, or in the table's
//! place where the window is narrow.

use std::sync::Arc;

use egui::{CentralPanel, Key, Panel, Ui};

use super::entry_page;
use super::filters;
use super::kept::{EntriesState, Kept, PageOf};
use super::table;
use potset_app::command::PantryCommand;
use potset_app::state::Dialog;
use potset_app::{Command, State};
use potset_catalogue::pantry_page::{Page, Place};
use potset_catalogue::pantry_table::{Table, counts};
use potset_doc::pantry::EntryKind;
use potset_ui_kit::widgets::column::column;

/// From this width on table and page stand beside each other.
const THREE_COLUMNS: f32 = 1100.0;
/// Width of the filters, where there is room and where there is not.
const LEFT: [f32; 2] = [208.0, 212.0];
const RIGHT: f32 = 356.0;

/// Draws the page.
pub fn show(ui: &mut Ui, view: &mut EntriesState, state: &State, out: &mut Vec<Command>) {
    renew(view, state);
    let escape = ui.input(|i| i.key_pressed(Key::Escape));
    if escape && state.dialog == Dialog::None && !view.typing && view.kept.page.is_some() {
        out.push(PantryCommand::OpenEntry(None).into());
    }
    let wide = ui.available_width() >= THREE_COLUMNS;
    let frame = super::panel(ui);
    Panel::left("pantry filters").resizable(false).exact_size(LEFT[usize::from(!wide)]).frame(frame).show(
        ui,
        |ui| {
            column(ui, "filters", super::GAP, |ui| filters::show(ui, view, state, out));
        },
    );
    // The page comes first: what was typed in it is to be done before another entry opens.
    if wide {
        Panel::right("pantry page").resizable(false).exact_size(RIGHT).frame(frame).show(ui, |ui| {
            column(ui, "page", super::GAP, |ui| entry_page::show(ui, view, state, false, out));
        });
    }
    CentralPanel::default().frame(frame).show(ui, |ui| {
        if wide || view.kept.page.is_none() {
            table::show(ui, view, state, out);
        } else {
            column(ui, "page", super::GAP, |ui| entry_page::show(ui, view, state, true, out));
        }
    });
    view.typing = ui.ctx().text_edit_focused();
}

/// Table, order and page are worked out anew where something changed.
fn renew(view: &mut EntriesState, state: &State) {
    let shelves = &state.shelves;
    // An entry that was just made or taken in may be of another kind than the one that is listed.
    let other = shelves.open != view.kept.last_open;
    if other {
        view.kept.last_open.clone_from(&shelves.open);
        view.page.reset();
        if let Some((kind, _)) = &shelves.open
            && view.kind.is_some_and(|listed| listed != *kind)
        {
            filters::choose(view, Some(*kind));
        }
    }
    let kept = &mut view.kept;
    let built = (shelves.number, view.kind, state.design().spoons, state.kitchen.units());
    if kept.built != Some(built) {
        kept.table = Table::of(&state.pantry, &shelves.own, view.kind, built.2);
        kept.counts = counts(&state.pantry, &shelves.own);
        kept.built = Some(built);
        kept.fitted = None;
    }
    let fitted = (view.filter.clone(), view.sort);
    let again = kept.fitted.as_ref() != Some(&fitted);
    if again {
        kept.shown = kept.table.shown(&view.filter, view.sort);
        kept.fitted = Some(fitted);
    }
    if again || other {
        // The open entry stays in sight; a list that shows other rows starts at its top.
        let at = |(kind, key): &(EntryKind, String)| {
            kept.shown.iter().position(|i| {
                let row = &kept.table.rows[*i];
                row.kind == *kind && row.key == *key
            })
        };
        match shelves.open.as_ref().and_then(at) {
            Some(place) => view.list.mark(place),
            None if again => view.list.top(),
            None => {}
        }
    }
    page(kept, state);
}

fn page(kept: &mut Kept, state: &State) {
    let shelves = &state.shelves;
    let Some((kind, key)) = &shelves.open else {
        (kept.paged, kept.page) = (None, None);
        return;
    };
    let numbers = (shelves.number, state.question);
    let same = |of: &PageOf| {
        of.numbers == numbers
            && of.open.0 == *kind
            && of.open.1 == *key
            && Arc::ptr_eq(&of.seen, &shelves.seen)
    };
    if kept.paged.as_ref().is_some_and(same) {
        return;
    }
    let seen: Vec<Place<'_>> =
        shelves.seen.iter().map(|s| Place { name: &s.name, place: &s.place, design: &s.design }).collect();
    kept.page = Page::of(&state.pantry, &shelves.own, (*kind, key), state.design(), &seen);
    kept.paged = Some(PageOf { open: (*kind, key.clone()), numbers, seen: Arc::clone(&shelves.seen) });
}
