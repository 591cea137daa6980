//! The tour of the bench: three cards, one after the other, over what each is about. It can be skipped.

use egui::{Align2, Area, Frame, Id, Margin, Order, Stroke, Ui, vec2};

use potset_app::command::WindowCommand;
use potset_app::state::View;
use potset_app::{Command, State};
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// A card: its title, its words, and where it stands.
struct Stop {
    title: &'static str,
    words: &'static str,
    at: Align2,
}

const STOPS: [Stop; 3] = [
    Stop {
        title: "What goes in",
        words: "Move a lever. The pale curve shows how it was before, and Ctrl+Z undoes it.",
        at: Align2::LEFT_BOTTOM,
    },
    Stop {
        title: "What comes of it",
        words: "The chart shows the hours in the warm. Drag the upright line to choose when you stop.",
        at: Align2::CENTER_CENTER,
    },
    Stop {
        title: "The answer",
        words: "Read it from the top: is anything against it, when is it ready, how thick, how sour, how sweet. The last \
                card says what to do next.",
        at: Align2::RIGHT_BOTTOM,
    },
];

/// Draws the card of the tour, if one is due.
pub fn show(ui: &Ui, state: &State, out: &mut Vec<Command>) {
    let Some(stop) = state.tour.and_then(|i| STOPS.get(i)).filter(|_| state.view == View::Bench) else {
        return;
    };
    let place = state.tour.unwrap_or_default();
    let t = tokens::of(ui);
    let frame = Frame::new()
        .fill(t.card)
        .stroke(Stroke::new(tokens::CURVE, t.accent))
        .corner_radius(tokens::RADIUS)
        .inner_margin(Margin::symmetric(14, 10));
    let inset = vec2(16.0, 44.0);
    let sign = stop.at.to_sign();
    Area::new(Id::unique("tour"))
        .order(Order::Foreground)
        .anchor(stop.at, vec2(-sign.x * inset.x, -sign.y * inset.y))
        .show(ui.ctx(), |ui| {
            frame.show(ui, |ui| {
                ui.set_width(270.0);
                wrapped(ui, stop.title, fonts::semibold(tokens::BODY + 1.0), t.ink);
                wrapped(ui, stop.words, fonts::regular(tokens::BODY), t.ink);
                ui.add_space(4.0);
                ui.horizontal(|ui| {
                    let last = place + 1 == STOPS.len();
                    let words = if last {
                        "Done".to_owned()
                    } else {
                        format!("Next ({} of {})", place + 1, STOPS.len())
                    };
                    if ui.button(words).clicked() {
                        out.push(WindowCommand::Tour((!last).then_some(place + 1)).into());
                    }
                    if !last && ui.button("Skip the tour").clicked() {
                        out.push(WindowCommand::Tour(None).into());
                    }
                });
            });
        });
}
