//! The chart of a pot: pH by time as it was forecast before any reading, as the readings make it from now on, the readings
//! themselves with their scatter, now, the stop, and when it is ready; warmth below.

use egui::accesskit::Role;
use egui::{Align2, Pos2, Rect, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::views::paint::{self, Plot};
use potset_app::State;
use potset_app::batches::{AheadTold, OpenBatch};
use potset_base::clock::Moment;
use potset_base::number::{fixed, ticks};
use potset_base::units;
use potset_doc::batch::Observed;
use potset_judge::ready::HORIZON_H;
use potset_learn::{Ahead, Seen, stop_of};
use potset_report::learn as say;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Dash, Tokens};
use potset_ui_kit::widgets::card::boxed;

/// Heights of the two strips, room for numbers at their left and below, points.
const PH: f32 = 210.0;
const WARMTH: f32 = 90.0;
const LEFT: f32 = 44.0;
const BELOW: f32 = 34.0;
const BETWEEN: f32 = 20.0;
/// The scale of pH, wider where a reading or a curve lies beyond.
const USUAL_PH: (f64, f64) = (3.8, 6.8);
const USUAL_C: (f64, f64) = (20.0, 46.0);
/// What is shown after the last that is known, h, and the longest that is shown.
const AFTER_H: f64 = 2.0;
const LEAST_H: f64 = 8.0;

/// Hours now, since the culture went in.
fn now_h(state: &State, open: &OpenBatch) -> Option<f64> {
    let by_clock = state.now.and_then(|now| open.batch.hours_to(now, &state.zone));
    by_clock.or_else(|| open.ahead.as_ref().map(|told| told.now_h)).filter(|_| open.batch.running())
}

/// Up to when the chart goes, h.
fn end(state: &State, open: &OpenBatch) -> f64 {
    let batch = &open.batch;
    let stop = stop_of(batch);
    // What was read days later in the cold would press the hours of the warmth together.
    let last = batch.readings.iter().map(|r| r.at_h).filter(|h| *h <= stop + 24.0).fold(0.0, f64::max);
    let ready = open.ahead.as_ref().map_or(0.0, |told| {
        let Ahead { range, half_h, most_h, .. } = &told.ahead;
        // Where some pots never are, the hours in which most are are what is to be seen.
        if range.1 < HORIZON_H { range.1 } else { most_h.or(*half_h).unwrap_or(0.0) }
    });
    let now = now_h(state, open).filter(|h| *h <= stop + 24.0).unwrap_or(0.0);
    let known = [stop, last, ready, now].into_iter().fold(0.0, f64::max);
    (known + AFTER_H).max(LEAST_H)
}

/// A scale that holds all values.
fn span(usual: (f64, f64), values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.filter(|v| v.is_finite()).fold(usual, |(low, high), v| (low.min(v - 0.1), high.max(v + 0.1)))
}

