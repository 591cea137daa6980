//! The curves of the columns: long sheets next to each other with shared axes and one cursor, or laid over each other.

use egui::{Frame, Rect, Ui, UiBuilder, pos2, vec2};

use super::{heads, levers};
use potset_app::columns::{ComparisonResult, Holds};
use potset_app::command::{BesideCommand, WindowCommand};
use potset_app::{Action, Command, State};
use potset_compare::beside::Measured;
use potset_doc::Edit;
use potset_doc::evidence::What;
use potset_doc::fields;
use potset_ui_bench::HandState;
use potset_ui_chart::over;
use potset_ui_chart::over::{Layer, OverState};
use potset_ui_chart::{Bounds, Dot, Shared, SheetAction, SheetState, Shown};
use potset_ui_dialogs::tracer::Tracer;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::wrapped;

/// What the eye needs between frames.
#[derive(Default)]
pub struct CurvesState {
    sheets: Vec<(u64, SheetState)>,
    over: OverState,
    known: Option<(u64, Bounds, Vec<Vec<Dot>>)>,
    /// The time under the pointer, and the column that it is over.
    cursor: Option<(usize, f64)>,
    hand: HandState,
    tracer: Tracer,
}

/// Draws heads and curves.
pub fn show(ui: &mut Ui, view: &mut CurvesState, state: &State, out: &mut Vec<Command>) {
    let whole = ui.available_rect_before_wrap();
    let top = whole.with_max_y(whole.top() + heads::HEIGHT);
    heads::show(ui, top, state, out);
    let mut below = whole.with_min_y(top.bottom() + 4.0);
    let columns = &state.columns;
    let told = &columns.told;
    let current = told.ids.len() == columns.list.len()
        && columns.list.iter().zip(&told.ids).all(|(column, id)| column.id == *id);
    if !current {
        // The answer is a moment behind what stands in the columns.
        return;
    }
    view.remember(state);
    let longest = told.answers.iter().map(|a| a.forecast.horizon_h).fold(1.0, f64::max);
    let last = view.cursor.take();
    if columns.levers {
        let split = below.bottom() - levers::height(below.height());
        turn(ui, below.with_min_y(split), view, state, out);
        below.set_bottom(split);
    }
    let Some((_, bounds, dots)) = &view.known else { return };
    let shared = |i: usize| Shared {
        horizon_h: longest,
        bounds,
        cursor_h: last.filter(|(over, _)| *over != i).map(|(_, h)| h),
    };
    let all: Vec<Shown<'_>> =
        (0..told.answers.len()).map(|i| shown(state, told, i, &dots[i], shared(i))).collect();
    let mut moved = Vec::new();
    if columns.laid_over {
        let mut place = ui.new_child(UiBuilder::new().max_rect(below).id_salt("over"));
        let layers: Vec<Layer<'_>> = all
            .iter()
            .enumerate()
            .filter(|(_, shown)| !shown.forecast.t.is_empty())
            .map(|(i, shown)| Layer {
                shown: Shown { fixed: columns.common_stop.is_none(), ..*shown },
                name: &told.beside.names[i],
                place: i,
            })
            .collect();
        moved.extend(over::show(&mut place, &mut view.over, &layers).into_iter().map(|a| (0, a)));
    } else {
        let width = below.width() / super::count(all.len());
        for (i, shown) in all.iter().enumerate() {
            let left = below.left() + super::count(i) * width;
            let rect = Rect::from_min_size(pos2(left, below.top()), vec2(width - 4.0, below.height()));
            let id = told.ids[i];
            let mut place = ui.new_child(UiBuilder::new().max_rect(rect).id_salt(("sheet", id)));
            if shown.forecast.t.is_empty() {
                missing(&mut place, told, i);
                continue;
            }
            let at = view.sheets.iter().position(|(of, _)| *of == id).unwrap_or_else(|| {
                view.sheets.push((id, SheetState::default()));
                view.sheets.len() - 1
            });
            let (_, sheet) = &mut view.sheets[at];
            moved.extend(potset_ui_chart::show(&mut place, sheet, shown).into_iter().map(|a| (i, a)));
        }
    }
    for (i, action) in moved {
        act(ui, view, state, i, &action, out);
    }
    if view.cursor != last && !columns.laid_over {
        // The other sheets have been drawn with the cursor as it was.
        ui.ctx().request_repaint();
    }
}

