//! The curves of all designs in the same strips: one colour a quantity, the design by dash, marker and name.

use super::{BODY, CURVES, SMALL, count};
use crate::base::{number, palette};
use crate::export::svg::{Anchor, Drawing, Type, cut};
use crate::science::forecast::Forecast;
use crate::study::beside::{Beside, mark};

/// Height of all strips with their time axis.
pub const HEIGHT: f64 = 560.0;

/// Room left of the curves for numbers, and right of them for names.
const LEFT: f64 = 44.0;
const RIGHT: f64 = 118.0;
const TITLE: f64 = 20.0;

/// Where the texture words begin, Pa·s at 50 1/s, and the words: `words.pours_below` and the next two of the parameters.
const WORDS: [(f64, &str); 4] = [(0.0, "pours"), (0.05, "ribbons"), (0.35, "dollops"), (1.75, "stands")];

/// One quantity.
struct Strip {
    name: &'static str,
    unit: &'static str,
    color: (u32, u32),
    height: f64,
    logarithmic: bool,
    /// What the axis holds in any case.
    least: (f64, f64),
    read: fn(&Forecast) -> Vec<f64>,
}

const STRIPS: [Strip; 5] = [
    Strip {
        name: "Sourness",
        unit: "pH",
        color: palette::PH,
        height: 140.0,
        logarithmic: false,
        least: (4.0, 6.5),
        read: |f| f.ph.clone(),
    },
    Strip {
        name: "Acid made",
        unit: "% lactic",
        color: palette::ACID,
        height: 84.0,
        logarithmic: false,
        least: (0.0, 0.5),
        read: |f| f.acid_made.clone(),
    },
    Strip {
        name: "Sugar",
        unit: "g/L",
        color: palette::SUGAR,
        height: 110.0,
        logarithmic: false,
        least: (0.0, 20.0),
        read: |f| f.sugar_total.iter().map(|g| g * f.density).collect(),
    },
    Strip {
        name: "Texture, chilled",
        unit: "Pa·s at 50 1/s",
        color: palette::TEXTURE,
        height: 134.0,
        logarithmic: true,
        least: (0.01, 5.0),
        read: |f| f.chilled.viscosity50.clone(),
    },
    Strip {
        name: "Warmth",
        unit: "°C",
        color: palette::WARMTH,
        height: 64.0,
        logarithmic: false,
        least: (30.0, 45.0),
        read: |f| f.temperature.clone(),
    },
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
        if self.strip.logarithmic { v.max(1e-6).log10() } else { v }
    }

    fn y(&self, v: f64) -> f64 {
        let (from, to) = self.range;
        self.bottom - (self.bottom - self.top) * (self.scaled(v) - from) / (to - from)
    }
}

/// Draws the strips from a corner on.
pub fn draw(out: &mut Drawing, told: &Beside, forecasts: &[&Forecast], (left, top): (f64, f64)) {
    let horizon_h = forecasts.iter().map(|f| f.horizon_h).fold(1.0, f64::max);
    let mut y = top;
    let mut foot = top;
    for strip in &STRIPS {
        let curves: Vec<Vec<f64>> = forecasts.iter().map(|f| (strip.read)(f)).collect();
        let all = curves.iter().flatten().copied().filter(|v| v.is_finite());
        let (low, high) = all.fold(strip.least, |(a, b), v| (a.min(v), b.max(v)));
        let mut frame = Frame {
            strip,
            left: left + LEFT,
            right: left + CURVES - RIGHT,
            top: y + TITLE,
            bottom: y + strip.height - 6.0,
            range: (0.0, 1.0),
            horizon_h,
        };
        frame.range = (frame.scaled(low), frame.scaled(high));
        back(out, &frame);
        let ends: Vec<Option<(f64, f64)>> = forecasts
            .iter()
            .zip(&curves)
            .enumerate()
            .map(|(i, (f, curve))| trace(out, &frame, i, f, curve))
            .collect();
        lines_with_words(out, &frame);
        names(out, &frame, told, &ends);
        y += strip.height;
        foot = frame.bottom;
    }
    let frame_x = |h: f64| left + LEFT + (CURVES - LEFT - RIGHT) * h / horizon_h;
    for h in hours(horizon_h) {
        let words = if h > 0.0 { number::with_unit(h, 0, "h") } else { "start".to_owned() };
        out.text((frame_x(h), foot + 15.0), &words, SMALL.anchored(Anchor::Middle));
    }
    for (i, span) in told.spans.iter().enumerate() {
        let x = frame_x(span.stop_h.min(horizon_h));
        out.line(&[(x, top + TITLE), (x, foot)], palette::STOP_LINE, 1.0, &[3.0, 3.0]);
        out.marker((x, foot + 1.0), mark::marker(i), 4.0, palette::STOP_LINE);
    }
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
    let beside = frame.left + crate::export::svg::width(strip.name, BODY.bold()) + 6.0;
    out.text((beside, base), strip.unit, SMALL);
    out.rect(
        (frame.left, frame.top),
        (frame.right - frame.left, frame.bottom - frame.top),
        palette::CARD,
        Some(palette::RULE),
    );
    for h in hours(frame.horizon_h) {
        out.line(&[(frame.x(h), frame.top), (frame.x(h), frame.bottom)], palette::RULE, 1.0, &[]);
    }
    let about = (frame.bottom - frame.top) / 26.0;
    for at in number::round_values(frame.range, about) {
        if strip.logarithmic && (at - at.round()).abs() > 1e-9 {
            continue;
        }
        let v = if strip.logarithmic { 10_f64.powf(at) } else { at };
        let y = frame.y(v);
        out.line(&[(frame.left, y), (frame.right, y)], palette::RULE, 1.0, &[]);
        out.text((frame.left - 6.0, y + 4.0), &number::plain(v), SMALL.anchored(Anchor::End));
    }
}

