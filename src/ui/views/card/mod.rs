//! The Card view: the design on the kitchen table. A card to print, another amount, the clock, the packet, warming up.

mod clock;
mod numbers;
mod packet;
mod preview;
mod running;
mod scale;
mod stock;
mod warm_up;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};

use potset_app::card::{CardPage, Told};
use potset_app::command::CardCommand;
use potset_app::{Action, Command, State};
use potset_base::Note;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::pill::pill;

/// Between the parts of a column, points.
const GAP: f32 = 6.0;
/// Cards are no wider than a line is read, points.
const READ: f32 = 780.0;

/// What the view keeps between frames.
#[derive(Default)]
pub struct CardView {
    preview: preview::PreviewState,
}

/// Draws the view over the whole of `ui`; commands go into `out`.
pub fn show(ui: &mut Ui, view: &mut CardView, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let bar = Frame::new().fill(t.page).inner_margin(Margin::symmetric(14, 4));
    Panel::top("card pages").resizable(false).exact_size(36.0).frame(bar).show(ui, |ui| {
        ui.horizontal_centered(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            for page in CardPage::ALL {
                if pill(ui, page.words(), state.card.page == page).clicked() {
                    out.push(CardCommand::Page(page).into());
                }
            }
            // On the clock a pot is begun as its plan has it.
            let begin = Action::BeginPot;
            if state.card.page != CardPage::Clock && begin.disabled_reason(state).is_none() {
                ui.add_space(10.0);
                if ui.button(begin.label()).on_hover_text(begin.tip()).clicked() {
                    out.push(Command::Do(begin));
                }
            }
        });
    });
    match state.card.page {
        CardPage::Card => preview::show(ui, &mut view.preview, state, out),
        page => {
            CentralPanel::default().frame(panel(ui)).show(ui, |ui| {
                column(ui, page.words(), GAP, |ui| {
                    ui.set_max_width(READ);
                    match page {
                        CardPage::Card => {}
                        CardPage::Scale => scale::show(ui, state, out),
                        CardPage::Clock => clock::show(ui, state, out),
                        CardPage::Packet => packet::show(ui, state, out),
                        CardPage::WarmUp => warm_up::show(ui, state, out),
                    }
                });
            });
        }
    }
}

/// What was worked out for the page, or why it could not be; nothing while it is under way.
fn told<'a>(ui: &mut Ui, state: &'a State) -> Option<&'a Told> {
    match state.card.told.as_deref() {
        Some(Ok(told)) => Some(told),
        Some(Err(note)) => {
            trouble(ui, note);
            None
        }
        None => None,
    }
}

/// What is wrong, and the mend.
fn trouble(ui: &mut Ui, note: &Note) {
    boxed(ui, &note.title, |ui| {
        if !note.sentence.is_empty() {
            quiet(ui, &note.sentence);
        }
        quiet(ui, &note.mend);
    });
}

/// The frame of the panels.
fn panel(ui: &Ui) -> Frame {
    Frame::new().fill(tokens::of(ui).page).inner_margin(Margin::symmetric(9, 6))
}
