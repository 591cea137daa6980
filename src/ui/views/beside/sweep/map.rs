//! A map over two levers: the darker, the more; lines where a word or a goal changes; a ring where the design is.

use egui::accesskit::Role;
use egui::{Align2, Color32, FontId, Mesh, Pos2, Rect, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

use super::SweepState;
use crate::views::beside::count;
use potset_app::command::SweepCommand;
use potset_app::sweeps::Swept;
use potset_app::{Command, State};
use potset_base::{number, units};
use potset_forecast::observable::Observable;
use potset_search::sweep::{Axis, Cell, Sweep};
use potset_ui_kit::fonts;
use potset_ui_kit::tokens;
use potset_ui_kit::tokens::Tokens;

/// Room for the numbers left of the map, and below it.
const LEFT: f32 = 64.0;
const BELOW: f32 = 36.0;
/// The title and the scale above it.
const ABOVE: f32 = 44.0;

/// The colours of a map, worked out once for what it shows.
#[derive(Default)]
pub struct MapState {
    known: Option<(u64, Observable, bool)>,
    colours: Vec<Color32>,
}

/// Where the points are.
struct Places<'a> {
    plot: Rect,
    size: (usize, usize),
    sweep: &'a Sweep,
}

impl Places<'_> {
    /// A place of the grid on the screen; points lie in the middle of their cells.
    fn at(&self, x: f64, y: f64) -> Pos2 {
        let (x, y) = (x as f32, y as f32);
        let (nx, ny) = (count(self.size.0), count(self.size.1));
        pos2(
            self.plot.left() + self.plot.width() * (x + 0.5) / nx,
            self.plot.bottom() - self.plot.height() * (y + 0.5) / ny,
        )
    }

    /// The point under a place on the screen.
    fn point(&self, at: Pos2) -> Option<(usize, usize)> {
        let share = (at - self.plot.left_bottom()) / vec2(self.plot.width(), -self.plot.height());
        let (x, y) = (share.x * count(self.size.0), share.y * count(self.size.1));
        let inside = x >= 0.0 && y >= 0.0;
        inside.then_some((x as usize, y as usize)).filter(|(ix, iy)| *ix < self.size.0 && *iy < self.size.1)
    }
}

/// Draws the map; the point under the pointer.
pub fn show(
    ui: &mut Ui,
    view: &mut SweepState,
    state: &State,
    swept: &Swept,
    out: &mut Vec<Command>,
) -> Option<(usize, usize)> {
    let t = tokens::of(ui);
    let (sweep, outcome) = (&swept.sweep, state.sweeps.outcome);
    let y_axis = sweep.ask.y.as_ref()?;
    let room = ui.available_rect_before_wrap();
    let plot = Rect::from_min_max(
        pos2(room.left() + LEFT, room.top() + ABOVE),
        pos2(room.right() - 12.0, room.bottom() - BELOW),
    );
    let places = Places { plot, size: sweep.ask.size(), sweep };
    head(ui, room, state, sweep, outcome);
    paint(ui, view, state, &places, outcome);
    axes(ui, &places, y_axis, t);
    let painter = ui.painter().with_clip_rect(plot.expand(1.0));
    let mut tags = Tags { painter: &painter, t, placed: Vec::new() };
    for (level, words) in swept.levels.iter().filter(|(of, _)| *of == outcome).flat_map(|(_, all)| all) {
        contour(&mut tags, &places, &sweep.contour(outcome, *level), words);
    }
    goals(&mut tags, &places);
    let response = ui.interact(plot, ui.scope_id().with("map"), Sense::click());
    let hovered = response.hover_pos().and_then(|at| places.point(at));
    let here = sweep.nearest(&state.scenario());
    if let Some((ix, iy)) = here {
        ring(&painter, &places, (ix, iy), t.stop_line, t);
    }
    if let Some((ix, iy)) = view.mark.filter(|_| response.has_focus()) {
        ring(&painter, &places, (ix, iy), t.accent, t);
    }
    if response.has_focus() {
        let stroke = Stroke::new(tokens::FOCUS, t.accent);
        ui.painter().rect_stroke(plot, 0, stroke, egui::StrokeKind::Outside);
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, sentence(state, sweep, outcome, here)));
    super::keys(ui, &response, view, (sweep, here), out);
    // Enter is for the point under the keys; it counts as a click of the whole map, too.
    if response.clicked_by(egui::PointerButton::Primary) {
        response.request_focus();
        view.mark = None;
        if let Some((ix, iy)) = hovered {
            out.push(SweepCommand::Take(ix, iy).into());
        }
    }
    hovered
}

