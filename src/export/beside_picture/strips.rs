//! The curves of all designs in the same strips: one colour a quantity, the design by dash, marker and name.

use super::{BODY, CURVES, SMALL, count};
use crate::layout::{apart, cut};
use crate::svg::{Anchor, Drawing, Type, width};
use potset_base::units::{self, WARMTH};
use potset_base::words::{ACID_LINE_PH, TextureWord, WORD_BOUNDS};
use potset_base::{number, palette};
use potset_compare::beside::{Comparison, mark};
use potset_doubt::spread::{Curve, curve_of};
use potset_science::forecast::Forecast;

/// Height of all strips with their time axis.
pub const HEIGHT: f64 = 560.0;

/// Room left of the curves for numbers, and right of them for names.
const LEFT: f64 = 44.0;
const RIGHT: f64 = 118.0;
const TITLE: f64 = 20.0;

/// The texture words that are bands, from below.
const WORDS: [TextureWord; 4] =
    [TextureWord::Pours, TextureWord::Ribbons, TextureWord::Dollops, TextureWord::Stands];

/// Least distance of two names, and of two markers of stop lines, points.
const NAME_LINE: f64 = 12.5;
const STOP_GAP: f64 = 10.5;

/// One quantity.
struct Strip {
    name: &'static str,
    unit: &'static str,
    color: (u32, u32),
    height: f64,
    curve: Curve,
    /// What the axis holds in any case.
    least: (f64, f64),
}

impl Strip {
    fn logarithmic(&self) -> bool {
        self.curve == Curve::Chilled
    }
}

const fn strip(
    (name, unit): (&'static str, &'static str),
    color: (u32, u32),
    height: f64,
    curve: Curve,
    least: (f64, f64),
) -> Strip {
    Strip { name, unit, color, height, curve, least }
}

const STRIPS: [Strip; 5] = [
    strip(("Sourness", "pH"), palette::PH, 140.0, Curve::Ph, (4.0, 6.5)),
    strip(("Acid made", "% lactic"), palette::ACID, 84.0, Curve::AcidMade, (0.0, 0.5)),
    strip(("Sugar", "g/L"), palette::SUGAR, 110.0, Curve::Sugar, (0.0, 20.0)),
    strip(("Texture, chilled", "Pa·s at 50 1/s"), palette::TEXTURE, 134.0, Curve::Chilled, (0.01, 5.0)),
    strip(("Warmth", WARMTH), palette::WARMTH, 64.0, Curve::Warmth, (30.0, 45.0)),
];

/// A strip on the page.
struct Frame<'a> {
    strip: &'a Strip,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    range: (f64, f64),
    horizon_h: f64,
}

impl Frame<'_> {
    fn x(&self, h: f64) -> f64 {
        self.left + (self.right - self.left) * h / self.horizon_h
    }

    fn scaled(&self, v: f64) -> f64 {
        if self.strip.logarithmic() { v.max(1e-6).log10() } else { v }
    }

    fn y(&self, v: f64) -> f64 {
        let (from, to) = self.range;
        self.bottom - (self.bottom - self.top) * (self.scaled(v) - from) / (to - from)
    }

    /// How many numbers the axis has room for.
    fn about(&self) -> f64 {
        (self.bottom - self.top) / 26.0
    }

    /// The range that holds two values, out to the next half step of its numbers: no curve runs along an edge.
    fn around(&self, low: f64, high: f64) -> (f64, f64) {
        let (low, high) = (self.scaled(low), self.scaled(high));
        let half = match number::round_values((low, high), self.about())[..] {
            [a, b, ..] => (b - a) / 2.0,
            _ => 0.5,
        };
        ((low / half).floor() * half, (high / half).ceil() * half)
    }

    /// Where a word covers no curve and no stop line, at one of some heights; the first height if there is no such place.
    fn clear(&self, words: &str, set: Type, bases: &[f64], drawn: &[Vec<(f64, f64)>]) -> (f64, f64) {
        const ROOM: f64 = 4.0;
        let (first, wide) = (self.left + ROOM, width(words, set));
        let covers = |&(x, base): &(f64, f64)| {
            let (top, bottom) = (base - set.size, base + ROOM);
            drawn.iter().flat_map(|path| path.windows(2)).any(|pair| {
                let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
                ax.min(bx) < x + wide + ROOM
                    && ax.max(bx) > x - ROOM
                    && ay.min(by) < bottom
                    && ay.max(by) > top
            })
        };
        let along = |base: f64| (0..200_u8).map(move |k| (first + 4.0 * f64::from(k), base));
        let mut places =
            bases.iter().flat_map(|base| along(*base)).filter(|at| at.0 + wide + ROOM <= self.right);
        places.find(|at| !covers(at)).unwrap_or((first, bases.first().copied().unwrap_or(self.bottom)))
    }
}

