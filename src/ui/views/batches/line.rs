//! The reading line: what is typed, how it is understood, and what is wrong with it.

use egui::accesskit::{Live, Role};
use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Key, TextEdit, Ui, WidgetInfo};

use potset_app::command::BatchesCommand;
use potset_app::{Command, State};
use potset_base::Note;
use potset_base::units::prose::prose;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// What is said while nothing is typed.
const HINT: &str = "now 4.9 · +6 h 38 °C · 21:40 bright";

/// What the line keeps between frames.
#[derive(Default)]
pub struct LineState {
    /// The request for the keyboard that was followed last.
    focused: u64,
}

/// Draws the line; Enter saves it.
pub fn show(ui: &mut Ui, view: &mut LineState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let line = &state.batches.line;
    let mut text = line.text.clone();
    let edit = TextEdit::singleline(&mut text)
        .font(fonts::regular(tokens::HEADING + 2.0))
        .hint_text(prose(HINT))
        .desired_width(f32::INFINITY)
        .margin(egui::Margin::symmetric(8, 6))
        .id_salt("reading line");
    let response = ui.add(edit);
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::TextInput, true, "Reading");
        info.current_text_value = Some(line.text.clone());
        info
    });
    if text != line.text {
        out.push(BatchesCommand::Type(text.clone()).into());
    }
    if response.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)) && !text.trim().is_empty() {
        out.push(BatchesCommand::Save.into());
        // The next reading is typed at once.
        response.request_focus();
    }
    if view.focused != line.focus {
        view.focused = line.focus;
        response.request_focus();
        // What is asked for by a press far below is typed here.
        response.scroll_to_me(None);
        to_the_end(ui, response.id, &text);
    }
    let (words, color) = match (&line.refused, state.batches.understood(state.now, &state.zone)) {
        (Some(note), _) => (said(note), t.warn),
        (None, Some(Err(note))) => (said(&note), t.warn),
        (None, Some(Ok(heard))) => (format!("Enter saves: {}", heard.sentence), t.ink),
        (None, None) if state.now.is_none() => ("There is no clock here".to_owned(), t.ink_soft),
        (None, None) => {
            ("Type what you read. A time may stand before it; without one it is now".to_owned(), t.ink_soft)
        }
    };
    ui.scope(|ui| {
        // The room of two lines is kept: nothing below it moves.
        ui.set_min_height(2.0 * tokens::HEADING);
        let label = wrapped(ui, &words, fonts::regular(tokens::BODY), color);
        ui.ctx().accesskit_node_builder(label.id, |node| node.set_live(Live::Polite));
        if line.replaces.is_some() {
            ui.horizontal_wrapped(|ui| {
                wrapped(
                    ui,
                    "It takes the place of the reading you chose",
                    fonts::regular(tokens::SMALL),
                    t.ink_soft,
                );
                if ui.small_button("Leave it as it is").clicked() {
                    out.push(BatchesCommand::Put(String::new(), None).into());
                }
            });
        }
    });
}

/// What is wrong and the mend, without the name of the field.
fn said(note: &Note) -> String {
    Note { field: String::new(), ..note.clone() }.line()
}

/// Puts the caret behind the text, so that typing goes on there; the field's own undo begins anew: what was saved is taken back by
/// the program's.
fn to_the_end(ui: &Ui, field: egui::Id, text: &str) {
    let mut kept = TextEditState::default();
    kept.cursor.set_char_range(Some(CCursorRange::one(CCursor::new(text.chars().count()))));
    kept.store(ui.ctx(), field);
}