/// What the map says, for those who do not see it.
fn sentence(state: &State, sweep: &Sweep, outcome: Observable, here: Option<(usize, usize)>) -> String {
    let axis = |a: &Axis| {
        let (from, to) = a.span();
        format!("{} from {} to {}", a.lever().name, a.lever().words(from), a.lever().words(to))
    };
    let y = sweep.ask.y.as_ref().map_or_else(String::new, |y| format!(" and {}", axis(y)));
    let range = sweep.range(outcome).map_or_else(
        || "nowhere reached".to_owned(),
        |(a, b)| format!("{} to {}", super::words(state, outcome, a), super::words(state, outcome, b)),
    );
    let holds = sweep.cells.iter().filter(|c| c.point().is_some_and(|p| p.failing.is_none())).count();
    let here = here.map_or_else(String::new, |(ix, iy)| {
        format!(" At the design: {}.", super::pot_in_words(sweep, state, ix, iy))
    });
    format!(
        "Map of {} over {}{y}: {range}. All goals hold at {holds} of {} points.{here}",
        outcome.name(),
        axis(&sweep.ask.x),
        sweep.cells.len()
    )
}

/// The colour of a value between the least and the greatest.
fn shade(t: &Tokens, outcome: Observable, share: f64) -> Color32 {
    let curve = match outcome {
        Observable::Texture | Observable::Stiffness => t.texture_chilled,
        Observable::SugarLeft
        | Observable::Sweetness
        | Observable::Energy
        | Observable::Cost
        | Observable::Fat => t.sugar_total,
        Observable::Ph | Observable::SourAt | Observable::ReadyFrom => t.ph,
        Observable::Tang => t.acid,
        Observable::Whey | Observable::ThinLayer => t.temperature,
    };
    let share = (0.05 + 0.65 * share.clamp(0.0, 1.0)) as f32;
    t.sheet.lerp_to_gamma(curve.line, share)
}

/// Most shades of a map: beyond that a person notices each step, and the eye does not.
const SHADES: f64 = 24.0;

/// Where between the least and the greatest value a shade stands, 0 to 1. One shade covers what nobody would tell apart, so
/// a map without a difference to notice has one colour.
fn place_of_shade(outcome: Observable, (low, high): (f64, f64), v: f64) -> f64 {
    let steps = outcome.steps_between(low, high).min(SHADES);
    // What is read on paper has no step that is noticed.
    if outcome.on_paper().is_some() || steps >= SHADES {
        return (outcome.scaled(v) - outcome.scaled(low))
            / (outcome.scaled(high) - outcome.scaled(low)).max(1e-12);
    }
    if steps < 1.0 {
        return 0.5;
    }
    let (count, at) = (steps.floor(), outcome.steps_between(low, v) / steps);
    (at * (count + 1.0)).floor().min(count) / count
}

/// Title, and what the shades mean.
fn head(ui: &Ui, room: Rect, state: &State, sweep: &Sweep, outcome: Observable) {
    let t = tokens::of(ui);
    let painter = ui.painter();
    let title = painter.text(
        room.left_top() + vec2(LEFT, 0.0),
        Align2::LEFT_TOP,
        outcome.name(),
        fonts::semibold(tokens::HEADING),
        t.ink,
    );
    let small = fonts::regular(tokens::SMALL);
    let Some((low, high)) = sweep.range(outcome) else {
        let at = pos2(title.right() + 12.0, title.center().y);
        let words = if outcome.missing() == potset_forecast::observable::Missing::Never {
            "nowhere reached"
        } else {
            "some prices are not known"
        };
        painter.text(at, Align2::LEFT_CENTER, words, small, t.ink_soft);
        return;
    };
    if sweep.unnoticed(outcome) {
        let at = pos2(room.left() + LEFT, title.bottom() + 3.0);
        let words = "you would notice no difference anywhere on this map";
        painter.text(at, Align2::LEFT_TOP, words, small.clone(), t.ink_soft);
    }
    let words = |v: f64| super::words(state, outcome, v);
    // In a narrow place the scale stands below the title; where nothing is to be told apart, it says nothing.
    let left = painter.layout_no_wrap(words(low), small.clone(), t.ink_soft).size().x + 17.0;
    let crowded = room.right() - 212.0 - left < title.right();
    if crowded && sweep.unnoticed(outcome) {
        return;
    }
    let y = if crowded { title.bottom() + 10.0 } else { title.center().y };
    let bar = Rect::from_min_size(pos2(room.right() - 212.0, y - 5.0), vec2(120.0, 10.0));
    let mut mesh = Mesh::default();
    for k in 0..24_u8 {
        let x = |k: u8| bar.left() + bar.width() * f32::from(k) / 24.0;
        let rect = Rect::from_x_y_ranges(x(k)..=x(k + 1), bar.y_range());
        let scale = |v: f64| outcome.scaled(v);
        let v = outcome.unscaled(scale(low) + (scale(high) - scale(low)) * (f64::from(k) + 0.5) / 24.0);
        mesh.add_colored_rect(rect, shade(t, outcome, place_of_shade(outcome, (low, high), v)));
    }
    painter.add(Shape::mesh(mesh));
    painter.rect_stroke(bar, 0, Stroke::new(tokens::HAIRLINE, t.rule), egui::StrokeKind::Outside);
    painter.text(
        bar.left_center() - vec2(5.0, 0.0),
        Align2::RIGHT_CENTER,
        words(low),
        small.clone(),
        t.ink_soft,
    );
    painter.text(bar.right_center() + vec2(5.0, 0.0), Align2::LEFT_CENTER, words(high), small, t.ink_soft);
}