/// Lines that mean something, with their words, over the curves.
fn lines_with_words(out: &mut Drawing, frame: &Frame<'_>) {
    let strip = frame.strip;
    if strip.unit == "pH" {
        let y = frame.y(4.6);
        out.line(&[(frame.left, y), (frame.right, y)], palette::WARN, 1.0, &[6.0, 4.0]);
        let set = Type { color: palette::WARN, ..SMALL }.rimmed(palette::CARD);
        out.text((frame.left + 4.0, y - 3.0), "pH 4.6", set);
    }
    if strip.logarithmic {
        for (i, (from, word)) in WORDS.iter().enumerate() {
            if *from > 0.0 {
                let y = frame.y(*from);
                out.line(&[(frame.left, y), (frame.right, y)], palette::MARK, 0.7, &[1.0, 3.0]);
            }
            let to = WORDS.get(i + 1).map_or(frame.top, |(next, _)| frame.y(*next));
            let bottom = if *from > 0.0 { frame.y(*from) } else { frame.bottom };
            if bottom - to >= 11.0 {
                let at = ((bottom + to) / 2.0 + 4.0).min(frame.bottom - 2.0);
                out.text((frame.left + 4.0, at), word, SMALL.italic().rimmed(palette::CARD));
            }
        }
    }
}

/// One design's curve with a few markers; where it ends.
fn trace(out: &mut Drawing, frame: &Frame<'_>, i: usize, f: &Forecast, curve: &[f64]) -> Option<(f64, f64)> {
    let points: Vec<(f64, f64)> =
        f.t.iter()
            .zip(curve)
            .filter(|(_, v)| v.is_finite())
            .map(|(t, v)| (frame.x(*t), frame.y(*v)))
            .collect();
    out.line(&points, frame.strip.color.0, 2.2, mark::dash(i));
    for k in 0..5 {
        let share = (f64::from(k) + 0.2 + 0.18 * count(i)) / 5.0;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place in the curve")]
        let at = (share * count(points.len().saturating_sub(1))) as usize;
        if let Some(point) = points.get(at) {
            out.marker(*point, mark::marker(i), 3.6, frame.strip.color.0);
        }
    }
    points.last().copied()
}

/// Names at the ends of the curves, moved apart.
fn names(out: &mut Drawing, frame: &Frame<'_>, told: &Beside, ends: &[Option<(f64, f64)>]) {
    const LINE: f64 = 12.5;
    let mut all: Vec<(usize, f64, f64)> =
        ends.iter().enumerate().filter_map(|(i, end)| end.map(|(x, y)| (i, x, y))).collect();
    all.sort_by(|a, b| a.2.total_cmp(&b.2).then(a.0.cmp(&b.0)));
    let mut last = f64::NEG_INFINITY;
    let mut at: Vec<f64> = Vec::new();
    for (_, _, y) in &all {
        last = (y + 4.0).max(last + LINE);
        at.push(last);
    }
    // What was pushed out below comes up again as far as it must.
    let over = (last - frame.bottom - 4.0).max(0.0);
    let set = Type { color: frame.strip.color.1, size: 10.5, ..BODY.bold() };
    for (k, (i, _, _)) in all.iter().enumerate() {
        let words = told.names.get(*i).map_or_else(String::new, |name| cut(name, set, RIGHT - 18.0));
        let y = at[k] - over;
        out.marker((frame.right + 9.0, y - 4.0), mark::marker(*i), 3.2, frame.strip.color.1);
        out.text((frame.right + 16.0, y), &words, set);
    }
}
