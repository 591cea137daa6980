//! The Mishap view: what a caller says of a pot, the causes, the next question, what to do, the answer, and the call log.

mod answer;
mod causes;
mod chart;
mod known;
mod log;
mod said;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};

use potset_app::command::MishapCommand;
use potset_app::mishap::MishapPage;
use potset_app::{Command, State};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::quiet;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::pill::pill;

/// From these widths on three columns stand beside each other, and two.
const THREE: f32 = 1180.0;
const TWO: f32 = 820.0;
/// Widths of the columns at the sides.
const LEFT: f32 = 300.0;
const RIGHT: f32 = 330.0;
/// Between the parts of a column, points.
const GAP: f32 = 6.0;

/// What the view keeps between frames.
#[derive(Default)]
pub struct MishapView {
    log: log::LogView,
    /// A call that is not in the log is asked about before it goes.
    leave: bool,
}

/// Draws the view over the whole of `ui`; commands go into `out`.
pub fn show(ui: &mut Ui, view: &mut MishapView, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let bar = Frame::new().fill(t.page).inner_margin(Margin::symmetric(14, 4));
    Panel::top("mishap pages").resizable(false).frame(bar).show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = tokens::GAP_SMALL;
            for page in MishapPage::ALL {
                if pill(ui, page.words(), state.mishap.page == page).clicked() {
                    out.push(MishapCommand::Page(page).into());
                }
            }
            if state.mishap.page == MishapPage::Call {
                ui.add_space(10.0);
                source(ui, view, state, out);
            }
        });
    });
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(9, 6));
    if state.mishap.page == MishapPage::Log {
        CentralPanel::default().frame(frame).show(ui, |ui| {
            column(ui, "calls", GAP, |ui| log::show(ui, &mut view.log, state, out));
        });
        return;
    }
    let width = ui.available_width();
    if width >= TWO {
        Panel::left("what is said").resizable(false).exact_size(LEFT).frame(frame).show(ui, |ui| {
            column(ui, "said", GAP, |ui| {
                said::show(ui, state, out);
                known::show(ui, state, out);
            });
        });
    }
    if width >= THREE {
        Panel::right("what to do").resizable(false).exact_size(RIGHT).frame(frame).show(ui, |ui| {
            column(ui, "do", GAP, |ui| answer::show(ui, state, out));
        });
    }
    CentralPanel::default().frame(frame).show(ui, |ui| {
        column(ui, "causes", GAP, |ui| {
            if width < TWO {
                said::show(ui, state, out);
            }
            causes::show(ui, state, out);
            if width < THREE {
                answer::show(ui, state, out);
            }
            if width < TWO {
                known::show(ui, state, out);
            }
        });
    });
}

/// Which pot is asked about.
fn source(ui: &mut Ui, view: &mut MishapView, state: &State, out: &mut Vec<Command>) {
    let asked = state.mishap.asked.as_ref();
    let name = asked.map_or("", |asked| asked.scenario.design.name.as_str());
    quiet(ui, &format!("About {name}"));
    let tip = "Begins a call about the design on the bench; what was said so far goes";
    let unlogged = state.mishap.told.is_some() && !state.mishap.logged;
    view.leave &= unlogged;
    if view.leave {
        ui.label("This call is not in the log.");
        if ui.button("Begin all the same").clicked() {
            view.leave = false;
            out.push(MishapCommand::OfBench.into());
        }
        if ui.button("Stay").clicked() {
            view.leave = false;
        }
    } else if ui.button("New call").on_hover_text(tip).clicked() {
        view.leave = unlogged;
        if !unlogged {
            out.push(MishapCommand::OfBench.into());
        }
    }
    let batch = state.batches.open.as_ref();
    if let Some(open) = batch {
        let label = format!("About {}", open.batch.name);
        let tip = "Begins a call about the pot that is open in Batches";
        if ui.button(label).on_hover_text(tip).clicked() {
            out.push(MishapCommand::OfBatch.into());
        }
    }
}