fn paint(ui: &Ui, view: &mut SweepState, state: &State, places: &Places<'_>, outcome: Observable) {
    let t = tokens::of(ui);
    let (nx, ny) = places.size;
    let known = (state.sweeps.number, outcome, t.dark);
    if view.map.known != Some(known) {
        view.map.known = Some(known);
        let range = places.sweep.range(outcome);
        let colour = |cell: Option<&Cell>| match (cell, range) {
            (Some(Cell::Point(point)), Some(range)) => point
                .outcomes
                .get(outcome)
                .map_or(t.rail, |v| shade(t, outcome, place_of_shade(outcome, range, v))),
            (Some(Cell::Never(_) | Cell::Point(_)), _) => t.rail,
            _ => t.sheet,
        };
        view.map.colours = (0..nx * ny).map(|at| colour(places.sweep.shown(at % nx, at / nx))).collect();
    }
    let mut mesh = Mesh::default();
    for (at, colour) in view.map.colours.iter().enumerate() {
        let (ix, iy) = (at % nx, at / nx);
        let x = |i: usize| places.plot.left() + places.plot.width() * count(i) / count(nx);
        let y = |i: usize| places.plot.bottom() - places.plot.height() * count(i) / count(ny);
        mesh.add_colored_rect(Rect::from_x_y_ranges(x(ix)..=x(ix + 1), y(iy + 1)..=y(iy)), *colour);
    }
    ui.painter().add(Shape::mesh(mesh));
    let stroke = Stroke::new(tokens::HAIRLINE, t.mark);
    ui.painter().rect_stroke(places.plot, 0, stroke, egui::StrokeKind::Outside);
}

fn axes(ui: &Ui, places: &Places<'_>, y_axis: &Axis, t: &Tokens) {
    let (painter, plot) = (ui.painter(), places.plot);
    let small = fonts::regular(tokens::SMALL);
    let x_axis = &places.sweep.ask.x;
    for (v, text) in number::ticks(x_axis.span(), f64::from(plot.width() / 80.0), x_axis.lever().unit) {
        let x = places.at(x_axis.place(v), 0.0).x;
        painter.vline(x, plot.bottom()..=plot.bottom() + 4.0, Stroke::new(tokens::HAIRLINE, t.mark));
        painter.text(pos2(x, plot.bottom() + 6.0), Align2::CENTER_TOP, text, small.clone(), t.ink_soft);
    }
    for (v, text) in number::ticks(y_axis.span(), f64::from(plot.height() / 46.0), y_axis.lever().unit) {
        let y = places.at(0.0, y_axis.place(v)).y;
        painter.hline(plot.left() - 4.0..=plot.left(), y, Stroke::new(tokens::HAIRLINE, t.mark));
        painter.text(pos2(plot.left() - 7.0, y), Align2::RIGHT_CENTER, text, small.clone(), t.ink_soft);
    }
    let name = |axis: &Axis| format!("{}, {}", axis.lever().name, units::scale(axis.lever().unit).unit);
    let font = fonts::regular(tokens::SMALL + 1.0);
    let at = pos2(plot.center().x, plot.bottom() + 20.0);
    painter.text(at, Align2::CENTER_TOP, name(x_axis), font.clone(), t.ink);
    let galley = painter.layout_no_wrap(name(y_axis), font, t.ink);
    let at = pos2(plot.left() - LEFT + 2.0, plot.center().y + galley.size().x / 2.0);
    let mut text = egui::epaint::TextShape::new(at, galley, t.ink);
    text.angle = -std::f32::consts::FRAC_PI_2;
    painter.add(text);
}

/// Lines along which the outcome has a value, with its words on the longest.
fn contour(tags: &mut Tags<'_>, places: &Places<'_>, lines: &[Vec<(f64, f64)>], words: &str) {
    for line in lines {
        let path: Vec<Pos2> = line.iter().map(|(x, y)| places.at(*x, *y)).collect();
        tags.painter.extend(tokens::Dash::DASHED.shapes(&path, Stroke::new(1.6, tags.t.ink)));
    }
    if let Some(longest) = lines.iter().max_by_key(|l| l.len()) {
        let (x, y) = longest[longest.len() / 2];
        tags.put(places.at(x, y), words, fonts::regular(tokens::SMALL));
    }
}

