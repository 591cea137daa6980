//! The chart of a card: two strips over the hours, in black and one grey, so that a copy shows as much.
//!
//! The hours in which pots are ready are hatched and dashed at their ends; the stop is an upright line through both strips.

use potset_base::number;
use potset_base::palette::{PRINT, PRINT_SOFT};
use potset_export::svg::Anchor;
use potset_report::card::{Chart, Strip};

use crate::blocks::{HAIR, title};
use crate::piece::{Hand, Mark, Piece};

/// Where a strip lies in its piece, and what its axes hold.
struct Frame {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    to_h: f64,
    range: (f64, f64),
}

impl Frame {
    fn x(&self, h: f64) -> f64 {
        self.left + (self.right - self.left) * (h / self.to_h).clamp(0.0, 1.0)
    }

    fn y(&self, v: f64) -> f64 {
        let (low, high) = self.range;
        self.bottom - (self.bottom - self.top) * ((v - low) / (high - low)).clamp(0.0, 1.0)
    }
}

/// Ink and gap of the curve of a second pot, points.
const SECOND: [f32; 2] = [7.0, 4.0];

/// Points from one line of the hatching to the next.
const HATCH: f64 = 5.0;

/// The chart with its title and what its lines mean.
pub fn chart(hand: &mut Hand, chart: &Chart, room: f64) -> Vec<Piece> {
    let mut all = title(hand, "The hours", room);
    let (soft, line) = (hand.soft(), hand.line());
    let mut piece = Piece::default();
    let left =
        chart.strips.iter().flat_map(ticks).map(|(_, words)| hand.width(&words, soft)).fold(0.0, f64::max);
    let mut y = 0.0;
    for (i, strip) in chart.strips.iter().enumerate() {
        let top = y + line;
        let tall = if i == 0 { 7.0 } else { 5.0 } * hand.body;
        let frame = Frame {
            left: left + 4.0,
            right: room,
            top,
            bottom: top + tall,
            to_h: chart.to_h.max(1.0),
            range: range(strip),
        };
        piece.marks.push(Mark::Text((frame.left, y + soft.size), strip.name.clone(), soft));
        draw(hand, &mut piece, strip, chart, &frame);
        y = frame.bottom + 0.5 * hand.body;
        if i + 1 == chart.strips.len() {
            y = hours(hand, &mut piece, chart, &frame);
        }
    }
    piece.height = y;
    piece.keep = true;
    all.push(piece);
    all.extend(hand.paragraph(&[(chart.lines.clone(), soft)], (0.0, room)));
    all
}

/// What the axis of a strip holds.
fn range(strip: &Strip) -> (f64, f64) {
    let (low, high) = strip
        .points
        .iter()
        .chain(&strip.second)
        .map(|(_, v)| *v)
        .filter(|v| v.is_finite())
        .fold(strip.least, |(low, high), v| (low.min(v), high.max(v)));
    let pad = 0.04 * (high - low);
    (if low > strip.least.0 - 1e-9 { low } else { low - pad }, high + pad)
}

/// Numbers or words at the axis of a strip.
fn ticks(strip: &Strip) -> Vec<(f64, String)> {
    if !strip.ticks.is_empty() {
        let (low, high) = range(strip);
        return strip.ticks.iter().filter(|(v, _)| (low..=high).contains(v)).cloned().collect();
    }
    number::round_values(range(strip), 3.0).into_iter().map(|v| (v, number::plain(v))).collect()
}

fn draw(hand: &Hand, piece: &mut Piece, strip: &Strip, chart: &Chart, frame: &Frame) {
    let soft = hand.soft();
    let mut line = |points: Vec<(f64, f64)>, color: u32, wide: f64, dash: &'static [f32]| {
        piece.marks.push(Mark::Line(points, color, wide, dash));
    };
    let Frame { left, right, top, bottom, .. } = *frame;
    if let Some((from, to)) = chart.ready {
        let (from, to) = (frame.x(from), frame.x(to));
        for points in hatched((from, to), (top, bottom)) {
            line(points, PRINT_SOFT, 0.4, &[]);
        }
        for x in [from, to] {
            line(vec![(x, top), (x, bottom)], PRINT_SOFT, 0.8, &[3.0, 2.0]);
        }
    }
    for (v, _) in ticks(strip) {
        line(vec![(left, frame.y(v)), (right, frame.y(v))], PRINT_SOFT, 0.3, &[]);
    }
    if let Some(v) = strip.level {
        line(vec![(left, frame.y(v)), (right, frame.y(v))], PRINT, 0.8, &[5.0, 3.0]);
    }
    line(
        vec![(left, top), (right, top), (right, bottom), (left, bottom), (left, top)],
        PRINT_SOFT,
        HAIR,
        &[],
    );
    if chart.stop_h.is_finite() {
        let stop = frame.x(chart.stop_h);
        line(vec![(stop, top), (stop, bottom)], PRINT, 1.0, &[]);
    }
    for (points, dash) in [(&strip.points, [].as_slice()), (&strip.second, &SECOND)] {
        let finite = points.iter().filter(|(_, v)| v.is_finite());
        let points: Vec<(f64, f64)> = finite.map(|(h, v)| (frame.x(*h), frame.y(*v))).collect();
        if !points.is_empty() {
            line(points, PRINT, 1.6, dash);
        }
    }
    // Numbers of the axis that would touch each other are left out.
    let mut last = f64::INFINITY;
    for (v, words) in ticks(strip) {
        let base = frame.y(v) + 0.35 * soft.size;
        if last - base > soft.size {
            let set = soft.anchored(Anchor::End);
            piece.marks.push(Mark::Text((left - 4.0, base), words, set));
            last = base;
        }
    }
}

/// The lines that hatch a box.
fn hatched((from, to): (f64, f64), (top, bottom): (f64, f64)) -> Vec<Vec<(f64, f64)>> {
    let tall = bottom - top;
    let mut all = Vec::new();
    let mut at = from - tall;
    while at < to {
        // From the foot of the box up to the right, cut at its sides.
        let (a, b) = (at.max(from), (at + tall).min(to));
        if b - a > 0.1 {
            all.push(vec![(a, bottom - (a - at)), (b, bottom - (b - at))]);
        }
        at += HATCH;
    }
    all
}

/// The hours under the last strip; gives where they end.
fn hours(hand: &mut Hand, piece: &mut Piece, chart: &Chart, frame: &Frame) -> f64 {
    let soft = hand.soft();
    let base = frame.bottom + 1.2 * soft.size;
    let mut last = f64::NEG_INFINITY;
    for h in number::round_values((0.0, frame.to_h), 6.0) {
        let words =
            chart.start.map_or_else(|| number::with_unit(h, 0, "h"), |start| start.after(h).day_and_time());
        let half = 0.5 * hand.width(&words, soft);
        // Inside of the frame at either end.
        let x = frame.x(h).clamp(frame.left + half, frame.right - half);
        if x - half > last {
            piece.marks.push(Mark::Text((x, base), words, soft.anchored(Anchor::Middle)));
            last = x + half + 6.0;
        }
    }
    base + 0.8 * soft.size
}
