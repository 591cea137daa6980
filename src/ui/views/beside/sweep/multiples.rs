//! Small curves over one lever: every outcome under the same axis, with lines where a word or a goal changes.

use egui::accesskit::Role;
use egui::{Align2, Pos2, Rect, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use super::SweepState;
use crate::views::beside::count;
use potset_app::command::SweepCommand;
use potset_app::sweeps::Swept;
use potset_app::{Command, State};
use potset_base::number;
use potset_forecast::observable::Observable;
use potset_search::sweep::Sweep;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens;
use potset_ui_kit::tokens::{Dash, Tokens};

const LEFT: f32 = 50.0;
const TITLE: f32 = 20.0;
const BELOW: f32 = 18.0;
const GAP: f32 = 14.0;

/// Draws the curves; the point under the pointer.
pub fn show(
    ui: &mut Ui,
    view: &mut SweepState,
    state: &State,
    swept: &Swept,
    out: &mut Vec<Command>,
) -> Option<(usize, usize)> {
    let t = tokens::of(ui);
    let sweep = &swept.sweep;
    let shown: Vec<Observable> =
        Observable::SWEPT.into_iter().filter(|o| sweep.range(*o).is_some()).collect();
    let room = ui.available_rect_before_wrap();
    let across = if room.width() >= 620.0 { 2 } else { 1 };
    let rows = shown.len().div_ceil(across).max(1);
    let size = vec2(
        (room.width() - GAP * count(across - 1)) / count(across),
        ((room.height() - BELOW) / count(rows)).max(70.0),
    );
    let here = sweep.nearest(&state.scenario());
    let response = ui.interact(room, ui.scope_id().with("multiples"), Sense::click());
    let places: Vec<(Observable, Rect)> = shown
        .iter()
        .enumerate()
        .map(|(i, outcome)| {
            let at = vec2((size.x + GAP) * count(i % across), size.y * count(i / across));
            (*outcome, Rect::from_min_size(room.min + at, size - vec2(0.0, 6.0)))
        })
        .collect();
    let plot_of = |rect: Rect| {
        Rect::from_min_max(rect.min + vec2(LEFT, TITLE), pos2(rect.right() - 4.0, rect.bottom() - BELOW))
    };
    let n = sweep.ask.size().0;
    let hovered = response.hover_pos().and_then(|at| {
        let (_, rect) = places.iter().find(|(_, rect)| rect.contains(at))?;
        let plot = plot_of(*rect);
        // Between two plots there is no value to take.
        if !plot.expand2(vec2(6.0, TITLE)).contains(at) {
            return None;
        }
        let share = ((at.x - plot.left()) / plot.width()).clamp(0.0, 1.0);
        let ix = (share * count(n - 1)).round() as usize;
        Some((ix, 0))
    });
    let read = hovered.or(view.mark.filter(|_| response.has_focus()));
    for (outcome, rect) in &places {
        let levels = swept.levels.iter().filter(|(of, _)| of == outcome).flat_map(|(_, all)| all);
        let levels: Vec<(f64, &str)> = levels.map(|(v, words)| (*v, words.as_str())).collect();
        let plot = Plot { sweep, outcome: *outcome, rect: plot_of(*rect), t };
        plot.show(ui, state, *rect, &levels, (here, read));
    }
    if response.has_focus() {
        let stroke = Stroke::new(tokens::FOCUS, t.accent);
        ui.painter().rect_stroke(room, 2, stroke, egui::StrokeKind::Outside);
    }
    response.widget_info(|| {
        let words: Vec<String> = shown
            .iter()
            .filter_map(|o| {
                let (a, b) = (sweep.value(0, 0, *o)?, sweep.value(n - 1, 0, *o)?);
                let (a, b) = (super::words(state, *o, a), super::words(state, *o, b));
                Some(format!("{} from {a} to {b}", o.name()))
            })
            .collect();
        let axis = &sweep.ask.x;
        let (from, to) = axis.span();
        let lever = axis.lever();
        let span = format!("{} from {} to {}", lever.name, lever.words(from), lever.words(to));
        WidgetInfo::labeled(Role::Image, true, format!("Curves over {span}: {}.", words.join("; ")))
    });
    super::keys(ui, &response, view, (sweep, here), out);
    if response.clicked_by(egui::PointerButton::Primary) {
        response.request_focus();
        view.mark = None;
        if let Some((ix, iy)) = hovered {
            out.push(SweepCommand::Take(ix, iy).into());
        }
    }
    hovered
}

/// A point of the sweep, if there is one.
type Place = Option<(usize, usize)>;

/// One small curve.
struct Plot<'a> {
    sweep: &'a Sweep,
    outcome: Observable,
    rect: Rect,
    t: &'static Tokens,
}

