//! The left column of the entries: search, kinds with their counts, diets, and what brings entries in.

use egui::accesskit::Role;
use egui::{Align, Sense, TextEdit, Ui, WidgetInfo, vec2};

use super::kept::EntriesState;
use potset_app::command::PantryCommand;
use potset_app::{Action, Command, State};
use potset_catalogue::pantry_table::{Filter, Sort, Wish};
use potset_doc::pantry::EntryKind;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::{card, line_in, reading, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Draws the column.
pub fn show(ui: &mut Ui, view: &mut EntriesState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let field = ui.add(
        TextEdit::singleline(&mut view.filter.text)
            .desired_width(f32::INFINITY)
            .hint_text("Name, alias or key"),
    );
    field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "Search the pantry"));
    view.list.keys_from(ui, &field);
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 1.0;
        kinds(ui, view);
    });
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        for (i, wish) in Wish::ALL.into_iter().enumerate() {
            tick(ui, &mut view.filter.diet[i], wish.words()).on_hover_text(wish.tip());
        }
        ui.separator();
        let own: usize = view.kept.counts.iter().map(|(.., own)| own).sum();
        tick(ui, &mut view.filter.only_own, format!("only my own ({own})"));
        if !view.filter.is_open() && ui.button("Clear the filters").clicked() {
            view.filter = Filter::default();
        }
    });
    let take = ui.button("Import entries…");
    if take.on_hover_text("A file that another maker shared; nothing of yours is overwritten").clicked() {
        out.push(PantryCommand::AskTakeIn.into());
    }
    if let Some(words) = state.shelves.can_undo() {
        let told = format!("Last change: {words}. Ctrl+Z undoes it.");
        wrapped(ui, &told, fonts::regular(tokens::SMALL), t.ink_soft);
        if ui.button("Undo the change").clicked() {
            out.push(Command::Do(Action::Undo));
        }
    }
}

fn kinds(ui: &mut Ui, view: &mut EntriesState) {
    let all: (usize, usize) = view.kept.counts.iter().fold((0, 0), |a, c| (a.0 + c.1, a.1 + c.2));
    let mut lines = vec![(None, "All kinds", all)];
    lines
        .extend(view.kept.counts.iter().map(|(kind, count, own)| (Some(*kind), kind.many(), (*count, *own))));
    for (kind, name, counted) in lines {
        if line(ui, name, counted, view.kind == kind) && view.kind != kind {
            choose(view, kind);
        }
    }
}

/// Lists another kind, in the pantry's order.
pub fn choose(view: &mut EntriesState, kind: Option<EntryKind>) {
    view.kind = kind;
    view.sort = Sort::default();
}

/// A kind with its count; true if it was pressed.
fn line(ui: &mut Ui, name: &str, (count, own): (usize, usize), on: bool) -> bool {
    let t = tokens::of(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 22.0), Sense::hover());
    let response = ui.interact(rect, ui.scope_id().with(("kind", name)), Sense::click());
    if on || response.hovered() {
        let fill = if on { t.accent_soft } else { t.hover };
        ui.painter().rect_filled(rect.expand2(vec2(6.0, 0.0)), tokens::RADIUS_SMALL, fill);
    }
    let font = if on { fonts::semibold(tokens::BODY) } else { fonts::regular(tokens::BODY) };
    line_in(ui, rect.with_max_x(rect.right() - 34.0), name, font, t.ink, Align::Min);
    let color = if on || response.hovered() { t.ink } else { t.ink_soft };
    let text = count.to_string();
    line_in(
        ui,
        rect.with_min_x(rect.right() - 34.0),
        &text,
        fonts::regular(tokens::SMALL + 1.0),
        color,
        Align::Max,
    );
    reading::underline(ui, &response);
    let told =
        if own > 0 { format!("{name}, {count}, {own} of them your own") } else { format!("{name}, {count}") };
    response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, on, &told));
    response.clicked()
}
