//! The Sweep page: one lever or two of the design on the bench over a range, as small curves or as a map.

mod controls;
mod map;
mod multiples;

use egui::accesskit::Role;
use egui::{CentralPanel, EventFilter, Frame, Key, Margin, Panel, Response, Ui, WidgetInfo};

use potset_app::command::SweepCommand;
use potset_app::sweeps::Swept;
use potset_app::{Command, State};
use potset_doc::settings::Depth;
use potset_forecast::observable::{Missing, Observable};
use potset_search::sweep::{Cell, Sweep};
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Width of the controls.
const CONTROLS: f32 = 300.0;
/// Height of the line that reads a point.
const READING: f32 = 62.0;
/// Under this width the reading has a line more.
const NARROW: f32 = 640.0;
const LINE: f32 = 17.0;

/// What the page keeps between frames.
#[derive(Default)]
pub struct SweepState {
    /// The point that the keys are on.
    mark: Option<(usize, usize)>,
    map: map::MapState,
}

/// Draws the page over the room that is left.
pub fn show(ui: &mut Ui, view: &mut SweepState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(10, 6));
    Panel::left("sweep controls").resizable(false).exact_size(CONTROLS).frame(frame).show(ui, |ui| {
        column(ui, "sweep", tokens::GAP, |ui| {
            controls::show(ui, state, out);
        });
    });
    let sheet = Frame::new().fill(t.sheet).inner_margin(Margin::symmetric(12, 8));
    let Some(swept) = state.sweeps.swept.as_ref() else {
        CentralPanel::default().frame(sheet).show(ui, |ui| {
            let words = if state.sweeps.wish.is_none() {
                "This design has nothing that can be turned over a range."
            } else if state.sweeps.fault.is_some() {
                "This range cannot be swept: what to mend stands at the left."
            } else {
                "Nothing is worked out yet."
            };
            wrapped(ui, words, fonts::regular(tokens::BODY), t.ink_soft);
        });
        return;
    };
    let mut hovered = None;
    let height = if ui.available_width() < NARROW { READING + LINE } else { READING };
    let reading = Panel::bottom("sweep reading").resizable(false).exact_size(height).frame(sheet);
    CentralPanel::default().frame(Frame::NONE).show(ui, |ui| {
        // The panel is laid out first; what it reads is known when the map has been drawn.
        let inner = reading.show(ui, |ui| ui.available_rect_before_wrap());
        CentralPanel::default().frame(sheet).show(ui, |ui| {
            hovered = if swept.sweep.ask.y.is_some() {
                map::show(ui, view, state, swept, out)
            } else {
                multiples::show(ui, view, state, swept, out)
            };
        });
        let mut line = ui.new_child(egui::UiBuilder::new().max_rect(inner.inner).id_salt("reading"));
        read(&mut line, view, state, swept, hovered);
    });
}

/// The point that is read: under the pointer, else under the keys, else nearest to the design.
fn read(ui: &mut Ui, view: &SweepState, state: &State, swept: &Swept, hovered: Option<(usize, usize)>) {
    let t = tokens::of(ui);
    let (point, what) = match (hovered, view.mark) {
        (Some(point), _) => (Some(point), "a press makes it the design"),
        (None, Some(point)) => (Some(point), "Enter makes it the design"),
        (None, None) => (swept.sweep.nearest(&state.scenario()), "nearest to the design"),
    };
    let Some((ix, iy)) = point else {
        wrapped(ui, "The design lies outside of the range.", fonts::regular(tokens::BODY), t.ink_soft);
        return;
    };
    let head = format!("{} ({what})", swept.sweep.ask.words(ix, iy));
    let told = pot_in_words(&swept.sweep, state, ix, iy);
    ui.spacing_mut().item_spacing.y = 1.0;
    wrapped(ui, &head, fonts::semibold(tokens::BODY), t.ink);
    let response = wrapped(ui, &told, fonts::regular(tokens::SMALL + 1.0), t.ink);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, format!("{head}: {told}")));
}

/// What comes of a point, in words.
fn pot_in_words(sweep: &Sweep, state: &State, ix: usize, iy: usize) -> String {
    match sweep.cell(ix, iy) {
        None | Some(Cell::Waiting) => "not worked out yet".to_owned(),
        Some(Cell::Never(why)) => why.clone(),
        Some(Cell::Point(point)) => {
            let mut all: Vec<String> = Observable::SWEPT
                .into_iter()
                .filter_map(|outcome| match point.outcomes.get(outcome) {
                    Some(v) => Some(format!("{} {}", outcome.name(), words(state, outcome, v))),
                    None if outcome.missing() == Missing::Never => Some(format!("{} never", outcome.name())),
                    None => None,
                })
                .collect();
            all.insert(
                0,
                match &point.failing {
                    None => "all goals hold".to_owned(),
                    Some(goal) => format!("at the stop line not yet: {goal}"),
                },
            );
            all.join(" · ")
        }
    }
}

/// A value in words; money in the kitchen's.
fn words(state: &State, outcome: Observable, v: f64) -> String {
    if let Some(word) =
        potset_report::sweep::word(outcome, v).filter(|_| state.settings.depth == Depth::Plain)
    {
        word.to_owned()
    } else if outcome == Observable::Cost {
        format!("{} {}", state.kitchen.money(v), outcome.unit())
    } else {
        outcome.words(v)
    }
}

/// Arrows move the mark over the points, Enter takes the one under it.
fn keys(
    ui: &Ui,
    response: &Response,
    view: &mut SweepState,
    (sweep, from): (&Sweep, Option<(usize, usize)>),
    out: &mut Vec<Command>,
) {
    if !response.has_focus() {
        return;
    }
    let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let (nx, ny) = sweep.ask.size();
    let (mut ix, mut iy) = view.mark.or(from).unwrap_or((nx / 2, ny / 2));
    let moved = ui.input(|i| {
        let times = |key| i.num_presses(key);
        let before = (ix, iy);
        ix = (ix + times(Key::ArrowRight)).saturating_sub(times(Key::ArrowLeft)).min(nx - 1);
        iy = (iy + times(Key::ArrowUp)).saturating_sub(times(Key::ArrowDown)).min(ny - 1);
        before != (ix, iy)
    });
    if moved {
        view.mark = Some((ix, iy));
    }
    if ui.input(|i| i.key_pressed(Key::Enter))
        && let Some((ix, iy)) = view.mark
    {
        out.push(SweepCommand::Take(ix, iy).into());
        view.mark = None;
    }
}