/// Draws the strips from a corner on.
pub fn draw(out: &mut Drawing, told: &Comparison, forecasts: &[&Forecast], (left, top): (f64, f64)) {
    let horizon_h = forecasts.iter().map(|f| f.horizon_h).fold(1.0, f64::max);
    let mut y = top;
    let mut foot = top;
    for strip in &STRIPS {
        let scale = units::scale(strip.unit);
        let shown = |f: &&Forecast| -> Vec<f64> {
            curve_of(f, strip.curve).iter().map(|v| scale.shown(*v)).collect()
        };
        let curves: Vec<Vec<f64>> = forecasts.iter().map(shown).collect();
        let all = curves.iter().flatten().copied().filter(|v| v.is_finite());
        let least = (scale.shown(strip.least.0), scale.shown(strip.least.1));
        let (low, high) = all.fold(least, |(a, b), v| (a.min(v), b.max(v)));
        let mut frame = Frame {
            strip,
            left: left + LEFT,
            right: left + CURVES - RIGHT,
            top: y + TITLE,
            bottom: y + strip.height - 6.0,
            range: (0.0, 1.0),
            horizon_h,
        };
        frame.range = frame.around(low, high);
        back(out, &frame);
        let mut drawn: Vec<Vec<(f64, f64)>> =
            told.spans.iter().map(|span| stop_line(out, &frame, span.stop_h)).collect();
        let ends: Vec<Option<(f64, f64)>> = forecasts
            .iter()
            .zip(&curves)
            .enumerate()
            .map(|(i, (f, curve))| {
                let path = trace(out, &frame, i, f, curve);
                let end = path.last().copied();
                drawn.push(path);
                end
            })
            .collect();
        lines_with_words(out, &frame, &drawn);
        names(out, &frame, told, &ends);
        y += strip.height;
        foot = frame.bottom;
    }
    let (from, to) = (left + LEFT, left + CURVES - RIGHT);
    let x = |h: f64| from + (to - from) * (h / horizon_h).clamp(0.0, 1.0);
    for h in hours(horizon_h) {
        let words = if h > 0.0 { number::with_unit(h, 0, "h") } else { "start".to_owned() };
        out.text((x(h), foot + 31.0), &words, SMALL.anchored(Anchor::Middle));
    }
    let mut stops: Vec<(usize, f64)> =
        told.spans.iter().enumerate().map(|(i, span)| (i, x(span.stop_h))).collect();
    stops.sort_by(|a, b| a.1.total_cmp(&b.1));
    let wanted: Vec<f64> = stops.iter().map(|(_, x)| *x).collect();
    out.text(
        (from - 6.0, foot + 17.0),
        "stop",
        Type { color: palette::STOP_LINE, ..SMALL }.anchored(Anchor::End),
    );
    for ((i, _), x) in stops.iter().zip(apart(&wanted, STOP_GAP, (from, to))) {
        out.marker((x, foot + 13.0), mark::marker(*i), 4.0, palette::STOP_LINE);
    }
}

/// A design's stop line across one strip.
fn stop_line(out: &mut Drawing, frame: &Frame<'_>, stop_h: f64) -> Vec<(f64, f64)> {
    let x = frame.x(stop_h.min(frame.horizon_h));
    let path = vec![(x, frame.top), (x, frame.bottom)];
    out.line(&path, palette::STOP_LINE, 1.0, &[3.0, 3.0]);
    path
}

/// Hours with a line, to the clock's halves and quarters.
pub fn hours(end: f64) -> impl Iterator<Item = f64> {
    let step = match end {
        e if e <= 14.0 => 2.0,
        e if e <= 40.0 => 6.0,
        e if e <= 80.0 => 12.0,
        _ => 24.0,
    };
    (0..60_u8).map(move |k| f64::from(k) * step).take_while(move |h| *h <= end)
}

