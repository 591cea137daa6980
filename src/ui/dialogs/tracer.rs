//! Follows a value on the screen to its source: the hover with its explanation, and the press that opens all of it.

use egui::{RectAlign, Response, Tooltip};

use potset_app::command::WindowCommand;
use potset_app::state::Dialog;
use potset_app::{Command, State};
use potset_explain::Reading;
use potset_report::explain::{Explanation, explain, of_possible_pots};
use potset_ui_kit::widgets::explained;

/// Width of the hover in points.
const WIDTH: f32 = 330.0;

/// What was worked out for the design and the answer at hand.
#[derive(Default)]
pub struct Tracer {
    told: Option<(CacheKey, Reading, f64, Option<Explanation>)>,
}

/// What an explanation depends on.
#[derive(Clone, Copy, PartialEq)]
struct CacheKey {
    question: u64,
    answer: u64,
    numbers: u64,
    sensitivities: u64,
}

impl CacheKey {
    fn of(state: &State) -> Self {
        Self {
            question: state.question,
            answer: state.answer_number,
            numbers: state.numbers_number,
            sensitivities: state.sensitivities_number,
        }
    }
}

impl Tracer {
    /// The explanation of a reading at a time, h; `None` if there is no such value.
    pub fn explanation(&mut self, state: &State, reading: Reading, t_h: f64) -> Option<&Explanation> {
        let seen = CacheKey::of(state);
        let same = |(of, what, at, _): &(CacheKey, Reading, f64, Option<Explanation>)| {
            (*of, *what) == (seen, reading) && (at - t_h).abs() < 1e-9
        };
        if !self.told.as_ref().is_some_and(same) {
            let mut told = explain(reading, &state.answer, t_h, state.design(), &state.numbers);
            if let Some(told) = &mut told {
                told.basis.by_influence(&state.sensitivities);
                // What the card says stands first: it is of the possible pots.
                if let (Reading::Ready, Some(spread)) = (reading, state.doubt.shown()) {
                    told.parts.splice(0..0, of_possible_pots(&spread.ready, state.design().start()));
                }
            }
            self.told = Some((seen, reading, t_h, told));
        }
        self.told.as_ref().and_then(|(.., told)| told.as_ref())
    }

    /// Gives a pressable response the hover of its reading; a press, or Enter with the keyboard on it, opens all of it.
    ///
    /// - `beside` — what the hover stands at the left of: it then keeps its place over the whole of it.
    pub fn attach(
        &mut self,
        state: &State,
        response: &Response,
        beside: egui::Rect,
        (reading, t_h): (Reading, f64),
        out: &mut Vec<Command>,
    ) {
        if response.clicked() {
            out.push(WindowCommand::Explain(reading, t_h).into());
        }
        let by_keys = response.has_focus()
            && state.dialog == Dialog::None
            && !response.ctx.input(|i| i.pointer.any_down());
        if !by_keys && !Tooltip::should_show_tooltip(response, true) {
            return;
        }
        let Some(told) = self.explanation(state, reading, t_h) else { return };
        let mut tooltip = Tooltip::for_widget(response).width(WIDTH).gap(6.0);
        tooltip.popup = tooltip.popup.anchor(beside).align(RectAlign::LEFT_START).align_alternatives(&[
            RectAlign::RIGHT_START,
            RectAlign::LEFT_END,
            RectAlign::RIGHT_END,
            RectAlign::BOTTOM_END,
            RectAlign::TOP_END,
        ]);
        tooltip.show(|ui| {
            ui.set_width(WIDTH);
            explained::compact(ui, told);
        });
    }
}
