//! One strip: its title row with the reading, and its curves with their direct labels.

use egui::accesskit::Role;
use egui::{Pos2, Rect, Sense, Shape, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2};
use egui_plot::{FilledArea, Line, Plot, PlotPoint, PlotPoints, PlotUi};

use crate::direct;
use crate::direct::Labels;
use crate::frame::{Frame, Scene};
use crate::ghosts;
use crate::kinds::Kind;
use crate::layout;
use crate::layout::Stands;
use crate::paint;
use crate::paint::Texts;
use crate::shown::{SheetAction, Shown};
use crate::thin;
use crate::traces::{StripTraces, Trace};
use crate::words;
use potset_base::units;
use potset_base::words::WORD_BOUNDS;
use potset_doc::settings::Depth;
use potset_report::glossary;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens;
use potset_ui_kit::tokens::Tokens;

/// Draws a strip into `rect`; the caller gives the width to `scene.time`.
pub fn show(
    ui: &mut Ui,
    rect: Rect,
    kind: Kind,
    scene: &Scene<'_>,
    (now, ghost): (&StripTraces, Option<&StripTraces>),
    labels: &mut Labels,
    texts: &mut Texts,
) -> Option<SheetAction> {
    let folded = scene.shown.stands(kind) == Stands::Folded;
    if !folded {
        let shared = scene.shown.shared.map(|shared| shared.bounds.0[kind.index()]);
        let frame = Frame::new(kind, layout::plot_of(rect, &scene.time), scene.time, (now, ghost), shared);
        backdrop(ui, &frame, scene);
        curves(ui, &frame, scene);
        if let Some(look) = now.traces.first().map(|trace| trace.look.of(scene.t)) {
            dots(ui, &frame, scene.shown, look.line, scene.t);
        }
        thin::name(ui, &frame, scene.t, texts);
        direct::show(ui, &frame, scene, labels, texts);
        let plot = ui.interact(frame.plot, scene.id.with((kind.key(), "plot")), Sense::hover());
        let shown = scene.shown;
        plot.widget_info(|| {
            let mut sentence = words::sentence(kind, shown.forecast, shown.verdict, shown.stop_h);
            if let Some(most) = shown.spread.and_then(|s| words::most(kind, s, shown.stop_h)) {
                let before = if shown.spread_outdated { "as it was, " } else { "" };
                sentence.push_str(&format!("; {before}at the stop line {most}"));
            }
            WidgetInfo::labeled(Role::Image, ui.is_enabled(), sentence)
        });
    }
    title(ui, rect, kind, folded, scene, texts)
}

/// The row above the curves without the reading: fold triangle, name, unit. Gives the fold button, and the room that is
/// left for readings.
pub fn head(
    ui: &Ui,
    rect: Rect,
    kind: Kind,
    folded: bool,
    scene: &Scene<'_>,
    texts: &mut Texts,
) -> (egui::Response, Rect) {
    let t = scene.t;
    let row = rect.with_max_y(rect.top() + layout::TITLE);
    let base = pos2(scene.time.left, row.center().y);
    let name = paint::left(ui, base, kind.name(), fonts::semibold(tokens::BODY), t.ink);
    let unit_at = pos2(name.right() + 6.0, base.y + 0.5);
    let unit = units::scale(kind.unit(scene.shown.depth)).unit;
    let unit = paint::left(ui, unit_at, unit, fonts::regular(tokens::SMALL), t.ink_soft);
    texts.push(ui, name.union(unit));

    let press = Rect::from_min_max(
        pos2(rect.left() + 4.0, row.top() - 1.0),
        pos2(name.right() + 3.0, row.bottom() + 1.0),
    );
    let id = scene.id.with((kind.key(), "fold"));
    let button = ui.interact(press, id, Sense::click());
    let verb = if folded { "Unfold" } else { "Fold" };
    button.widget_info(|| {
        WidgetInfo::labeled(Role::Button, ui.is_enabled(), format!("{verb} {}", kind.name()))
    });
    ui.ctx().accesskit_node_builder(id, |node| node.set_expanded(!folded));
    let button = match glossary::meaning(&kind.name().to_lowercase()) {
        Some(meaning) => button.on_hover_text(units::prose::prose(meaning)),
        None => button,
    };
    triangle(
        ui,
        pos2(scene.time.left - 11.0, row.center().y),
        folded,
        if button.hovered() { t.accent } else { t.mark },
    );
    if button.has_focus() {
        paint::ring(ui, press.with_min_x(scene.time.left - 20.0), t);
    }

    let room = Rect::from_min_max(pos2(unit.right() + 12.0, row.top()), pos2(scene.time.right, row.bottom()));
    (button, room)
}