/// Draws the chart.
pub fn show(ui: &mut Ui, state: &State, open: &OpenBatch) {
    boxed(ui, "Sourness and warmth by time", |ui| {
        let height = PH + BETWEEN + WARMTH + BELOW;
        let (whole, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
        let x = (0.0, end(state, open));
        let at = |top: f32, height: f32| {
            Rect::from_min_size(
                pos2(whole.left() + LEFT, whole.top() + top),
                vec2(whole.width() - LEFT - 8.0, height),
            )
        };
        let read = open.batch.readings.iter();
        let ph = read.clone().filter_map(|r| ph_of(r.what)).chain(lowest(open, x.1));
        let ph = Plot { rect: at(0.0, PH), x, y: span(USUAL_PH, ph) };
        let warm = read.filter_map(|r| if let Observed::Warmth(c) = r.what { Some(c) } else { None });
        let warm = warm.chain(open.course.iter().filter(|(h, _)| *h >= 0.0 && *h <= x.1).map(|(_, c)| *c));
        let warm = Plot { rect: at(PH + BETWEEN, WARMTH), x, y: span(USUAL_C, warm) };
        let words = sentence(state, open);
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
        frames(ui, open, &ph, &warm);
        sourness(ui, state, open, &ph);
        warmth(ui, open, &warm);
        uprights(ui, state, open, [&ph, &warm]);
        if let Some(pointer) = response.hover_pos().filter(|p| ph.rect.x_range().contains(p.x)) {
            let h = ph.hours(pointer.x);
            for plot in [&ph, &warm] {
                ui.painter().vline(
                    pointer.x,
                    plot.rect.y_range(),
                    Stroke::new(tokens::HAIRLINE, tokens::of(ui).mark),
                );
            }
            response.on_hover_text_at_pointer(pointed(open, h));
        }
    });
}

/// The lowest pH that a curve comes to within the hours that are shown.
fn lowest(open: &OpenBatch, end_h: f64) -> Option<f64> {
    let told = open.ahead.as_ref().and_then(|told| told.ahead.at(Seen::Ph, end_h)).map(|edges| edges[0]);
    let frozen = open.frozen.as_ref().and_then(|frozen| {
        let at = frozen.t.partition_point(|t| *t <= end_h).checked_sub(1)?;
        frozen.ph.get(at).copied()
    });
    told.into_iter().chain(frozen).reduce(f64::min)
}

const fn ph_of(what: Observed) -> Option<f64> {
    match what {
        Observed::Ph(v) | Observed::Strip(v) => Some(v),
        _ => None,
    }
}

fn frames(ui: &Ui, open: &OpenBatch, ph: &Plot, warm: &Plot) {
    let t = tokens::of(ui);
    for plot in [ph, warm] {
        ui.painter().rect_filled(plot.rect, 0.0, t.sheet);
    }
    paint::grid_y(ui, ph, ticks(ph.y, 6.0, ""));
    paint::grid_y(ui, warm, ticks(warm.y, 4.0, units::WARMTH));
    let start = open.batch.start();
    let clock = |h: f64| start.map(|start| start.after_in(&open.batch.clock(), h).day_and_time());
    paint::axis(ui, warm, clock);
    for h in paint::marks(ph.x, paint::hour_step(ph.x.1 - ph.x.0, f64::from(ph.rect.width() / 78.0).max(2.0)))
    {
        ui.painter().vline(ph.x(h), ph.rect.y_range(), Stroke::new(tokens::HAIRLINE, t.rule));
    }
    let small = fonts::semibold(tokens::SMALL);
    let warmth = format!("Warmth ({})", units::scale(units::WARMTH).unit);
    let corner = |plot: &Plot| plot.rect.left_bottom() + vec2(6.0, -4.0);
    ui.painter().text(corner(ph), Align2::LEFT_BOTTOM, "Sourness (pH)", small.clone(), t.ph.label);
    ui.painter().text(corner(warm), Align2::LEFT_BOTTOM, warmth, small, t.temperature.label);
}

fn sourness(ui: &Ui, state: &State, open: &OpenBatch, plot: &Plot) {
    let t = tokens::of(ui);
    let painter = plot.inside(ui);
    if let Some(told) = &open.ahead {
        let (from, to) = told.ahead.range;
        let area = Rect::from_x_y_ranges(plot.x(from)..=plot.x(to), plot.rect.y_range());
        painter.rect_filled(area, 0.0, t.ready_fill);
        paint::hatch(&painter, area.intersect(plot.rect), t.ready_ink.gamma_multiply(0.35));
        // In the middle of what is seen of it, whole.
        let seen = area.intersect(plot.rect);
        if seen.width() > 0.0 {
            let words = fonts::semibold(tokens::SMALL);
            let text = painter.layout_no_wrap("ready in here".to_owned(), words, t.ready_ink);
            let left = seen.center().x - 0.5 * text.size().x;
            let left =
                left.clamp(plot.rect.left(), (plot.rect.right() - text.size().x).max(plot.rect.left()));
            painter.galley(pos2(left, plot.rect.top() + 32.0), text, t.ready_ink);
        }
    }
    if let Some(frozen) = &open.frozen {
        let path = plot.path(frozen.t.iter().copied().zip(frozen.ph.iter().copied()));
        painter.extend(Dash::DASHED.shapes(&path, Stroke::new(tokens::CURVE, t.ph.ghost())));
    }
    if let Some(told) = &open.ahead {
        ahead(&painter, plot, told, now_h(state, open).unwrap_or(told.now_h), t);
    }
    for (place, reading) in open.batch.readings.iter().enumerate() {
        let Some(ph) = ph_of(reading.what) else { continue };
        let sigma = open.sigmas.iter().find(|(of, _)| *of == place).map_or(0.0, |(_, sigma)| *sigma);
        let (low, high) = (plot.at(reading.at_h, ph - sigma), plot.at(reading.at_h, ph + sigma));
        painter.line_segment([low, high], Stroke::new(tokens::CURVE, t.ink_soft));
        mark(&painter, plot.at(reading.at_h, ph), matches!(reading.what, Observed::Strip(_)), t);
    }
}

/// A reading: round of a meter, square of a strip.
fn mark(painter: &egui::Painter, at: Pos2, strip: bool, t: &Tokens) {
    if strip {
        painter.rect_filled(Rect::from_center_size(at, vec2(8.0, 8.0)), 0.0, t.ink);
    } else {
        painter.circle_filled(at, 4.5, t.ink);
    }
}

/// The weighed pots from now on: where 9 in 10 of them are, where half are, and the middle one.
fn ahead(painter: &egui::Painter, plot: &Plot, told: &AheadTold, now_h: f64, t: &Tokens) {
    let Some(band) = told.ahead.bands.get(Seen::Ph as usize) else { return };
    let all = &told.ahead.t;
    // From the last time before now, so that the band begins at it.
    let from = all.partition_point(|h| *h <= now_h).saturating_sub(1);
    let cut = |edge: &[f64]| edge.get(from..).unwrap_or_default().to_vec();
    let times = all.get(from..).unwrap_or_default();
    let [low, quarter, middle, three, high] = std::array::from_fn(|k| cut(&band[k]));
    painter.add(paint::band(plot, times, &low, &high, t.ph.band()));
    painter.add(paint::band(plot, times, &quarter, &three, t.ph.band()));
    let path = plot.path(times.iter().copied().zip(middle.iter().copied()));
    painter.extend(t.ph.dash.shapes(&path, Stroke::new(tokens::CURVE_STRONG, t.ph.line)));
}

fn warmth(ui: &Ui, open: &OpenBatch, plot: &Plot) {
    let t = tokens::of(ui);
    let painter = plot.inside(ui);
    if let Some(frozen) = &open.frozen {
        let path = plot.path(frozen.t.iter().copied().zip(frozen.warmth.iter().copied()));
        painter.extend(Dash::DASHED.shapes(&path, Stroke::new(tokens::CURVE, t.temperature.ghost())));
    }
    let path = plot.path(open.course.iter().copied());
    painter.line(path, t.temperature.stroke());
    for reading in &open.batch.readings {
        if let Observed::Warmth(c) = reading.what {
            mark(&painter, plot.at(reading.at_h, c), false, t);
        }
    }
}

/// Now, and the stop.
fn uprights(ui: &Ui, state: &State, open: &OpenBatch, plots: [&Plot; 2]) {
    let t = tokens::of(ui);
    let stop = stop_of(&open.batch);
    let words = if open.batch.stopped_h.is_some() { "stopped" } else { "stop as planned" };
    for (place, plot) in plots.into_iter().enumerate() {
        let say = |words: &'static str| if place == 0 { words } else { "" };
        paint::upright(ui, plot, stop, say(words), t.stop_line, 0);
        if let Some(now) = now_h(state, open) {
            paint::upright(ui, plot, now, say("now"), t.accent, 1);
        }
    }
}

/// What stands at an hour, in words.
fn pointed(open: &OpenBatch, h: f64) -> String {
    let clock = open.batch.moment(h).map_or_else(String::new, |m: Moment| format!(", {}", m.day_and_time()));
    let mut lines = vec![format!("{} after the culture went in{clock}", potset_base::number::hours(h))];
    let ahead = open.ahead.as_ref().and_then(|told| told.ahead.at(Seen::Ph, h));
    if let Some([low, _, middle, _, high]) = ahead {
        lines.push(format!(
            "By the readings: pH {} ({} to {})",
            fixed(middle, 1),
            fixed(low, 1),
            fixed(high, 1)
        ));
    }
    if let Some(frozen) = &open.frozen {
        let at = frozen.t.partition_point(|t| *t < h).min(frozen.t.len().saturating_sub(1));
        if let (Some(ph), Some(c)) = (frozen.ph.get(at), frozen.warmth.get(at)) {
            lines.push(format!("Before any reading: pH {}, {}", fixed(*ph, 1), say::logged(*c)));
        }
    }
    let logged = open.course.partition_point(|(t, _)| *t < h);
    if let Some((_, c)) = open.course.get(logged) {
        lines.push(format!("Logger: {}", say::logged(*c)));
    }
    lines.join("\n")
}

/// The chart in a sentence.
fn sentence(state: &State, open: &OpenBatch) -> String {
    let count = open.batch.readings.iter().filter(|r| ph_of(r.what).is_some()).count();
    let mut words = format!("pH by time with {count} readings");
    if let Some(told) = &open.ahead {
        let now = now_h(state, open).and_then(|h| say::now(&told.ahead, h));
        words.extend(now.map(|now| format!(". {now}")));
        words.push_str(". ");
        words.push_str(&say::ready_ahead(&told.ahead, open.batch.start()));
    }
    if !open.course.is_empty() {
        words.push_str(". The logger's warmth below");
    }
    words
}
