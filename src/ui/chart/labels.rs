//! Places for direct labels: beside their own curve, clear of each other and of the other curves.

use egui::{Rect, Vec2, pos2};

/// Columns in which the curves are looked at.
const COLUMNS: usize = 80;
/// Between a label and its curve, points: in a low strip the room that the rect of a text has of
/// its own must do.
fn hug(strip: f32) -> f32 {
    if strip < 70.0 { -0.5 } else { 1.5 }
}

/// Where along the strip a label may be, as a share of the room: 0 is the left end, 1 the right end.
const ANCHORS: [f32; 6] = [1.0, 0.8, 0.6, 0.4, 0.2, 0.0];
/// What it costs to stand on the far side of another curve.
const PAST: f32 = 5.0;
/// How far a label may be moved to get there, points.
const FAR: f32 = 10.0;
/// How far a label may stick out of the strip above and below, points.
const OUT: [f32; 2] = [4.0, 2.0];
/// How much better another place must be before a label moves.
const HABIT: f32 = 8.0;

/// A label that wants a place.
#[derive(Clone, Debug)]
pub struct Wish {
    pub size: Vec2,
    /// The curve it belongs to, as a place in `curves`.
    pub curve: usize,
    /// Whether it would rather stand at the left end.
    pub left: bool,
    /// The place it has had so far, as given back by [`place`].
    pub habit: Option<usize>,
}

/// The heights of a curve across the strip, in points from the top; NaN where there is none.
#[derive(Clone, Debug)]
pub struct Course([f32; COLUMNS]);

impl Course {
    pub fn new(mut y_at: impl FnMut(f32) -> Option<f32>) -> Self {
        let fraction = |column: usize| column as f32 / (COLUMNS - 1) as f32;
        Self(std::array::from_fn(|column| y_at(fraction(column)).unwrap_or(f32::NAN)))
    }

    /// In how many columns the curve would strike out a text, for a strip of this width.
    pub fn strikes(&self, rect: &Rect, width: f32) -> f32 {
        let inner = rect.shrink2(egui::vec2(0.0, 2.0));
        let columns = self.between(rect.left(), rect.right(), width).iter();
        columns.filter(|y| **y >= inner.top() && **y <= inner.bottom()).count() as f32
    }

    /// The columns between two places.
    fn between(&self, left: f32, right: f32, width: f32) -> &[f32] {
        let last = (COLUMNS - 1) as f32;
        let column = |x: f32| (x / width.max(1.0) * last).clamp(0.0, last);
        &self.0[column(left).floor() as usize..=column(right).ceil() as usize]
    }
}

/// A rect for each wish, in points from the top left of the strip, and which of its places it is.
///
/// `taken` is not to be written over. The wishes that come first choose first.
pub fn place(size: Vec2, wishes: &[Wish], curves: &[Course], taken: &[Rect]) -> Vec<(Rect, usize)> {
    let mut taken = taken.to_vec();
    let mut out = Vec::new();
    for wish in wishes {
        let places = (0..ANCHORS.len() * 2).map(|index| {
            let (rect, cost) = candidate(size, wish, curves, &taken, index);
            let cost = if wish.habit == Some(index) { cost - HABIT } else { cost };
            (rect, cost, index)
        });
        let best = places.min_by(|a, b| a.1.total_cmp(&b.1));
        let (rect, index) = best.map_or((Rect::NOTHING, 0), |(rect, _, index)| (rect, index));
        taken.push(rect);
        out.push((rect, index));
    }
    out
}