/// The row above the curves: fold triangle, name, unit, reading.
fn title(
    ui: &Ui,
    rect: Rect,
    kind: Kind,
    folded: bool,
    scene: &Scene<'_>,
    texts: &mut Texts,
) -> Option<SheetAction> {
    let t = scene.t;
    let (button, room) = head(ui, rect, kind, folded, scene, texts);
    let shown = scene.shown;
    let mut forms = words::reading(kind, shown.forecast, scene.read_h, shown.depth);
    // Plain words have no bounds beside them: the band shows them.
    let spread = shown.spread.filter(|_| scene.read && shown.depth == Depth::Details);
    if let Some(banded) = spread.and_then(|s| words::banded(&forms, kind, s, scene.read_h)) {
        forms = banded;
    }
    let whole = forms.first().cloned().unwrap_or_default();
    let place = paint::right_first_that_fits(ui, room, &forms, fonts::regular(tokens::SMALL + 1.0), t.ink);
    texts.push(ui, place);
    let reading = ui.interact(place, scene.id.with((kind.key(), "reading")), Sense::click());
    let read_h = scene.read_h;
    reading.widget_info(|| {
        let text =
            format!("{} at {}: {whole}", kind.name(), words::stop_hours((read_h * 100.0).round() / 100.0));
        WidgetInfo::labeled(Role::Button, ui.is_enabled(), text)
    });
    if reading.has_focus() {
        paint::ring(ui, place, t);
    }
    let followed = reading.hovered() || reading.has_focus() || reading.clicked();
    let follow = || followed.then_some(SheetAction::Follow(reading.id, kind.reading(), read_h));
    button.clicked().then_some(SheetAction::Fold(kind.key())).or_else(follow)
}

fn triangle(ui: &Ui, at: Pos2, folded: bool, color: egui::Color32) {
    let corners = if folded {
        [vec2(-2.5, -4.0), vec2(3.0, 0.0), vec2(-2.5, 4.0)]
    } else {
        [vec2(-4.0, -2.5), vec2(4.0, -2.5), vec2(0.0, 3.0)]
    };
    ui.painter().add(Shape::convex_polygon(corners.map(|c| at + c).to_vec(), color, Stroke::NONE));
}

/// Grid, y axis, and the lines that are there before any curve.
pub fn backdrop(ui: &Ui, frame: &Frame<'_>, scene: &Scene<'_>) {
    let (t, plot) = (scene.t, frame.plot);
    let painter = ui.painter();
    let rule = Stroke::new(tokens::HAIRLINE, t.rule);
    for hours in scene.time.ticks() {
        painter.vline(scene.time.x(hours), plot.y_range(), rule);
    }
    painter.hline(plot.x_range(), plot.bottom(), rule);
    for at in frame.kind.ticks(frame.range, plot.height()) {
        let y = frame.y(at);
        let across = if frame.kind.logarithmic() {
            plot.left() - 3.0..=plot.left()
        } else {
            plot.left()..=plot.right()
        };
        painter.hline(across, y, rule);
        // In words there: they stand in the place of the numbers.
        if frame.kind == Kind::Texture && scene.shown.depth == Depth::Plain {
            continue;
        }
        let inside = paint::held(y, plot.top() + 4.0, plot.bottom() - 3.0);
        let text = frame.kind.tick_text(at);
        let place = pos2(plot.left() - 6.0, inside);
        paint::right(ui, place, &text, fonts::regular(tokens::SMALL), t.ink_soft);
    }
    if frame.kind == Kind::Sourness {
        let y = frame.y(scene.sour.ph());
        let stroke = Stroke::new(tokens::HAIRLINE, t.warn);
        painter.extend(tokens::Dash::DASHED.shapes(&[pos2(plot.left(), y), pos2(plot.right(), y)], stroke));
    }
    if frame.kind == Kind::Texture {
        for bound in WORD_BOUNDS {
            let stroke = Stroke::new(tokens::HAIRLINE, t.rail);
            painter.hline(plot.x_range(), frame.y(bound.log10()), stroke);
        }
    }
}

