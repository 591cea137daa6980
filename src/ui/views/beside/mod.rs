//! The Beside view: two to four designs in columns or laid over each other, in what they differ, what that does, and
//! because of what.

mod bar;
mod because;
mod curves;
mod empty;
mod heads;
mod levers;
mod ready;
mod swap;
mod sweep;
pub mod tables;

use egui::accesskit::{Live, Role};
use egui::{CentralPanel, Frame, Margin, Panel, Ui, WidgetInfo};

use potset_app::columns::BesidePage;
use potset_app::{Command, State};
use potset_report::warnings;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Width of the tables beside the curves: the names of the rows, and each design.
const TABLES: (f32, f32) = (150.0, 140.0);
/// Under this width the bar has two rows.
const BAR: f32 = 840.0;
/// Least width of a column of curves.
const COLUMN: f32 = 280.0;
/// Least width of curves laid over each other.
const OVER: f32 = 540.0;

/// What the view keeps between frames.
#[derive(Default)]
pub struct BesideState {
    curves: curves::CurvesState,
    sweep: sweep::SweepState,
    /// Designs and width that the sentences were drawn for, and the most height that they took.
    sentences: (usize, f32, f32),
}

/// Draws the view over the whole of `ui`; commands go into `out`.
pub fn show(ui: &mut Ui, view: &mut BesideState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let columns = &state.columns;
    let frame = |y| Frame::new().fill(t.page).inner_margin(Margin::symmetric(14, y));
    let narrow = ui.available_width() < BAR;
    let height = if narrow { 66.0 } else { 36.0 };
    Panel::top("beside bar").resizable(false).exact_size(height).frame(frame(4)).show(ui, |ui| {
        if narrow {
            ui.horizontal(|ui| bar::pages(ui, state, out));
            ui.horizontal(|ui| bar::rest(ui, state, out));
        } else {
            ui.horizontal_centered(|ui| {
                bar::pages(ui, state, out);
                bar::rest(ui, state, out);
            });
        }
    });
    match columns.page {
        BesidePage::Sweep => return sweep::show(ui, &mut view.sweep, state, out),
        BesidePage::Swap => return swap::show(ui, state, out),
        BesidePage::Curves | BesidePage::Differences => {}
    }
    if columns.list.len() < 2 {
        CentralPanel::default().frame(frame(10)).show(ui, |ui| empty::show(ui, state, out));
        return;
    }
    Panel::top("beside sentence").resizable(false).frame(frame(4)).show(ui, |ui| {
        // What is below stays where it is when a sentence needs a line less than before.
        let (designs, width, most) = &mut view.sentences;
        if (*designs, *width) != (columns.list.len(), ui.available_width()) {
            (*designs, *width, *most) = (columns.list.len(), ui.available_width(), 0.0);
        }
        ui.set_min_height(*most);
        sentences(ui, state);
        *most = most.max(ui.min_rect().height());
    });
    match columns.page {
        BesidePage::Curves => {
            let need = if columns.laid_over { OVER } else { count(columns.list.len()) * COLUMN };
            let tables = TABLES.0 + count(columns.list.len()) * TABLES.1;
            if ui.available_width() >= need + tables {
                Panel::right("beside tables").resizable(false).exact_size(tables).frame(frame(4)).show(
                    ui,
                    |ui| {
                        column(ui, "tables", tokens::GAP, |ui| {
                            tables::outcomes(ui, state);
                            tables::cautions(ui, state);
                            ready::show(ui, state);
                            tables::inputs(ui, state);
                            because::show(ui, state, out);
                        });
                    },
                );
            }
            let room =
                Frame::new().fill(t.sheet).inner_margin(Margin { left: 8, right: 8, top: 4, bottom: 4 });
            CentralPanel::default().frame(room).show(ui, |ui| curves::show(ui, &mut view.curves, state, out));
        }
        _ => differences(ui, state, out),
    }
}

/// Inputs at the left, outcomes at the right; one above the other where the window is narrow.
fn differences(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(10, 6));
    let wide = ui.available_width() >= 900.0;
    if wide {
        let half = ui.available_width() * 0.5;
        Panel::left("beside inputs").resizable(false).exact_size(half).frame(frame).show(ui, |ui| {
            column(ui, "inputs", tokens::GAP, |ui| {
                tables::inputs(ui, state);
                ready::show(ui, state);
            });
        });
    }
    CentralPanel::default().frame(frame).show(ui, |ui| {
        column(ui, "outcomes", tokens::GAP, |ui| {
            if !wide {
                tables::inputs(ui, state);
                ready::show(ui, state);
            }
            tables::outcomes(ui, state);
            tables::cautions(ui, state);
            because::show(ui, state, out);
        });
    });
}

/// The main thing, one sentence for each design but the first. A screen reader is told when it changes.
fn sentences(ui: &mut Ui, state: &State) {
    let t = tokens::of(ui);
    let told = &state.columns.told.beside;
    ui.spacing_mut().item_spacing.y = 2.0;
    if told.names.len() < 2 {
        wrapped(ui, "Working it out…", fonts::regular(tokens::BODY), t.ink_soft);
    }
    let discards = warnings::discards(told).len();
    for (i, sentence) in warnings::said(told).iter().enumerate() {
        let ink = if i < discards { t.stop } else { t.ink };
        let response = wrapped(ui, sentence, fonts::semibold(tokens::BODY), ink);
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, sentence));
        ui.ctx().accesskit_node_builder(response.id, |node| node.set_live(Live::Polite));
    }
}

fn count(n: usize) -> f32 {
    n as f32
}
