//! Several forecasts laid over each other: one colour a quantity, the design by dash, marker and direct label.

use egui::accesskit::Role;
use egui::{Pos2, Rect, Sense, Stroke, Ui, Vec2, WidgetInfo, pos2, vec2};

use super::direct;
use super::frame::{Frame, Scene};
use super::kinds::{COUNT, Kind};
use super::labels::{self, Course, Wish};
use super::layout::{self, Places, Stands, Time};
use super::paint::{self, Texts};
use super::shown::{SheetAction, Shown, SourLine};
use super::strip;
use super::traces::{self, CurveStyle, StripTraces, Trace, short};
use super::{axis, stop, words};
use crate::copy;
use potset_compare::beside::mark;
use potset_science::forecast::Forecast;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens;
use potset_ui_kit::tokens::{Dash, Tokens};
use potset_ui_kit::widgets::marker;

/// Longest name beside a curve, characters.
const LONGEST: usize = 22;

/// One forecast among others.
pub struct Layer<'a> {
    pub shown: Shown<'a>,
    pub name: &'a str,
    /// Its place among the designs: dash and marker.
    pub place: usize,
}

/// What the eye needs between frames.
#[derive(Default)]
pub struct OverState {
    known: Option<(u64, f32, f32)>,
    curves: Vec<[Trace; COUNT]>,
    /// From the top left of each strip's curves, by layer.
    labels: [Vec<Rect>; COUNT],
    drag: Option<stop::Drag>,
    nudged: bool,
}

