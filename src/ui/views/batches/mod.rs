//! The Batches view: pots really made as a list, the page of one, what all of them taught, drift, and a logger's file.

mod about;
mod amounts;
mod bin;
mod chart;
mod drift;
mod import;
mod line;
mod list;
mod pot;
mod readings;
mod taught;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};

use potset_app::batches::BatchesPage;
use potset_app::command::BatchesCommand;
use potset_app::{Action, Command, State};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::list::List;
use potset_ui_kit::widgets::pill::pill;

/// From this width on list and page stand beside each other.
const WIDE: f32 = 900.0;
/// Width of the list there.
const LEFT: f32 = 300.0;
/// Between the parts of a column, points.
const GAP: f32 = 6.0;

/// What the view keeps between frames.
#[derive(Default)]
pub struct BatchesView {
    list: List,
    /// Places of the batches that the list shows, and what for.
    shown: Vec<usize>,
    shown_of: Option<(u64, String)>,
    /// What is being looked for while it is typed.
    text: Option<String>,
    line: line::LineState,
    taught: taught::TaughtState,
    /// The open pot is asked about before it goes to the bin.
    throw: Option<String>,
    /// What in the bin is asked about before it is deleted.
    delete: Option<u32>,
}

/// Draws the view over the whole of `ui`; commands go into `out`.
pub fn show(ui: &mut Ui, view: &mut BatchesView, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    list::renew(view, state);
    let bar = Frame::new().fill(t.page).inner_margin(Margin::symmetric(14, 4));
    Panel::top("batches pages").resizable(false).frame(bar).show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = tokens::GAP_SMALL;
            for page in BatchesPage::ALL {
                if pill(ui, page.words(), state.batches.page == page).clicked() {
                    out.push(BatchesCommand::Page(page).into());
                }
            }
        });
    });
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(9, 6));
    let wide = ui.available_width() >= WIDE;
    if wide {
        Panel::left("batches").resizable(false).exact_size(LEFT).frame(frame).show(ui, |ui| {
            list::show(ui, view, state, out);
        });
    }
    CentralPanel::default().frame(frame).show(ui, |ui| {
        let page = state.batches.page;
        if !wide && page == BatchesPage::Pot && state.batches.open.is_none() {
            list::show(ui, view, state, out);
            return;
        }
        // Another pot begins at its head.
        let of = state.batches.opening.as_deref().filter(|_| page == BatchesPage::Pot).unwrap_or_default();
        ui.push_id(of, |ui| {
            column(ui, page.words(), GAP, |ui| match page {
                BatchesPage::Pot => {
                    if !wide && ui.button("← All pots").clicked() {
                        out.push(BatchesCommand::Open(None).into());
                    }
                    pot::show(ui, view, state, out);
                }
                BatchesPage::Taught => taught::show(ui, &mut view.taught, state, out),
                BatchesPage::Drift => drift::show(ui, state, out),
                BatchesPage::Import => import::show(ui, state, out),
                BatchesPage::Bin => bin::show(ui, view, state, out),
            });
        });
    });
}

/// A button for an action of the table; one that cannot be done says why.
fn act(ui: &mut Ui, state: &State, action: Action, out: &mut Vec<Command>) {
    let why = action.disabled_reason(state);
    let button = ui.add_enabled(why.is_none(), egui::Button::new(action.label()));
    if button.clicked() {
        out.push(Command::Do(action));
    }
    button.on_hover_text(action.tip()).on_disabled_hover_text(why.unwrap_or_default());
}
