//! A strip of the wall: one or two curves against the hours, drawn as far as the lesson has come, told apart by dash and
//! marker beside their colour.

use egui::accesskit::Role;
use egui::{Align2, Id, Pos2, Rect, Response, Sense, Stroke, Ui, WidgetInfo, pos2};

use super::large::Wall;
use potset_base::number;
use potset_class::ShownPot;
use potset_class::curves::{axis, bands, level, place, points};
use potset_doc::lesson::LessonCurve;
use potset_report::class::strip_name;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{Curve, Dash};

/// What a strip shows.
pub struct Strip<'a> {
    pub of: LessonCurve,
    /// One or two pots, and earlier plays behind them.
    pub pots: &'a [&'a ShownPot],
    pub earlier: &'a [&'a ShownPot],
    pub hours: f64,
    /// How far the curves are drawn, h; nothing: not at all.
    pub at_h: Option<f64>,
    /// What was drawn by hand.
    pub drawn: &'a [(f64, f64)],
    /// Room for the words at the left, so that strips above each other share their hours; nothing: as much as it needs.
    pub left: f32,
    /// The hours stand below it.
    pub with_hours: bool,
    /// What it shows, in a sentence.
    pub sentence: &'a str,
}

/// Where values lie in a strip.
#[derive(Clone, Copy)]
pub struct Frame {
    pub plot: Rect,
    hours: f64,
    range: (f64, f64),
}

impl Frame {
    fn x(&self, h: f64) -> f32 {
        self.plot.left() + self.plot.width() * (h / self.hours).clamp(0.0, 1.0) as f32
    }

    /// The height of a place of the axis.
    fn y(&self, v: f64) -> f32 {
        let (low, high) = self.range;
        self.plot.bottom() - self.plot.height() * ((v - low) / (high - low)).clamp(0.0, 1.0) as f32
    }

    /// The hour and the place of the axis under a point.
    pub fn under(&self, at: Pos2) -> (f64, f64) {
        let share = f64::from((at.x - self.plot.left()) / self.plot.width());
        let up = f64::from((self.plot.bottom() - at.y) / self.plot.height());
        let (low, high) = self.range;
        (self.hours * share.clamp(0.0, 1.0), low + (high - low) * up.clamp(0.0, 1.0))
    }
}

/// The look of a pot on every strip: colour, dash and marker.
pub fn look(wall: &Wall, pot: usize) -> Curve {
    if pot == 0 {
        Curve { dash: Dash::SOLID, ..wall.t.ph }
    } else {
        Curve { dash: Dash::DASHED, ..wall.t.temperature }
    }
}

/// The marker of a pot: a round one for the first, a square one for the second.
pub fn marker(ui: &Ui, wall: &Wall, at: Pos2, pot: usize) {
    let curve = look(wall, pot);
    let size = 2.0 * wall.line;
    if pot == 0 {
        ui.painter().circle_filled(at, size, curve.line);
    } else {
        ui.painter().rect_filled(Rect::from_center_size(at, egui::Vec2::splat(1.8 * size)), 0.0, curve.line);
    }
}

/// Draws a strip; gives its frame, and what the mouse does on it.
pub fn show(ui: &mut Ui, wall: &Wall, rect: Rect, strip: &Strip<'_>) -> (Frame, Response) {
    let all: Vec<Vec<(f64, f64)>> = strip
        .pots
        .iter()
        .chain(strip.earlier)
        .map(|pot| points(strip.of, &pot.answer.forecast, strip.hours))
        .collect();
    let range = padded(axis(strip.of, &all));
    let name = strip_name(strip.of);
    ui.painter().text(rect.left_top(), Align2::LEFT_TOP, &name, fonts::semibold(wall.text), wall.t.ink);
    let ticks = ticks(strip.of, range);
    let left = left_of(ui, wall, &ticks).max(strip.left);
    let foot = if strip.with_hours { wall.row() } else { 0.3 * wall.gap };
    let plot = Rect::from_min_max(
        pos2(rect.left() + left + 0.5 * wall.gap, rect.top() + wall.row()),
        pos2(rect.right(), rect.bottom() - foot),
    );
    let frame = Frame { plot, hours: strip.hours, range };
    grid(ui, wall, rect, &frame, strip, &ticks);
    for (k, curve) in all.iter().enumerate().skip(strip.pots.len()) {
        let older = k - strip.pots.len();
        earlier(ui, wall, &frame, strip.of, curve, older);
    }
    if let Some(at_h) = strip.at_h {
        for (pot, curve) in all.iter().take(strip.pots.len()).enumerate() {
            drawn_to(ui, wall, &frame, strip.of, curve, (pot, at_h));
        }
    }
    let by_hand: Vec<Pos2> =
        strip.drawn.iter().map(|(h, v)| pos2(frame.x(*h), frame.y(place(strip.of, *v)))).collect();
    if by_hand.len() > 1 {
        let stroke = Stroke::new(wall.line, wall.t.ink);
        ui.painter().extend(Dash::DOTTED.shapes_wide(&by_hand, stroke));
    }
    let response = ui.interact(plot, Id::unique(("strip", strip.of.words())), Sense::click_and_drag());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, format!("{name}. {}", strip.sentence)));
    (frame, response)
}

/// Room that the words at the axis of a strip need.
pub fn left(ui: &Ui, wall: &Wall, of: LessonCurve, pots: &[&ShownPot], hours: f64) -> f32 {
    let all: Vec<_> = pots.iter().map(|pot| points(of, &pot.answer.forecast, hours)).collect();
    left_of(ui, wall, &ticks(of, padded(axis(of, &all))))
}

