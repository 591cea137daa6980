//! What is odd among points that were read: the same time twice, gaps, and single values that jump away and back.

use crate::rows::Point;
use crate::told::{Odd, Oddity};

/// A step of time is a gap where it is longer than so many usual steps. Assumed.
const GAP: f64 = 5.0;

/// A value jumps where it lies farther from both neighbours than so many scatters, and than so many °C. Assumed: a pot of a
/// litre moves by tenths of a degree in a minute, and an opened lid or a stirred pot by one or two.
const SCATTERS: f64 = 8.0;
const JUMP_C: f64 = 3.0;

/// What digital sensors tell when they have just been switched on, °C. Common practice of their makers.
const POWER_ON_C: f64 = 85.0;

/// The scatter of a normal distribution over the median distance of two values drawn from it: 1.4826 over the root of two.
/// Derived: the distance of two is wider by the root of two, and its median is 0.6745 of its own scatter.
const SCATTER: f64 = 1.4826 * std::f64::consts::FRAC_1_SQRT_2;

/// Rows counted, with the first of them in the file.
#[derive(Clone, Copy, Debug, Default)]
pub struct Seen {
    pub count: usize,
    pub first: usize,
}

impl Seen {
    pub fn add(&mut self, row: usize) {
        self.first = if self.count == 0 { row } else { self.first.min(row) };
        self.count += 1;
    }

    /// The oddity, where there is one.
    pub fn told(self, what: Odd) -> Option<Oddity> {
        (self.count > 0).then_some(Oddity { what, count: self.count, first_row: self.first })
    }
}

/// What is odd among points that rise in time; values that jump are marked.
pub fn of(points: &mut [Point]) -> Vec<Oddity> {
    let (mut same, mut gap) = (Seen::default(), Seen::default());
    let mut longest_s = 0.0_f64;
    let mut steps: Vec<f64> =
        points.windows(2).map(|pair| pair[1].at - pair[0].at).filter(|step| *step > 0.0).collect();
    let usual = median(&mut steps);
    for pair in points.windows(2) {
        let step = pair[1].at - pair[0].at;
        if step <= 0.0 {
            same.add(pair[1].row);
        } else if usual.is_some_and(|usual| step > GAP * usual) {
            gap.add(pair[1].row);
            longest_s = longest_s.max(step);
        }
    }
    let spikes = mark_spikes(points);
    [(Odd::SameTime, same), (Odd::Gap { longest_s }, gap), (Odd::Spike, spikes)]
        .into_iter()
        .filter_map(|(what, seen)| seen.told(what))
        .collect()
}

/// Points of one time: from, to, and the mean of their temperatures.
struct Moment {
    from: usize,
    to: usize,
    mean: f64,
}

fn mark_spikes(points: &mut [Point]) -> Seen {
    let mut moments: Vec<Moment> = Vec::with_capacity(points.len());
    let mut from = 0;
    for same in points.chunk_by(|a, b| a.at.total_cmp(&b.at).is_eq()) {
        let to = from + same.len();
        let (sum, count) = (same.iter().filter_map(|point| point.warmth_c))
            .fold((0.0, 0.0), |(sum, count), warmth| (sum + warmth, count + 1.0));
        if count > 0.0 {
            moments.push(Moment { from, to, mean: sum / count });
        }
        from = to;
    }
    let mut apart: Vec<f64> = moments.windows(2).map(|pair| (pair[1].mean - pair[0].mean).abs()).collect();
    let scatter = median(&mut apart).unwrap_or(0.0) * SCATTER;
    let far = JUMP_C.max(SCATTERS * scatter);
    let mut seen = Seen::default();
    for at in 0..moments.len() {
        let own = moments[at].mean;
        let before = at.checked_sub(1).map(|before| own - moments[before].mean);
        let after = moments.get(at + 1).map(|after| own - after.mean);
        let jumps = match (before, after) {
            // Between two jumps a good value lies far from both: what is usual around it decides.
            (Some(before), Some(after)) => {
                let near = &moments[at.saturating_sub(2)..moments.len().min(at + 3)];
                let usual = || median(&mut near.iter().map(|moment| moment.mean).collect::<Vec<_>>());
                let both = before.abs().min(after.abs()) > far && before * after > 0.0;
                both && usual().is_some_and(|usual| (own - usual).abs() > far)
            }
            // At an end there is one neighbour: a first warming is no jump.
            (Some(one), None) | (None, Some(one)) => one.abs() > far && own.total_cmp(&POWER_ON_C).is_eq(),
            (None, None) => false,
        };
        if jumps {
            for point in points[moments[at].from..moments[at].to].iter_mut().filter(|p| p.warmth_c.is_some())
            {
                point.spike = true;
                seen.add(point.row);
            }
        }
    }
    seen
}

/// The middle of the values, the lower of two; the list is put into another order.
fn median(values: &mut [f64]) -> Option<f64> {
    let middle = values.len().saturating_sub(1) / 2;
    (!values.is_empty()).then(|| *values.select_nth_unstable_by(middle, f64::total_cmp).1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(values: &[f64]) -> Vec<Point> {
        let point = |(k, v): (usize, &f64)| Point {
            row: k + 1,
            at: k as f64 * 60.0,
            warmth_c: Some(*v),
            ph: None,
            spike: false,
        };
        values.iter().enumerate().map(point).collect()
    }

    fn spikes(values: &[f64]) -> Vec<usize> {
        let mut points = points(values);
        of(&mut points);
        points.iter().filter(|p| p.spike).map(|p| p.row).collect()
    }

    #[test]
    fn single_jumps_are_marked_and_real_changes_are_not() {
        assert_eq!(spikes(&[41.0, 41.1, 41.0, 55.0, 41.1, 41.0, 20.0, 41.0, 41.1]), [4, 7]);
        // Warming up and cooling down, a lid opened for two rows, a small wobble.
        assert_eq!(spikes(&[20.0, 30.0, 38.0, 41.0, 41.0, 41.0, 37.0, 37.0, 41.0, 43.9, 41.0]), [0; 0]);
        // A noisy probe: jumps of 4 °C are its way.
        assert_eq!(spikes(&[40.0, 44.0, 40.0, 44.0, 40.0, 44.0, 40.0]), [0; 0]);
        assert_eq!(spikes(&[85.0, 41.0, 41.0, 41.0]), [1]);
        assert_eq!(spikes(&[85.0, 84.0, 82.0, 80.0]), [0; 0]);
        assert_eq!((spikes(&[]), spikes(&[41.0]), spikes(&[1.0, 99.0])), (vec![], vec![], vec![]));
    }

    #[test]
    fn gaps_and_the_same_time_are_found() {
        let mut points = points(&[41.0; 9]);
        for point in &mut points[5..] {
            point.at += 600.0;
        }
        points[1].at = 0.0;
        let odd = of(&mut points);
        assert_eq!(
            odd,
            [
                Oddity { what: Odd::SameTime, count: 1, first_row: 2 },
                Oddity { what: Odd::Gap { longest_s: 660.0 }, count: 1, first_row: 6 },
            ]
        );
    }
}
