//! The bench: cards in the order of making, the long sheet, the verdict.

mod additives;
mod after;
mod age;
mod answer;
mod base;
mod before;
mod blend;
mod chances;
mod culture;
mod events;
mod goals;
mod hand;
mod keeping;
mod kept;
mod matters;
mod measured;
mod notes;
mod nutrition;
mod outdated;
mod pack;
mod plain;
mod pots;
mod rests;
mod shelf;
mod sugar;
mod thickener;
mod verdict;
mod warmth;

use egui::{Frame, Margin, Panel, Ui};

use hand::EditContext;
pub use hand::HandState;

use potset_app::command::{AimCommand, WindowCommand};
use potset_app::state::View;
use potset_app::{Command, State};
use potset_doc::settings::Depth;
use potset_ui_chart::{SheetAction, SheetState, Shown};
use potset_ui_dialogs::tracer::Tracer;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::column::column;

/// Under this width the verdict folds under the cards.
const THREE_COLUMNS: f32 = 1000.0;
/// Widths of the outer columns: of the plain bench, and of the one with all details.
const LEFT: [f32; 2] = [320.0, 336.0];
const RIGHT: [f32; 2] = [300.0, 282.0];

/// What the eye needs between frames.
#[derive(Default)]
pub struct BenchState {
    sheet: SheetState,
    hand: HandState,
    tracer: Tracer,
    /// The table of nutrition shows the mix before the culture.
    before: bool,
}

/// Draws the bench over the whole of `ui`; commands go into `out`.
pub fn show(ui: &mut Ui, view: &mut BenchState, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let wide = ui.available_width() >= THREE_COLUMNS;
    let depth = state.settings.depth;
    let width = |of: [f32; 2]| of[usize::from(depth == Depth::Details)];
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(9, 8));
    Panel::left("making").resizable(false).exact_size(width(LEFT)).frame(frame).show(ui, |ui| {
        column(ui, "making", tokens::GAP, |ui| {
            cards(ui, view, state, out);
            if !wide {
                verdict(ui, view, state, out);
            }
        });
    });
    if wide {
        Panel::right("verdict").resizable(false).exact_size(width(RIGHT)).frame(frame).show(ui, |ui| {
            column(ui, "verdict", tokens::GAP, |ui| {
                verdict(ui, view, state, out);
            });
        });
    }
    let sheet_frame =
        Frame::new().fill(t.sheet).inner_margin(Margin { left: 8, right: 10, top: 6, bottom: 4 });
    if !wide {
        let frame = Frame::new().fill(t.card).inner_margin(Margin::symmetric(12, 5));
        Panel::bottom("answer").resizable(false).frame(frame).show(ui, |ui| plain::line(ui, state));
    }
    egui::CentralPanel::default().frame(sheet_frame).show(ui, |ui| long_sheet(ui, view, state, out));
}

/// What the pot will be, in the depth that is shown.
fn verdict(ui: &mut Ui, view: &mut BenchState, state: &State, out: &mut Vec<Command>) {
    match state.settings.depth {
        Depth::Plain => plain::show(ui, state, &mut view.tracer, out),
        Depth::Details => verdict::show(ui, state, &mut view.tracer, &mut view.before, out),
    }
}

fn cards(ui: &mut Ui, view: &mut BenchState, state: &State, out: &mut Vec<Command>) {
    let mut hand = EditContext { state, view: &mut view.hand, out };
    base::card(ui, &mut hand);
    sugar::card(ui, &mut hand);
    thickener::card(ui, &mut hand);
    if hand.plain() {
        culture::card(ui, &mut hand);
        warmth::card(ui, &mut hand);
        additives::named(ui, &hand);
        plain::more(ui, "Goals, steps, chill, nutrition, costs: Details", out);
        return;
    }
    additives::card(ui, &mut hand);
    culture::card(ui, &mut hand);
    warmth::card(ui, &mut hand);
    after::card(ui, &mut hand);
    goals::card(ui, &mut hand);
    pots::card(ui, &mut hand);
    notes::card(ui, &mut hand);
}

/// What Aim found, while it is drawn on the sheet: what each is, to take it, or to hide them.
fn proposals(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    if state.aims.ghosts().is_empty() {
        return;
    }
    let Some(aimed) = &state.aims.aimed else { return };
    ui.horizontal_wrapped(|ui| {
        for (i, proposal) in aimed.found.proposals.iter().enumerate() {
            let button = ui.button(format!("Use setting {}", i + 1));
            if button.on_hover_text(potset_report::aim::chances::words(&proposal.chance)).clicked() {
                out.push(AimCommand::Take(i).into());
            }
        }
        if ui.button("Back to Aim").clicked() {
            out.push(WindowCommand::Show(View::Aim).into());
        }
        if ui.button("Hide the settings").clicked() {
            out.push(AimCommand::OnBench(false).into());
        }
    });
}

fn long_sheet(ui: &mut Ui, view: &mut BenchState, state: &State, out: &mut Vec<Command>) {
    proposals(ui, state, out);
    let proposals = state.aims.ghosts();
    let numbered = !proposals.is_empty();
    let ghosts = if numbered { proposals } else { state.ghost.iter().map(|g| &g.forecast).collect() };
    let shown = Shown {
        forecast: &state.answer.forecast,
        ghosts: &ghosts,
        numbered,
        verdict: &state.answer.verdict,
        depth: state.settings.depth,
        revision: state.answer_number,
        spread: state.doubt.shown().filter(|_| state.settings.spread),
        ready: state.doubt.shown().map(|spread| &spread.ready),
        spread_outdated: state.doubt.outdated(state.question),
        spread_revision: state.doubt.number,
        // Two counts in one: neither runs into the other.
        ghost_revision: if numbered { u64::MAX - state.aims.number } else { state.ghost_number },
        stop_h: state.design().hold().map_or(0.0, |h| h.hours),
        start: state.design().start(),
        finished: state.answer.facts.finished(),
        folded: &state.settings.folded,
        fixed: false,
        shared: None,
        dots: &[],
    };
    for action in potset_ui_chart::show(ui, &mut view.sheet, &shown) {
        match action {
            SheetAction::Stop(hours, gesture) => {
                let value = Some(potset_doc::Edit::HoldHours(hours));
                view.hand.push("stop line", gesture, value, out);
            }
            SheetAction::Follow(id, reading, t_h) => {
                if let Some(response) = ui.ctx().read_response(id) {
                    view.tracer.attach(state, &response, response.rect, (reading, t_h), out);
                }
            }
            SheetAction::Fold(key) => out.push(WindowCommand::Fold(key).into()),
            SheetAction::Cursor(_) => {}
            SheetAction::CopyNumbers => out.push(Command::Do(potset_app::Action::CopyNumbers)),
        }
    }
}
