//! The list of pots: those under way first, then the newest. Only the lines in sight are drawn.

use egui::accesskit::Role;
use egui::{Align, Rect, Sense, TextEdit, Ui, WidgetInfo, vec2};

use super::{BatchesView, act};
use potset_app::batches::BatchesPage;
use potset_app::command::BatchesCommand;
use potset_app::{Action, Command, State};
use potset_base::Note;
use potset_doc::batch::known::KnownBatch;
use potset_report::batch::line;
use potset_ui_kit::widgets::card::nothing;
use potset_ui_kit::widgets::{line_in, wrapped};
use potset_ui_kit::{fonts, tokens};

/// Height of a row, points.
const HEIGHT: f32 = 66.0;

/// Files that cannot be read and are told in the hover.
const MOST_BAD: usize = 12;

/// Finds anew what the list shows, where the book or what is looked for is another.
pub fn renew(view: &mut BatchesView, state: &State) {
    let batches = &state.batches;
    let of = (batches.number, batches.find.clone());
    if view.shown_of.as_ref() == Some(&of) {
        return;
    }
    if view.shown_of.as_ref().is_some_and(|(_, find)| *find != batches.find) {
        view.list.top();
    }
    let all = &batches.listed.all;
    let words: Vec<String> = batches.find.split_whitespace().map(str::to_lowercase).collect();
    let fits = |known: &KnownBatch| {
        let text = format!("{} {}", known.summary.name, known.summary.culture_in).to_lowercase();
        words.iter().all(|word| text.contains(word))
    };
    let mut shown: Vec<usize> = (0..all.len()).filter(|at| fits(&all[*at])).collect();
    // It comes with the newest first; pots under way stand above those that ended.
    shown.sort_by_key(|at| all[*at].summary.ended);
    view.shown = shown;
    view.shown_of = Some(of);
}

/// Draws the list with its search and its buttons.
pub fn show(ui: &mut Ui, view: &mut BatchesView, state: &State, out: &mut Vec<Command>) {
    let batches = &state.batches;
    let text = view.text.get_or_insert_with(|| batches.find.clone());
    let edit = TextEdit::singleline(text).hint_text("Search the pots").desired_width(f32::INFINITY);
    let field = ui.add(edit);
    field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "Search the pots"));
    if *text != batches.find {
        out.push(BatchesCommand::Find(text.clone()).into());
    }
    if !field.has_focus() {
        view.text = None;
    }
    view.list.keys_from(ui, &field);
    ui.horizontal_wrapped(|ui| {
        act(ui, state, Action::BeginPot, out);
        if ui.button("Import…").on_hover_text("Copies pots of another folder into your batch book").clicked()
        {
            out.push(BatchesCommand::AskImport.into());
        }
    });
    ui.add_space(tokens::GAP_SMALL);
    bad(ui, state);
    if let Some(note) = &batches.trouble {
        nothing(ui, &note.title, &format!("{} {}", note.mend, note.sentence), |_| {});
        return;
    }
    if batches.listed.all.is_empty() {
        let text = "Press “Begin a pot” when you make one. The design on the bench is kept with it as it is now, and \
                    what you read goes into its line. The demo pots are invented: look at them, then throw them away.";
        nothing(ui, "No pot is in your batch book yet", text, |ui| {
            if ui.button("Copy the demo pots").clicked() {
                out.push(BatchesCommand::ImportDemos.into());
            }
        });
        return;
    }
    if view.shown.is_empty() {
        nothing(ui, "No pot fits", "Try fewer words.", |_| {});
        return;
    }
    rows(ui, view, state, out);
}

/// Files that cannot be read are told, and left as they are.
fn bad(ui: &mut Ui, state: &State) {
    let bad = &state.batches.listed.bad;
    let Some(first) = bad.first() else { return };
    let words = match bad.len() {
        1 => "1 file cannot be read".to_owned(),
        n => format!("{n} files cannot be read"),
    };
    let label = wrapped(ui, &words, fonts::regular(tokens::BODY), tokens::of(ui).warn);
    let lines: Vec<String> = bad.iter().take(MOST_BAD).map(Note::line).collect();
    label.on_hover_text(lines.join("\n"));
    wrapped(ui, &first.line(), fonts::regular(tokens::SMALL), tokens::of(ui).ink_soft);
}

fn rows(ui: &mut Ui, view: &mut BatchesView, state: &State, out: &mut Vec<Command>) {
    let batches = &state.batches;
    let height = (ui.available_height() - 2.0).max(HEIGHT * 2.0);
    let shown = &view.shown;
    let open = batches.opening.as_deref();
    let did = view.list.show(ui, "Pots", (shown.len(), HEIGHT, height), |ui, place, marked| {
        let known = &batches.listed.all[shown[place]];
        row(ui, state, known, (place, marked, open == Some(&*known.file)))
    });
    if let Some(place) = did.pressed.or(did.entered) {
        let file = batches.listed.all[shown[place]].file.clone();
        out.push(BatchesCommand::Page(BatchesPage::Pot).into());
        out.push(BatchesCommand::Open(Some(file)).into());
    }
}

/// One pot; true if it was pressed.
fn row(ui: &mut Ui, state: &State, known: &KnownBatch, (place, marked, open): (usize, bool, bool)) -> bool {
    let t = tokens::of(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    let response = ui.interact(rect, ui.scope_id().with(("pot", place)), Sense::CLICK);
    if marked || open || response.hovered() {
        let fill = if open { t.accent_soft } else { t.hover };
        ui.painter().rect_filled(rect.shrink2(vec2(0.0, 1.0)), tokens::RADIUS_SMALL, fill);
    }
    let said = line(&known.summary, state.now, &state.zone);
    let inner = rect.shrink2(vec2(8.0, 5.0));
    let cell = |row: f32| Rect::from_min_size(inner.min + vec2(0.0, row * 19.0), vec2(inner.width(), 18.0));
    let running = !known.summary.ended;
    let small = fonts::regular(tokens::SMALL);
    line_in(ui, cell(0.0), &said.name, fonts::semibold(tokens::BODY), t.ink, Align::Min);
    let when =
        if said.stars.is_empty() { said.when.clone() } else { format!("{} · {}", said.when, said.stars) };
    let state_color = if running { t.accent } else { t.ink_soft };
    line_in(ui, cell(1.0), &said.state, small.clone(), state_color, Align::Min);
    let below = if said.last.is_empty() {
        &when
    } else if running {
        &said.last
    } else {
        &when
    };
    line_in(ui, cell(2.0), below, small, t.ink_soft, Align::Min);
    let told = [&said.name, &said.state, &when, &said.last];
    let told: Vec<&str> = told.into_iter().map(String::as_str).filter(|part| !part.is_empty()).collect();
    let told = told.join(", ");
    response.widget_info(|| WidgetInfo::selected(Role::ListItem, true, open || marked, &told));
    response.clicked()
}