/// Draws the layers over all the room of `ui`. The first one's `fixed` says whether one stop line is dragged for all.
pub fn show(ui: &mut Ui, state: &mut OverState, layers: &[Layer<'_>]) -> Vec<SheetAction> {
    let Some(first) = layers.first() else { return Vec::new() };
    let whole = super::room(ui);
    let t = tokens::of(ui);
    ui.painter().rect_filled(whole, 0, t.sheet);
    let shown = &first.shown;
    let id = ui.scope_id().with("laid over");
    let sheet = ui.interact(whole, id, Sense::hover());
    let horizon_h = state.drag.map_or(shown.horizon_h(), |drag| drag.horizon_h);
    let places = Places::new(whole, Kind::ALL.map(|kind| shown.stands(kind)), false);
    let time = places.time(horizon_h);
    let line = (!shown.fixed).then(|| stop::line(ui, id, &places, &time, shown));
    let pill_rect =
        if shown.fixed { Rect::NOTHING } else { stop::pill_rect(ui, &places, &time, shown.stop_h) };
    let held = state.drag.is_some() || line.as_ref().is_some_and(|line| line.hovered() || line.dragged());
    let cursor = super::cursor(ui, &sheet, &places, &time)
        .filter(|at| !held && !pill_rect.contains(*at))
        .map(|at| time.hours(at.x));
    let scene = Scene {
        shown,
        t,
        time,
        read_h: cursor.unwrap_or(shown.stop_h),
        read: false,
        window: shown.window(),
        sour: if layers.iter().all(|l| l.shown.sour_line() == shown.sour_line()) {
            shown.sour_line()
        } else {
            SourLine::AcidFood
        },
        id,
    };
    state.remember(layers, whole.size());

    let mut texts = Texts::default();
    let mut actions = Vec::new();
    windows(ui, &places, &time, layers, t);
    actions.extend(super::strips(ui, &places, |ui, kind, rect| {
        if shown.stands(kind) == Stands::Away {
            return None;
        }
        strip(ui, rect, kind, state, &scene, layers, cursor, &mut texts)
    }));
    if let Some(hours) = cursor {
        let stroke = Stroke::new(tokens::HAIRLINE, t.ink_soft);
        texts.vline(ui, time.x(hours), places.body.top(), places.body.bottom(), stroke);
    }
    stops(ui, &places, &time, layers, &texts, t);
    axis::show(ui, &places, &scene, pill_rect, cursor.is_some());
    if let Some(line) = line {
        let pill = stop::pill(ui, id, pill_rect, shown, t);
        if line.drag_started() || pill.drag_started() {
            pill.request_focus();
        }
        actions.extend(stop::dragged(ui, &mut state.drag, [&line, &pill], &time, shown.stop_h));
        if state.drag.is_none() {
            actions.extend(stop::keyed(ui, &pill, &mut state.nudged, shown));
        }
    }
    // The ready windows have the place that it has on one sheet.
    let foot =
        Rect::from_center_size(pos2(whole.left() + 18.0, places.axis.center().y), vec2(24.0, tokens::PRESS));
    actions.extend(copy(ui, &sheet, foot, &scene));
    actions
}

impl OverState {
    /// Keeps the curves of the forecasts shown.
    fn remember(&mut self, layers: &[Layer<'_>], size: Vec2) {
        let revision = layers.first().map_or(0, |l| l.shown.revision);
        let known = (revision, size.x, size.y);
        if self.known != Some(known) || self.curves.len() != layers.len() {
            self.known = Some(known);
            self.curves =
                layers.iter().map(|l| Kind::ALL.map(|kind| leading(kind, l.shown.forecast))).collect();
            self.labels = std::array::from_fn(|_| Vec::new());
        }
    }
}

/// The curve that a strip is about. Of several organisms it is all living cells.
fn leading(kind: Kind, f: &Forecast) -> Trace {
    let (look, ys): (CurveStyle, Vec<f64>) = match kind {
        Kind::Sourness => (CurveStyle::Ph, f.ph.clone()),
        Kind::Acid => (CurveStyle::Acid, f.acid_made.clone()),
        Kind::Sugar => (CurveStyle::AllSugar, f.sugar_total.iter().map(|g| g * f.density).collect()),
        Kind::Texture => (CurveStyle::Chilled, f.chilled.viscosity50.iter().map(|v| v.log10()).collect()),
        Kind::Culture => {
            let all = |i: usize| f.species.iter().map(|s| 10_f64.powf(s.log10[i])).sum::<f64>().log10();
            (CurveStyle::Culture(0), (0..f.t.len()).map(all).collect())
        }
        Kind::Warmth => (CurveStyle::Warmth, f.temperature.clone()),
    };
    let (low, high) = traces::bounds([&ys[..]]);
    Trace::new(look, &f.t, &ys, kind.range(low, high))
}

/// Ready windows under each other, above the curves.
fn windows(ui: &Ui, places: &Places, time: &Time, layers: &[Layer<'_>], t: &Tokens) {
    let head = places.header;
    let text = pos2(time.left - 6.0, head.center().y);
    paint::right(ui, text, "ready", fonts::regular(tokens::SMALL), t.ink_soft);
    let row = ((head.height() - 2.0) / layers.len().max(1) as f32).min(8.0);
    for (i, layer) in layers.iter().enumerate() {
        let y = head.top() + 1.0 + row * (i as f32 + 0.5);
        let Some(ready) = layer.shown.ready else { continue };
        let Some(window) = layer.shown.window() else { continue };
        let end = if window.closes.is_none() { layer.shown.forecast.horizon_h } else { window.to_h };
        let bar = Rect::from_x_y_ranges(
            time.x(window.from_h)..=time.x(end.min(time.horizon_h)),
            y - row * 0.32..=y + row * 0.32,
        );
        ui.painter().rect_filled(bar, 1, t.ready_card);
        ui.painter().rect_stroke(bar, 1, Stroke::new(0.8, t.ready_ink_soft), egui::StrokeKind::Inside);
        marker::paint(ui.painter(), bar.left_center(), mark::marker(layer.place), 3.2, t.ready_ink);
        let words = format!("{}: {}", layer.name, words::ready(ready, false));
        let id = ui.scope_id().with(("ready", i));
        let response = ui.interact(bar.expand2(vec2(4.0, 1.0)), id, Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &words));
        response.on_hover_text(words);
    }
}

/// Each design's own stop line, with its marker at the foot; the common one is drawn strong.
fn stops(ui: &Ui, places: &Places, time: &Time, layers: &[Layer<'_>], texts: &Texts, t: &Tokens) {
    let common = layers.first().is_some_and(|l| !l.shown.fixed);
    for layer in layers.iter().take(if common { 1 } else { layers.len() }) {
        let x = time.x(layer.shown.stop_h.clamp(0.0, time.horizon_h));
        let width = if common { tokens::CURVE } else { tokens::HAIRLINE };
        texts.vline(ui, x, places.header.bottom(), places.body.bottom(), Stroke::new(width, t.stop_line));
        if !common {
            let foot = pos2(x, places.body.bottom() + 3.0);
            marker::paint(ui.painter(), foot, mark::marker(layer.place), 4.0, t.stop_line);
            let words = format!("{}: stop after {}", layer.name, words::stop_hours(layer.shown.stop_h));
            let place = Rect::from_center_size(foot, vec2(12.0, 12.0));
            let response = ui.interact(place, ui.scope_id().with(("stop", layer.place)), Sense::hover());
            response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &words));
            response.on_hover_text(words);
        }
    }
}

#[expect(clippy::too_many_arguments, reason = "what one strip of a frame needs")]
fn strip(
    ui: &mut Ui,
    rect: Rect,
    kind: Kind,
    state: &mut OverState,
    scene: &Scene<'_>,
    layers: &[Layer<'_>],
    cursor: Option<f64>,
    texts: &mut Texts,
) -> Option<SheetAction> {
    let (t, index) = (scene.t, kind.index());
    let folded = scene.shown.stands(kind) == Stands::Folded;
    if !folded {
        let plot = layout::plot_of(rect, &scene.time);
        let nothing = StripTraces { low: f64::NAN, high: f64::NAN, ..StripTraces::default() };
        let bounds = scene.shown.shared.map(|shared| shared.bounds.0[index]);
        let frame = Frame::new(kind, plot, scene.time, (&nothing, None), bounds);
        strip::backdrop(ui, &frame, scene);
        let clip = plot.expand2(vec2(0.0, 2.0)).intersect(ui.clip_rect());
        let painter = ui.painter().with_clip_rect(clip);
        for (layer, curves) in layers.iter().zip(&state.curves) {
            let trace = &curves[index];
            let color = trace.look.of(t).line;
            for run in &trace.runs {
                let path = frame.path(run);
                let stroke = Stroke::new(tokens::CURVE, color);
                painter.extend(Dash(mark::dash(layer.place)).shapes(&path, stroke));
            }
            for at in marks(&frame, trace, layer.place) {
                marker::paint(&painter, at, mark::marker(layer.place), 3.4, color);
            }
            strip::dots(ui, &frame, &layer.shown, trace.look.of(t).line, t);
        }
        for (words, rect) in direct::fixed(ui, &frame, scene) {
            let place = rect.translate(plot.min.to_vec2());
            let color = if kind == Kind::Sourness { t.warn } else { t.ink_soft };
            let font = direct::fixed_font(kind);
            texts.push(ui, paint::plated(ui, place.left_center(), &words, font, color, Some(t.sheet)));
        }
        names(ui, &frame, layers, state, scene, texts);
        let response = ui.interact(plot, scene.id.with((kind.key(), "plot")), Sense::hover());
        response.widget_info(|| {
            let sentences: Vec<String> = layers
                .iter()
                .map(|l| {
                    let words = words::sentence(kind, l.shown.forecast, l.shown.verdict, l.shown.stop_h);
                    format!("{}: {words}", l.name)
                })
                .collect();
            WidgetInfo::labeled(Role::Image, ui.is_enabled(), sentences.join(" "))
        });
    }
    let (press, room) = strip::head(ui, rect, kind, folded, scene, texts);
    readings(ui, room, kind, scene, layers, cursor, texts);
    press.clicked().then_some(SheetAction::Fold(kind.key()))
}

/// Where a curve has its markers: a few along it, each design's a little apart.
fn marks(frame: &Frame<'_>, trace: &Trace, place: usize) -> Vec<Pos2> {
    (0..5_u8)
        .filter_map(|k| {
            let share = (f64::from(k) + 0.22 + 0.16 * place as f64) / 5.0;
            let hours = share * frame.time.horizon_h;
            let value = trace.at(short(hours))?;
            Some(pos2(frame.time.x(hours), frame.y(f64::from(value))))
        })
        .collect()
}

/// Names beside the curves.
fn names(
    ui: &Ui,
    frame: &Frame<'_>,
    layers: &[Layer<'_>],
    state: &mut OverState,
    scene: &Scene<'_>,
    texts: &mut Texts,
) {
    let (plot, index) = (frame.plot, frame.kind.index());
    let font = fonts::semibold(tokens::SMALL);
    let shortened: Vec<String> = layers.iter().map(|l| short_name(l.name)).collect();
    if state.labels[index].len() != layers.len() {
        let horizon = short(frame.time.horizon_h);
        let local = |value: f32| frame.y(f64::from(value)) - plot.top();
        let courses: Vec<Course> = state
            .curves
            .iter()
            .map(|curves| Course::new(|share| curves[index].at(share * horizon).map(local)))
            .collect();
        let taken: Vec<Rect> = direct::fixed(ui, frame, scene).into_iter().map(|(_, rect)| rect).collect();
        let wishes: Vec<Wish> = shortened
            .iter()
            .enumerate()
            .map(|(curve, name)| Wish {
                size: paint::size(ui, name, font.clone()),
                curve,
                left: false,
                habit: None,
            })
            .collect();
        state.labels[index] =
            labels::place(plot.size(), &wishes, &courses, &taken).into_iter().map(|(rect, _)| rect).collect();
    }
    for (i, ((curves, name), rect)) in
        state.curves.iter().zip(&shortened).zip(&state.labels[index]).enumerate()
    {
        // Where curves lie on each other there is no room for every name: the marker and the head tell the rest.
        if state.labels[index][..i].iter().any(|other| other.shrink(2.0).intersects(*rect)) {
            continue;
        }
        let place = rect.translate(plot.min.to_vec2());
        let color = curves[index].look.of(scene.t).label;
        texts
            .push(ui, paint::plated(ui, place.left_center(), name, font.clone(), color, Some(scene.t.sheet)));
    }
}

/// A name that has room beside a curve.
pub fn short_name(name: &str) -> String {
    if name.chars().count() <= LONGEST {
        return name.to_owned();
    }
    let cut: String = name.chars().take(LONGEST - 1).collect();
    format!("{}…", cut.trim_end())
}

/// What each design has at the cursor, or at its own stop line, behind its marker; at the right end of the title row.
fn readings(
    ui: &Ui,
    room: Rect,
    kind: Kind,
    scene: &Scene<'_>,
    layers: &[Layer<'_>],
    cursor: Option<f64>,
    texts: &mut Texts,
) {
    let font = fonts::regular(tokens::SMALL + 1.0);
    let mut right = room.right();
    for layer in layers.iter().rev() {
        let f = layer.shown.forecast;
        let at_h = cursor.unwrap_or(layer.shown.stop_h).min(f.horizon_h);
        let text = value(kind, f, at_h);
        let width = paint::size(ui, &text, font.clone()).x;
        if right - width - 14.0 < room.left() {
            break;
        }
        let place = paint::right(ui, pos2(right, room.center().y), &text, font.clone(), scene.t.ink);
        let dot = pos2(place.left() - 7.0, room.center().y);
        marker::paint(ui.painter(), dot, mark::marker(layer.place), 3.4, scene.t.ink_soft);
        texts.push(ui, place.union(Rect::from_center_size(dot, vec2(8.0, 8.0))));
        right = dot.x - 12.0;
    }
}

fn value(kind: Kind, f: &Forecast, t_h: f64) -> String {
    use potset_base::number::{figures, fixed};
    let at = |ys: &[f64]| f.value(ys, t_h);
    match kind {
        Kind::Sourness => fixed(at(&f.ph), 2),
        Kind::Acid => fixed(at(&f.acid_made), 2),
        Kind::Sugar => fixed(at(&f.sugar_total) * f.density, 1),
        Kind::Texture => figures(at(&f.chilled.viscosity50), 2),
        Kind::Culture => {
            let all: f64 = f.species.iter().map(|s| 10_f64.powf(at(&s.log10))).sum();
            if all > 0.0 { fixed(all.log10(), 1) } else { "–".to_owned() }
        }
        Kind::Warmth => words::bare_warmth(at(&f.temperature)),
    }
}
