//! Numbers of the settings that stand as ghosts behind the curves.

use egui::{Rect, StrokeKind, Ui, pos2};

use super::frame::Frame;
use super::paint;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Tokens};

/// Half the height of a label.
const LABEL: f32 = 7.5;

/// Shares of the time at which a label may stand: clear of the words at both ends.
const PLACES: std::ops::RangeInclusive<u8> = 10..=80;

/// A number in a box on the leading curve of each ghost, where they are farthest apart: "1·2" where curves lie together.
pub fn numbers(ui: &Ui, frame: &Frame<'_>, t: &Tokens) {
    let traces = frame.ghost.iter().flat_map(|g| &g.traces);
    let leading: Vec<(&str, &[[f32; 2]])> = traces
        .filter_map(|trace| Some((trace.label.as_deref()?, trace.runs.first()?.as_slice())))
        .filter(|(_, run)| !run.is_empty())
        .collect();
    let at = |share: u8| frame.time.horizon_h * f64::from(share) / 100.0;
    let apart = |hours: f64| {
        let ys = leading.iter().map(|(_, run)| y(frame, run, hours));
        let (low, high) = ys.fold((f32::INFINITY, f32::NEG_INFINITY), |(l, h), y| (l.min(y), h.max(y)));
        high - low
    };
    let Some(share) = PLACES.step_by(5).max_by(|a, b| apart(at(*a)).total_cmp(&apart(at(*b)))) else {
        return;
    };
    // Curves that never part have their label in the middle.
    let hours = if apart(at(share)) < 2.0 * LABEL { at(45) } else { at(share) };
    let mut told: Vec<(f32, String)> = Vec::new();
    for (label, run) in &leading {
        let y = paint::held(y(frame, run, hours), frame.plot.top() + LABEL, frame.plot.bottom() - LABEL);
        match told.iter_mut().find(|(place, _)| (place - y).abs() < 2.0 * LABEL) {
            Some((_, words)) => words.push_str(&format!("·{label}")),
            None => told.push((y, (*label).to_owned())),
        }
    }
    let font = fonts::semibold(tokens::SMALL);
    for (y, words) in told {
        let text =
            Rect::from_center_size(pos2(frame.time.x(hours), y), paint::size(ui, &words, font.clone()));
        let label = text.expand2(egui::vec2(4.0, 0.5));
        ui.painter().rect_filled(label, tokens::RADIUS, t.sheet);
        let edge = egui::Stroke::new(tokens::HAIRLINE, t.ink_soft);
        ui.painter().rect_stroke(label, tokens::RADIUS, edge, StrokeKind::Inside);
        paint::left(ui, text.left_center(), &words, font.clone(), t.ink);
    }
}

/// Height of a curve at a time, on a straight line between its points.
fn y(frame: &Frame<'_>, run: &[[f32; 2]], hours: f64) -> f32 {
    let h = hours as f32;
    let next = run.partition_point(|[at, _]| *at < h).clamp(1, run.len().max(2) - 1).min(run.len() - 1);
    let ([h0, v0], [h1, v1]) = (run[next.saturating_sub(1)], run[next]);
    let part = if h1 > h0 { ((h - h0) / (h1 - h0)).clamp(0.0, 1.0) } else { 0.0 };
    frame.y(f64::from(v0 + part * (v1 - v0)))
}