/// Bands, ghosts and curves. The toolkit's plot draws what is solid; patterned curves are painted over it with our own
/// dashes, which it does not have.
fn curves(ui: &mut Ui, frame: &Frame<'_>, scene: &Scene<'_>) {
    let t = scene.t;
    let builder = UiBuilder::new().max_rect(frame.plot).id_salt(("curves", frame.kind.key()));
    let mut place = ui.new_child(builder);
    let (from, to) = frame.range;
    let horizon_h = frame.time.horizon_h;
    Plot::new(frame.kind.key())
        .width(frame.plot.width())
        .height(frame.plot.height())
        .show_axes(false)
        .show_grid(false)
        .show_background(false)
        .show_x(false)
        .show_y(false)
        .sense(Sense::hover())
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .set_margin_fraction(egui::Vec2::ZERO)
        .show(&mut place, |plot| {
            plot.set_plot_bounds_x(0.0..=horizon_h);
            plot.set_plot_bounds_y(from..=to);
            thin::layer(plot, frame, t);
            area(plot, frame, t);
            for (i, trace) in frame.ghost.iter().flat_map(|g| &g.traces).enumerate() {
                if trace.look.drawn_as_earlier() {
                    solid(
                        plot,
                        trace,
                        // Those that are told apart by a number can be followed.
                        Stroke::new(
                            if scene.shown.numbered { tokens::CURVE } else { tokens::HAIRLINE },
                            trace.look.of(t).ghost(),
                        ),
                        ("before", i),
                    );
                }
            }
            for (i, trace) in frame.now.traces.iter().enumerate().rev() {
                if trace.look.of(t).dash == tokens::Dash::SOLID {
                    solid(plot, trace, stroke(trace, t), ("now", i));
                }
            }
        });
    let clip = frame.plot.expand2(vec2(0.0, 2.0)).intersect(ui.clip_rect());
    let painter = ui.painter().with_clip_rect(clip);
    if let Some(level) = &frame.now.level {
        let y = frame.y(f64::from(level.at));
        let path = [pos2(frame.plot.left(), y), pos2(frame.plot.right(), y)];
        painter.extend(tokens::Dash::SPARSE.shapes(&path, Stroke::new(tokens::HAIRLINE, t.mark)));
    }
    for trace in frame.now.traces.iter().rev() {
        let dash = trace.look.of(t).dash;
        if dash != tokens::Dash::SOLID {
            for run in &trace.runs {
                painter.extend(dash.shapes(&frame.path(run), stroke(trace, t)));
            }
        }
    }
    ghosts::numbers(ui, frame, t);
}

/// What was measured: rings in the colour of the leading curve.
pub fn dots(ui: &Ui, frame: &Frame<'_>, shown: &Shown<'_>, color: egui::Color32, t: &Tokens) {
    for dot in shown.dots.iter().filter(|dot| dot.strip == frame.kind) {
        let at = pos2(frame.time.x(dot.t_h), frame.y(dot.value));
        if frame.plot.expand(2.0).contains(at) {
            ui.painter().circle(at, 3.5, t.sheet, Stroke::new(tokens::CURVE, color));
        }
    }
}

/// The band around the leading curve, or the area under all sugar.
fn area(plot: &mut PlotUi<'_>, frame: &Frame<'_>, t: &Tokens) {
    let leads = |trace: &&Trace| trace.look.leads() || !frame.now.band.is_empty();
    let Some(trace) = frame.now.traces.first().filter(leads) else { return };
    let curve = trace.look.of(t);
    let column = |points: &[[f32; 3]], k: usize| points.iter().map(|p| f64::from(p[k])).collect::<Vec<_>>();
    let band = &frame.now.band;
    if !band.is_empty() {
        let (xs, low, high) = (column(band, 0), column(band, 1), column(band, 2));
        plot.add(FilledArea::new("band", &xs, &low, &high).fill_color(curve.band()).allow_hover(false));
        let inner = &frame.now.inner;
        if !inner.is_empty() {
            let (xs, low, high) = (column(inner, 0), column(inner, 1), column(inner, 2));
            let half = FilledArea::new("half", &xs, &low, &high).fill_color(curve.band());
            plot.add(half.allow_hover(false).id("half"));
        }
    } else if frame.kind == Kind::Sugar {
        for (i, run) in trace.runs.iter().enumerate() {
            let xs: Vec<f64> = run.iter().map(|p| f64::from(p[0])).collect();
            let ys: Vec<f64> = run.iter().map(|p| f64::from(p[1])).collect();
            let floor = vec![frame.range.0; xs.len()];
            let area = FilledArea::new("area", &xs, &floor, &ys).fill_color(curve.area());
            plot.add(area.allow_hover(false).id(("area", i)));
        }
    }
}

fn solid(plot: &mut PlotUi<'_>, trace: &Trace, stroke: Stroke, id: (&str, usize)) {
    for (i, run) in trace.runs.iter().enumerate() {
        let points = run.iter().map(|[x, y]| PlotPoint::new(f64::from(*x), f64::from(*y))).collect();
        let line = Line::new("", PlotPoints::Owned(points)).color(stroke.color).width(stroke.width);
        plot.line(line.allow_hover(false).allow_band(false).id((id, i)));
    }
}

fn stroke(trace: &Trace, t: &Tokens) -> Stroke {
    let width = if trace.look.leads() { tokens::CURVE_STRONG } else { tokens::CURVE };
    Stroke::new(width, trace.look.of(t).line)
}