/// Title, grid and axis.
fn back(out: &mut Drawing, frame: &Frame<'_>) {
    let strip = frame.strip;
    let base = frame.top - 6.0;
    out.text((frame.left, base), strip.name, BODY.bold());
    let beside = frame.left + width(strip.name, BODY.bold()) + 6.0;
    out.text((beside, base), units::scale(strip.unit).unit, SMALL);
    out.rect(
        (frame.left, frame.top),
        (frame.right - frame.left, frame.bottom - frame.top),
        palette::CARD,
        Some(palette::RULE),
    );
    for h in hours(frame.horizon_h) {
        out.line(&[(frame.x(h), frame.top), (frame.x(h), frame.bottom)], palette::RULE, 1.0, &[]);
    }
    for at in number::round_values(frame.range, frame.about()) {
        if strip.logarithmic() && (at - at.round()).abs() > 1e-9 {
            continue;
        }
        let v = if strip.logarithmic() { 10_f64.powf(at) } else { at };
        let y = frame.y(v);
        out.line(&[(frame.left, y), (frame.right, y)], palette::RULE, 1.0, &[]);
        out.text((frame.left - 6.0, y + 4.0), &number::plain(v), SMALL.anchored(Anchor::End));
    }
}

/// Lines that mean something, with their words, over the curves.
fn lines_with_words(out: &mut Drawing, frame: &Frame<'_>, drawn: &[Vec<(f64, f64)>]) {
    let strip = frame.strip;
    if strip.curve == Curve::Ph {
        let y = frame.y(ACID_LINE_PH);
        out.line(&[(frame.left, y), (frame.right, y)], palette::WARN, 1.0, &[6.0, 4.0]);
        let set = Type { color: palette::WARN, ..SMALL }.rimmed(palette::CARD);
        let words = format!("pH {}", number::plain(ACID_LINE_PH));
        out.text(frame.clear(&words, set, &[y - 4.0, y + 12.0], drawn), &words, set);
    }
    if strip.logarithmic() {
        for bound in WORD_BOUNDS {
            let y = frame.y(bound);
            out.line(&[(frame.left, y), (frame.right, y)], palette::MARK, 0.7, &[1.0, 3.0]);
        }
        let set = SMALL.italic().rimmed(palette::CARD);
        for (i, word) in WORDS.into_iter().enumerate() {
            let to = WORD_BOUNDS.get(i).map_or(frame.top, |bound| frame.y(*bound));
            let from = i.checked_sub(1).map_or(frame.bottom, |below| frame.y(WORD_BOUNDS[below]));
            if from - to >= 11.0 {
                let middle = ((from + to) / 2.0 + 4.0).min(frame.bottom - 2.0);
                let at = frame.clear(word.word(), set, &[middle, to + 12.0, from - 4.0], drawn);
                out.text(at, word.word(), set);
            }
        }
    }
}

/// One design's curve with a few markers; its points on the page.
fn trace(out: &mut Drawing, frame: &Frame<'_>, i: usize, f: &Forecast, curve: &[f64]) -> Vec<(f64, f64)> {
    let points: Vec<(f64, f64)> =
        f.t.iter()
            .zip(curve)
            .filter(|(_, v)| v.is_finite())
            .map(|(t, v)| (frame.x(*t), frame.y(*v)))
            .collect();
    out.line(&points, frame.strip.color.0, 2.2, mark::dash(i));
    for k in 0..5 {
        let share = (f64::from(k) + 0.2 + 0.18 * count(i)) / 5.0;
        let at = (share * count(points.len().saturating_sub(1))) as usize;
        if let Some(point) = points.get(at) {
            out.marker(*point, mark::marker(i), 3.6, frame.strip.color.0);
        }
    }
    points
}

/// Names at the ends of the curves, moved apart.
fn names(out: &mut Drawing, frame: &Frame<'_>, told: &Comparison, ends: &[Option<(f64, f64)>]) {
    let mut all: Vec<(usize, f64)> =
        ends.iter().enumerate().filter_map(|(i, end)| end.map(|(_, y)| (i, y + 4.0))).collect();
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    let wanted: Vec<f64> = all.iter().map(|(_, y)| *y).collect();
    let set = Type { color: frame.strip.color.1, size: 10.5, ..BODY.bold() };
    let room = (frame.top + 4.0, frame.bottom + 4.0);
    for ((i, _), y) in all.iter().zip(apart(&wanted, NAME_LINE, room)) {
        let words = told.names.get(*i).map_or_else(String::new, |name| cut(name, set, RIGHT - 18.0));
        out.marker((frame.right + 9.0, y - 4.0), mark::marker(*i), 3.2, frame.strip.color.1);
        out.text((frame.right + 16.0, y), &words, set);
    }
}
