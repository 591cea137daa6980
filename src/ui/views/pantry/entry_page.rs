//! The page of one entry: what it is, what it means for diets, what to do with it, its figures.

use egui::accesskit::Role;
use egui::{Button, Key, TextEdit, Ui, WidgetInfo};

use super::kept::{EntriesState, PageState};
use super::{about, figures, ticket};
use potset_app::command::{BenchCommand, PantryCommand, WindowCommand};
use potset_app::shelves::PantryPage;
use potset_app::state::View;
use potset_app::{Command, State};
use potset_base::units::prose::prose;
use potset_catalogue::making::Making;
use potset_catalogue::pantry_page::{Page, use_edit};
use potset_doc::Edit;
use potset_doc::own::OwnEdit;
use potset_doc::pantry::{EntryKind, find};
use potset_ui_kit::widgets::card::{Card, nothing};
use potset_ui_kit::widgets::field::{area, field};
use potset_ui_kit::widgets::note::NoteCard;
use potset_ui_kit::widgets::{card, pair, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Draws the page; with a way back where it stands in the table's place.
pub fn show(ui: &mut Ui, view: &mut EntriesState, state: &State, back: bool, out: &mut Vec<Command>) {
    if back && ui.button("Back to the table").clicked() {
        out.push(PantryCommand::OpenEntry(None).into());
    }
    let Some(page) = &view.kept.page else {
        empty(ui);
        return;
    };
    head(ui, page, out);
    // What starting ingredient asks for is a list of its own.
    let raw = page.kind == EntryKind::Raw;
    for hazard in page.hazards.iter().filter(|_| !raw) {
        let edge = tokens::of(ui).note_watch;
        NoteCard { edge, mark: "⚠", sentence: &prose(hazard), more: "", mend: None }.show(ui);
    }
    differs(ui, page, out);
    actions(ui, page, &mut view.page, state, out);
    Card::new("What it is").quiet(page.kind.one()).show(ui, |ui| {
        for (what, words) in &page.facts {
            pair(ui, what, words);
        }
        if !matches!(page.kind, EntryKind::Vessel | EntryKind::Warmer) {
            pair(ui, "diet", &page.diet_words());
            pair(ui, "allergens", &page.allergen_words());
        }
    });
    if raw && !page.hazards.is_empty() {
        Card::new("⚠ Hygiene").show(ui, |ui| {
            for hazard in &page.hazards {
                let t = tokens::of(ui);
                wrapped(ui, &format!("• {}", prose(hazard)), fonts::regular(tokens::BODY), t.ink);
            }
        });
    }
    about::card(ui, page, out);
    handling(ui, page, out);
    ticket::card(ui, page, state, &mut view.page.trouble, out);
    used(ui, page);
    figures::card(ui, page, &mut view.page.trouble, out);
}

fn empty(ui: &mut Ui) {
    let text = "Press a row, or move with the arrow keys and press Enter, to read about an entry. You see every figure \
                with its source, how to handle it, its cautions, and where it is used. You can change a copy of it.";
    nothing(ui, "No entry is open", text, |_| ());
}

fn head(ui: &mut Ui, page: &Page, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    if page.own {
        let width = ui.available_width();
        if let Some(name) = field(ui, "Name of the entry", &page.name, "Name", width) {
            out.push(PantryCommand::Own(OwnEdit::Rename(page.kind, page.key.clone(), name)).into());
        }
    } else {
        wrapped(ui, &page.name, fonts::semibold(tokens::HEADING), t.ink);
    }
    let whose = if page.own { "your own" } else { "ships with the program" };
    let mut quiet = format!("{} · {whose}", page.kind.one());
    if !page.aliases.is_empty() {
        quiet.push_str(&format!(" · also {}", page.aliases.join(", ")));
    }
    wrapped(ui, &quiet, fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
}

/// The open design holds another copy of it.
fn differs(ui: &mut Ui, page: &Page, out: &mut Vec<Command>) {
    let Some(differs) = &page.differs else { return };
    let note = NoteCard {
        edge: tokens::of(ui).note_info,
        mark: "",
        sentence: "The open design holds an older copy of this entry",
        more: &differs.words(),
        mend: Some("Update the design"),
    };
    if note.show(ui) {
        out.push(BenchCommand::Edit(Edit::Renew(page.kind, page.key.clone()), None).into());
    }
}

fn actions(ui: &mut Ui, page: &Page, view: &mut PageState, state: &State, out: &mut Vec<Command>) {
    ui.horizontal_wrapped(|ui| {
        into_design(ui, page, state, out);
        if ui.button("Copy to change…").on_hover_text("A copy under a name of yours").clicked() {
            view.copying = Some((page.copy_name.clone(), false));
        }
        let share = ui.button("Share as a file…");
        if share.on_hover_text("A readable text file, with all that the entry needs").clicked() {
            out.push(PantryCommand::AskShare(page.kind, page.key.clone()).into());
        }
        if page.own {
            let remove = ui.button("Remove");
            let tip = "Removes it from your pantry. Ctrl+Z undoes that. Designs keep their own copy";
            if remove.on_hover_text(tip).clicked() {
                out.push(PantryCommand::Own(OwnEdit::Remove(page.kind, page.key.clone())).into());
            }
        }
    });
    copy(ui, page, view, out);
}

fn into_design(ui: &mut Ui, page: &Page, state: &State, out: &mut Vec<Command>) {
    if page.kind == EntryKind::Raw {
        let button = ui.button("Make a base of it");
        if button.clicked()
            && let Some(raw) = find(&state.pantry.raws, &page.key)
        {
            out.push(PantryCommand::Making(Making::usual(raw, state.shelves.making.grams)).into());
            out.push(PantryCommand::Page(PantryPage::Making).into());
        }
        return;
    }
    let Some((edit, there)) = use_edit(&state.pantry, state.design(), page.kind, &page.key) else { return };
    let tip = match page.kind {
        EntryKind::Base => "In place of the design's first base",
        EntryKind::Vessel | EntryKind::Warmer => "In place of the design's own",
        _ => "Adds it at its usual amount",
    };
    let button = ui.add_enabled(!there, Button::new("Use in the design"));
    let clicked = button.clicked();
    button.on_hover_text(tip).on_disabled_hover_text("The open design has it already");
    if clicked {
        if page.kind == EntryKind::Base {
            out.push(PantryCommand::UseBase(page.key.clone()).into());
        } else {
            out.push(BenchCommand::Edit(edit, None).into());
            out.push(WindowCommand::Show(View::Bench).into());
        }
    }
}

/// The name of a copy, asked for in place.
fn copy(ui: &mut Ui, page: &Page, view: &mut PageState, out: &mut Vec<Command>) {
    let Some((name, focused)) = &mut view.copying else { return };
    let (mut go, mut end) = (false, false);
    card::frame(tokens::of(ui)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        wrapped(ui, "Name of your copy", fonts::semibold(tokens::BODY), tokens::of(ui).ink);
        let edit = ui.add(TextEdit::singleline(name).desired_width(f32::INFINITY));
        edit.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "Name of your copy"));
        if !*focused {
            edit.request_focus();
            *focused = true;
        }
        let (enter, escape) = ui.input(|i| (i.key_pressed(Key::Enter), i.key_pressed(Key::Escape)));
        go = edit.lost_focus() && enter;
        end = edit.lost_focus() && escape;
        ui.horizontal(|ui| {
            go |= ui.add_enabled(!name.trim().is_empty(), Button::new("Copy")).clicked();
            end |= ui.button("Cancel").clicked();
        });
    });
    if go && !name.trim().is_empty() {
        out.push(
            PantryCommand::Own(OwnEdit::Copy(page.kind, page.key.clone(), name.trim().to_owned())).into(),
        );
        end = true;
    }
    if end {
        view.copying = None;
    }
}

fn handling(ui: &mut Ui, page: &Page, out: &mut Vec<Command>) {
    if !page.own && page.handling.is_empty() {
        return;
    }
    Card::new("Handling").show(ui, |ui| {
        if page.own {
            let text = area(ui, "Handling", &page.handling, "How to store it, prepare it, put it in");
            if let Some(text) = text {
                out.push(PantryCommand::Own(OwnEdit::Handling(page.kind, page.key.clone(), text)).into());
            }
        } else {
            wrapped(ui, &prose(&page.handling), fonts::regular(tokens::BODY), tokens::of(ui).ink);
        }
    });
}

fn used(ui: &mut Ui, page: &Page) {
    let t = tokens::of(ui);
    Card::new("Where it is used").show(ui, |ui| {
        for place in &page.used {
            wrapped(ui, place, fonts::regular(tokens::BODY), t.ink);
        }
        let none = match (page.used.is_empty(), page.kind) {
            (false, _) => return,
            (true, EntryKind::Raw) => {
                "A starting ingredient is made into a base first; designs hold the base."
            }
            (true, _) => "In no design that is open, among the demos, or opened lately.",
        };
        wrapped(ui, none, fonts::regular(tokens::BODY), t.ink_soft);
    });
}