impl Plot<'_> {
    fn show(
        &self,
        ui: &Ui,
        state: &State,
        whole: Rect,
        levels: &[(f64, &str)],
        (here, read): (Place, Place),
    ) {
        let Some((low, high)) = self.sweep.range(self.outcome) else { return };
        let (t, plot, o) = (self.t, self.rect, self.outcome);
        let painter = ui.painter();
        let small = fonts::regular(tokens::SMALL);
        let title = painter.text(
            pos2(plot.left(), whole.top()),
            Align2::LEFT_TOP,
            o.name(),
            fonts::semibold(tokens::BODY),
            t.ink,
        );
        let unit = pos2(title.right() + 6.0, title.center().y);
        painter.text(unit, Align2::LEFT_CENTER, o.unit(), small.clone(), t.ink_soft);
        // Levels near the curve belong into the picture; those far away would flatten it.
        let (mut from, mut to) = (o.scaled(low), o.scaled(high));
        let room = (to - from).max(0.02 * to.abs()).max(1e-6);
        for (level, _) in levels {
            let at = o.scaled(*level);
            if at > from - 0.6 * room && at < to + 0.6 * room {
                (from, to) = (from.min(at), to.max(at));
            }
        }
        let pad = 0.08 * (to - from).max(0.02 * to.abs()).max(1e-6);
        let (from, to) = (from - pad, to + pad);
        let y = |v: f64| plot.bottom() - plot.height() * ((o.scaled(v) - from) / (to - from)) as f32;
        let n = self.sweep.ask.size().0;
        let x = |ix: usize| plot.left() + plot.width() * count(ix) / count(n - 1);
        let rule = Stroke::new(tokens::HAIRLINE, t.rule);
        let back = |v: f64| o.unscaled(v);
        let axis = &self.sweep.ask.x;
        for (v, told) in number::ticks(axis.span(), f64::from(plot.width() / 70.0), axis.lever().unit) {
            let at = plot.left() + plot.width() * (axis.place(v) as f32) / count(n - 1);
            painter.vline(at, plot.y_range(), rule);
            let text = pos2(at, plot.bottom() + 3.0);
            painter.text(text, Align2::CENTER_TOP, told, small.clone(), t.ink_soft);
        }
        for v in [back(from + pad), back(to - pad)] {
            painter.hline(plot.x_range(), y(v), rule);
            let text = number::figures(v, 2);
            painter.text(
                pos2(plot.left() - 5.0, y(v)),
                Align2::RIGHT_CENTER,
                text,
                small.clone(),
                t.ink_soft,
            );
        }
        let mut named: Vec<f32> = Vec::new();
        for (level, words) in levels {
            let at = y(*level);
            if plot.y_range().contains(at) {
                let path = [pos2(plot.left(), at), pos2(plot.right(), at)];
                painter.extend(Dash::DASHED.shapes(&path, Stroke::new(tokens::HAIRLINE, t.warn)));
                // Words on top of each other could not be read; the map and the reading name those left out.
                if named.iter().all(|other| (at - other).abs() >= 12.0) {
                    named.push(at);
                    let text = pos2(plot.right() - 3.0, at - 1.0);
                    painter.text(text, Align2::RIGHT_BOTTOM, *words, small.clone(), t.warn);
                }
            }
        }
        let mut run: Vec<Pos2> = Vec::new();
        for ix in 0..=n {
            let value = if ix < n { self.sweep.value(ix, 0, o) } else { None };
            match value {
                Some(v) => run.push(pos2(x(ix), y(v))),
                // Points that are not worked out yet are bridged; where it is never reached the curve ends.
                None if ix < n && self.sweep.cell(ix, 0).is_some_and(|c| c.point().is_none()) => {}
                None => {
                    painter.add(egui::Shape::line(
                        std::mem::take(&mut run),
                        Stroke::new(tokens::CURVE, t.accent),
                    ));
                }
            }
        }
        for ((ix, _), color) in
            here.map(|p| (p, t.stop_line)).into_iter().chain(read.map(|p| (p, t.ink_soft)))
        {
            painter.vline(x(ix), plot.y_range(), Stroke::new(tokens::HAIRLINE, color));
            if let Some(v) = self.sweep.value(ix, 0, o) {
                painter.circle(pos2(x(ix), y(v)), 3.5, t.sheet, Stroke::new(tokens::CURVE, color));
            }
        }
        if let Some((ix, _)) = read.or(here) {
            let value = self.sweep.value(ix, 0, o);
            let words = value.map_or_else(|| o.missing().words().to_owned(), |v| super::words(state, o, v));
            let at = pos2(plot.right(), whole.top() + 1.0);
            painter.text(at, Align2::RIGHT_TOP, words, fonts::regular(tokens::SMALL + 1.0), t.ink);
        }
    }
}