/// Where all goals hold.
fn goals(tags: &mut Tags<'_>, places: &Places<'_>) {
    for line in places.sweep.edge_of_goals() {
        let path: Vec<Pos2> = line.iter().map(|(x, y)| places.at(*x, *y)).collect();
        tags.painter.add(Shape::line(path, Stroke::new(tokens::CURVE_STRONG, tags.t.accent)));
    }
    let nx = places.size.0;
    let holds: Vec<(usize, usize)> = (places.sweep.cells.iter().enumerate())
        .filter(|(_, c)| c.point().is_some_and(|p| p.failing.is_none()))
        .map(|(at, _)| (at % nx, at / nx))
        .collect();
    if holds.is_empty() {
        let at = places.plot.center_top() + vec2(0.0, 14.0);
        tags.put(at, "nowhere do all goals hold", fonts::semibold(tokens::SMALL + 1.0));
        return;
    }
    // The holding point nearest to the middle of them all.
    let n = count(holds.len());
    let sum = |f: fn(&(usize, usize)) -> usize| holds.iter().map(|p| count(f(p))).sum::<f32>() / n;
    let (mx, my) = (sum(|p| p.0), sum(|p| p.1));
    let far = |p: &(usize, usize)| (count(p.0) - mx).powi(2) + (count(p.1) - my).powi(2);
    if let Some((ix, iy)) = holds.iter().min_by(|a, b| far(a).total_cmp(&far(b))) {
        let at = places.at(f64::from(count(*ix)), f64::from(count(*iy)));
        let font = fonts::semibold(tokens::SMALL + 1.0);
        let edge = places.sweep.edge_of_goals().is_empty();
        tags.put(at, if edge { "all goals hold" } else { "on this side of the line all goals hold" }, font);
    }
}

/// Words on the map, each on a ground of its own and none on another.
struct Tags<'a> {
    painter: &'a egui::Painter,
    t: &'a Tokens,
    placed: Vec<Rect>,
}

impl Tags<'_> {
    /// Puts words at a place, or as near above or below it as there is room; nowhere where there is none.
    fn put(&mut self, at: Pos2, words: &str, font: FontId) {
        let galley = self.painter.layout_no_wrap(words.to_owned(), font, self.t.ink);
        let clip = self.painter.clip_rect().shrink(4.0);
        let size = galley.size() + vec2(8.0, 2.0);
        let half = size / 2.0;
        let inside = |at: Pos2| {
            pos2(
                at.x.clamp(clip.left() + half.x, (clip.right() - half.x).max(clip.left() + half.x)),
                at.y.clamp(clip.top() + half.y, (clip.bottom() - half.y).max(clip.top() + half.y)),
            )
        };
        let step = size.y + 2.0;
        let mut places = [0.0, -1.0, 1.0, -2.0, 2.0, -3.0, 3.0]
            .into_iter()
            .map(|k| Rect::from_center_size(inside(at + vec2(0.0, k * step)), size));
        let Some(rect) = places.find(|rect| !self.placed.iter().any(|other| other.intersects(*rect))) else {
            return;
        };
        self.placed.push(rect);
        self.painter.rect_filled(rect, tokens::RADIUS_SMALL, self.t.card);
        self.painter.galley(rect.min + vec2(4.0, 1.0), galley, self.t.ink);
    }
}

fn ring(painter: &egui::Painter, places: &Places<'_>, (ix, iy): (usize, usize), color: Color32, t: &Tokens) {
    let at = places.at(f64::from(count(ix)), f64::from(count(iy)));
    painter.circle_stroke(at, 6.5, Stroke::new(5.0, t.card));
    painter.circle_stroke(at, 6.5, Stroke::new(2.5, color));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shade_covers_what_nobody_would_tell_apart() {
        let of = |range: (f64, f64), v| place_of_shade(Observable::Ph, range, v);
        let step = match Observable::Ph.step() {
            potset_forecast::observable::Step::By(step) => step,
            potset_forecast::observable::Step::Times(_) => panic!("pH goes by differences"),
        };
        // Less than a step from end to end: one colour.
        let flat = (4.3, 4.3 + 0.9 * step);
        assert_eq!(of(flat, flat.0).to_bits(), of(flat, flat.1).to_bits());
        // Three steps: the ends are the ends of the scale, there are at most four shades, and they never fall.
        let range = (4.0, 4.0 + 3.0 * step);
        let all: Vec<f64> =
            (0..=30).map(|k| of(range, range.0 + (range.1 - range.0) * f64::from(k) / 30.0)).collect();
        assert!(all.is_sorted(), "{all:?}");
        assert_eq!((all[0], all[30]), (0.0, 1.0));
        let mut shades = all;
        shades.dedup();
        assert_eq!(shades.len(), 4, "{shades:?}");
    }
}