fn left_of(ui: &Ui, wall: &Wall, ticks: &[(f64, String)]) -> f32 {
    let font = fonts::regular(wall.text);
    let wide = |words: &str| ui.painter().layout_no_wrap(words.to_owned(), font.clone(), wall.t.ink).size().x;
    ticks.iter().map(|(_, words)| wide(words)).fold(0.0, f32::max)
}

/// A little more at the top than the curves need, so that their markers stay inside.
fn padded((low, high): (f64, f64)) -> (f64, f64) {
    (low, high + 0.05 * (high - low))
}

/// Numbers or words at the axis, at their places.
fn ticks(of: LessonCurve, range: (f64, f64)) -> Vec<(f64, String)> {
    let (words, _) = bands(of);
    if !words.is_empty() {
        return words.into_iter().map(|(at, word)| (at, word.to_owned())).collect();
    }
    number::round_values(range, 3.0).into_iter().map(|v| (v, number::plain(v))).collect()
}

/// Everything behind the curves.
fn grid(ui: &Ui, wall: &Wall, rect: Rect, frame: &Frame, strip: &Strip<'_>, ticks: &[(f64, String)]) {
    let (t, painter, plot) = (wall.t, ui.painter(), frame.plot);
    let font = fonts::regular(wall.text);
    let quiet = Stroke::new(0.25 * wall.line, t.mark);
    painter.rect_stroke(plot, 0.0, quiet, egui::StrokeKind::Inside);
    let (words, meet) = bands(strip.of);
    let mut last = f32::INFINITY;
    for (v, label) in ticks {
        let y = frame.y(*v);
        if words.is_empty() {
            painter.hline(plot.x_range(), y, quiet);
        }
        let y = y.clamp(rect.top() + 0.5 * wall.row(), rect.bottom() - 0.5 * wall.text);
        if last - y >= wall.text {
            painter.text(
                pos2(plot.left() - 0.3 * wall.gap, y),
                Align2::RIGHT_CENTER,
                label,
                font.clone(),
                t.ink,
            );
            last = y;
        }
    }
    for bound in meet {
        painter.hline(plot.x_range(), frame.y(bound), quiet);
    }
    if let Some((v, words)) = level(strip.of) {
        let y = frame.y(v);
        let path = [pos2(plot.left(), y), pos2(plot.right(), y)];
        painter.extend(Dash::DASHED.shapes_wide(&path, Stroke::new(0.5 * wall.line, t.ink)));
        let at = pos2(plot.left() + wall.gap, y + 0.2 * wall.gap);
        painter.text(at, Align2::LEFT_TOP, words, font.clone(), t.ink);
    }
    for stop in stops(strip) {
        let x = frame.x(stop);
        painter.vline(x, plot.y_range(), Stroke::new(0.5 * wall.line, t.stop_line));
        if strip.with_hours {
            let at = pos2(x - 0.3 * wall.gap, plot.top());
            painter.text(at, Align2::RIGHT_TOP, "stop", font.clone(), t.stop_line);
        }
    }
    if strip.with_hours {
        hours(ui, wall, frame);
    }
}

/// When the pots are stopped, each hour once.
fn stops(strip: &Strip<'_>) -> Vec<f64> {
    let mut all: Vec<f64> = strip.pots.iter().map(|pot| pot.answer.forecast.stop_h).collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 0.1);
    all
}

/// The hours below a strip.
fn hours(ui: &Ui, wall: &Wall, frame: &Frame) {
    let font = fonts::regular(wall.text);
    let mut last = f32::NEG_INFINITY;
    for h in number::round_values((0.0, frame.hours), 5.0) {
        let words = number::with_unit(h, 0, "h");
        let half = 0.5 * ui.painter().layout_no_wrap(words.clone(), font.clone(), wall.t.ink).size().x;
        let x = frame.x(h).clamp(frame.plot.left() + half, frame.plot.right() - half);
        if x - half > last + wall.gap {
            let at = pos2(x, frame.plot.bottom() + 0.1 * wall.gap);
            ui.painter().text(at, Align2::CENTER_TOP, words, font.clone(), wall.t.ink);
            last = x + half;
        }
    }
}

/// A curve as far as an hour, with its marker at the tip.
fn drawn_to(
    ui: &Ui,
    wall: &Wall,
    frame: &Frame,
    of: LessonCurve,
    curve: &[(f64, f64)],
    (pot, at_h): (usize, f64),
) {
    let path: Vec<Pos2> = curve
        .iter()
        .take_while(|(h, _)| *h <= at_h + 1e-9)
        .filter(|(_, v)| v.is_finite())
        .map(|(h, v)| pos2(frame.x(*h), frame.y(place(of, *v))))
        .collect();
    let Some(tip) = path.last().copied() else { return };
    let look = look(wall, pot);
    let stroke = Stroke::new(wall.line, look.line);
    ui.painter().extend(look.dash.shapes_wide(&path, stroke));
    marker(ui, wall, tip, pot);
}

/// A curve of an earlier play, pale; the older one dotted.
fn earlier(ui: &Ui, wall: &Wall, frame: &Frame, of: LessonCurve, curve: &[(f64, f64)], older: usize) {
    let path: Vec<Pos2> = curve.iter().map(|(h, v)| pos2(frame.x(*h), frame.y(place(of, *v)))).collect();
    let dash = if older == 0 { Dash::LONG } else { Dash::DOTTED };
    let stroke = Stroke::new(0.7 * wall.line, wall.t.mark);
    ui.painter().extend(dash.shapes_wide(&path, stroke));
}