/// The rect of one place, inside the strip, and how bad it would be.
fn candidate(size: Vec2, wish: &Wish, curves: &[Course], taken: &[Rect], index: usize) -> (Rect, f32) {
    let (order, below) = (index / 2, index % 2 == 1);
    let anchor = if wish.left { 1.0 - ANCHORS[order] } else { ANCHORS[order] };
    // A little away from the ends.
    let x = 4.0 + (size.x - wish.size.x - 8.0).max(0.0) * anchor;
    let own = curves.get(wish.curve).map_or(&[][..], |c| c.between(x, x + wish.size.x, size.x));
    let (top, bottom) = extent(own);
    let (mut y, lean) =
        if below { (bottom + hug(size.y), 0.6) } else { (top - hug(size.y) - wish.size.y, 0.0) };
    let mut cost = order as f32 * 2.0 + lean;
    if y.is_nan() {
        return (Rect::from_min_size(pos2(x, 0.0), wish.size), 1e6);
    }
    // Beside a steep part the label is far from most of its curve.
    cost += (bottom - top) * 0.4;
    // Past the curves that run close to this one.
    let hugging = y;
    for _ in 0..3 {
        let past = beyond(curves, wish, (x, y), size, below);
        let Some(past) = past.filter(|past| (past - hugging).abs() <= FAR) else { break };
        cost += PAST + (past - y).abs();
        y = past;
    }
    let inside = y.clamp(-OUT[0], (size.y - wish.size.y + OUT[1]).max(-OUT[0]));
    if (inside - y).abs() > 0.5 {
        cost += 40.0 + 4.0 * (inside - y).abs();
        y = inside;
    }
    let rect = Rect::from_min_size(pos2(x, y), wish.size);
    let clear = rect.expand2(egui::vec2(3.0, 0.0));
    let over: f32 = taken.iter().map(|other| overlap(&clear, other)).sum();
    if over > 0.0 {
        cost += 300.0 + over;
    }
    for (at, course) in curves.iter().enumerate() {
        cost += course.strikes(&rect, size.x) * if at == wish.curve { 8.0 } else { 6.0 };
    }
    (rect, cost)
}

/// Where a label must go to be past the curves that would strike it out.
fn beyond(curves: &[Course], wish: &Wish, (x, y): (f32, f32), size: Vec2, below: bool) -> Option<f32> {
    let width = size.x;
    let rect = Rect::from_min_size(pos2(x, y), wish.size);
    let striking = curves.iter().filter(|course| course.strikes(&rect, width) > 0.0);
    let extents = striking.map(|course| extent(course.between(x, x + wish.size.x, width)));
    let (top, bottom) = extents.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
    Some(if below { bottom + hug(size.y) } else { top - hug(size.y) - wish.size.y })
}
/// Least and greatest height of a piece of curve; NaN if there is none.
fn extent(piece: &[f32]) -> (f32, f32) {
    piece.iter().fold((f32::NAN, f32::NAN), |(top, bottom), y| (top.min(*y), bottom.max(*y)))
}

fn overlap(a: &Rect, b: &Rect) -> f32 {
    let both = a.intersect(*b);
    if both.is_positive() { both.area() } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::vec2;

    fn wish(curve: usize, width: f32) -> Wish {
        Wish { size: vec2(width, 13.0), curve, left: false, habit: None }
    }

    #[test]
    fn labels_of_curves_that_run_together_do_not_collide() {
        let size = vec2(440.0, 60.0);
        let curves: Vec<_> = [20.0, 21.0, 57.0, 58.0, 58.5].map(|y| Course::new(|_| Some(y))).to_vec();
        let wishes: Vec<_> = (0..5).map(|curve| wish(curve, 60.0)).collect();
        let placed = place(size, &wishes, &curves, &[]);
        for (k, (rect, _)) in placed.iter().enumerate() {
            let strip = Rect::from_min_max(pos2(0.0, -OUT[0]), pos2(size.x, size.y + OUT[1]));
            assert!(strip.contains_rect(*rect));
            assert!(placed[..k].iter().all(|(other, _)| overlap(rect, other) <= 0.0), "{placed:?}");
        }
    }

    #[test]
    fn a_label_keeps_its_side_while_its_curve_moves_a_little() {
        let size = vec2(440.0, 60.0);
        let at = |y: f32, habit| {
            let curves = [Course::new(|_| Some(y)), Course::new(|_| Some(30.0))];
            place(size, &[Wish { habit, ..wish(0, 60.0) }], &curves, &[])[0].1
        };
        let first = at(50.0, None);
        assert_eq!(at(44.0, Some(first)), first);
        assert_ne!(at(20.0, Some(11)), 11, "it goes when another place is much better");
    }
}