/// The levers of each column, under its curves.
fn turn(ui: &mut Ui, rect: Rect, view: &mut CurvesState, state: &State, out: &mut Vec<Command>) {
    let columns = &state.columns;
    let width = rect.width() / super::count(columns.list.len());
    for (i, column) in columns.list.iter().enumerate() {
        let left = rect.left() + super::count(i) * width;
        let own = Rect::from_min_size(pos2(left, rect.top()), vec2(width - 4.0, rect.height()));
        let name = columns.told.beside.names.get(i).map_or("", String::as_str);
        levers::show(ui, own, (column, name), &mut view.hand, state, out);
    }
}

impl CurvesState {
    /// Bounds and dots of the answers shown.
    fn remember(&mut self, state: &State) {
        let columns = &state.columns;
        if self.known.as_ref().is_some_and(|(number, ..)| *number == columns.told_number) {
            return;
        }
        let bounds = Bounds::of(columns.told.answers.iter().map(|a| &a.forecast));
        let dots = columns.list.iter().map(|column| match &column.holds {
            Holds::Case(case) => dots(&case.measured),
            _ => Vec::new(),
        });
        self.known = Some((columns.told_number, bounds, dots.collect()));
        self.sheets.retain(|(id, _)| columns.list.iter().any(|c| c.id == *id));
    }
}

/// Readings of a published pot that have a place on the sheet.
fn dots(measured: &[Measured]) -> Vec<Dot> {
    measured
        .iter()
        .filter_map(|m| match m.what {
            What::Ph(h) => Some(Dot::ph(h, m.value)),
            What::HoursTo(ph) => Some(Dot::ph(m.value, ph)),
            What::AcidMade(h) => Some(Dot::acid(h, m.value)),
            _ => None,
        })
        .collect()
}

fn shown<'a>(
    state: &'a State,
    told: &'a ComparisonResult,
    i: usize,
    dots: &'a [Dot],
    shared: Shared<'a>,
) -> Shown<'a> {
    let (design, answer) = (&told.designs[i], &told.answers[i]);
    let bench = state.columns.list.get(i).is_some_and(|c| matches!(c.holds, Holds::Bench));
    Shown {
        forecast: &answer.forecast,
        ghosts: &[],
        numbered: false,
        verdict: &answer.verdict,
        depth: state.settings.depth,
        revision: state.columns.told_number,
        spread: None,
        ready: answer.ready.as_ref(),
        spread_outdated: false,
        spread_revision: 0,
        ghost_revision: 0,
        stop_h: design.hold().map_or(0.0, |h| h.hours),
        start: design.start(),
        finished: answer.facts.finished(),
        folded: &state.settings.folded,
        fixed: state.columns.common_stop.is_none() && !bench,
        shared: Some(shared),
        dots,
    }
}

/// Why a column has no curves.
fn missing(ui: &mut Ui, told: &ComparisonResult, i: usize) {
    let t = tokens::of(ui);
    Frame::new().inner_margin(12.0).show(ui, |ui| {
        let name = told.beside.names.get(i).map_or("", String::as_str);
        let font = potset_ui_kit::fonts::regular(tokens::BODY);
        wrapped(ui, &format!("There is no forecast of {name}:"), font.clone(), t.ink);
        for note in &told.answers[i].errors {
            wrapped(ui, &fields::line(note), font.clone(), t.stop);
        }
    });
}

fn act(
    ui: &Ui,
    view: &mut CurvesState,
    state: &State,
    i: usize,
    action: &SheetAction,
    out: &mut Vec<Command>,
) {
    let bench = state.columns.bench() == i;
    match *action {
        SheetAction::Cursor(h) => view.cursor = Some((i, h)),
        SheetAction::Fold(key) => out.push(WindowCommand::Fold(key).into()),
        SheetAction::Stop(hours, _) if state.columns.common_stop.is_some() => {
            out.push(BesideCommand::Stop(Some(hours)).into());
        }
        SheetAction::Stop(hours, gesture) if bench => {
            view.hand.push("stop line", gesture, Some(Edit::HoldHours(hours)), out);
        }
        SheetAction::Stop(..) => {}
        SheetAction::Follow(id, reading, t_h) => {
            // Only the design on the bench can be followed to its sources: the others are taken there first.
            if bench
                && state.columns.common_stop.is_none()
                && let Some(response) = ui.ctx().read_response(id)
            {
                view.tracer.attach(state, &response, response.rect, (reading, t_h), out);
            }
        }
        SheetAction::CopyNumbers => out.push(Command::Do(Action::CopyBeside)),
    }
}
