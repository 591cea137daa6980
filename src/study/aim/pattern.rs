//! Pattern search over settings that a maker can make: steps along one lever after another, wide ones first, and on in the
//! direction that paid.
//!
//! Source: published, Hooke and Jeeves 1961, "Direct search solution of numerical and statistical problems"; here on the
//! grid of each lever, so that nothing has to be rounded afterwards, and with a step home to what the design has.

use super::turn::Turn;

/// How a search walks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Walk {
    /// First step, as a share of a lever's width; the last is one step of its grid.
    pub first: f64,
    /// Most settings that are scored.
    pub calls: usize,
    /// A score at which it may stop.
    pub enough: f64,
}

/// A setting with its score.
pub type Scored = (Vec<f64>, f64);

struct Walker<'a, F> {
    turns: &'a [Turn],
    score: F,
    calls: usize,
    seen: Vec<Vec<f64>>,
    best: Scored,
}

impl<F: FnMut(&[f64]) -> f64> Walker<'_, F> {
    /// Scores a setting that was not scored yet; whether it is the best.
    fn scored(&mut self, values: Vec<f64>) -> bool {
        if self.seen.len() >= self.calls || self.seen.contains(&values) {
            return false;
        }
        let score = (self.score)(&values);
        self.seen.push(values.clone());
        let better = score < self.best.1;
        if better {
            self.best = (values, score);
        }
        better
    }

    /// Puts one lever of the best setting elsewhere.
    fn put(&mut self, k: usize, v: f64) -> bool {
        let mut values = self.best.0.clone();
        values[k] = v;
        self.scored(values)
    }
}

/// The setting with the lowest score that was found, from a setting that can be made.
///
/// - `home` — what the design has, one value a lever.
pub fn lowest(
    turns: &[Turn],
    (start, home): (&[f64], &[f64]),
    walk: Walk,
    score: impl FnMut(&[f64]) -> f64,
) -> Scored {
    let best = (start.to_vec(), f64::INFINITY);
    let mut walker = Walker { turns, score, calls: walk.calls.max(1), seen: Vec::new(), best };
    walker.scored(start.to_vec());
    let mut steps: Vec<f64> =
        turns.iter().map(|t| (walk.first * (t.high - t.low) / t.grid).round().max(1.0)).collect();
    let mut ways = vec![1.0; turns.len()];
    while walker.best.1 > walk.enough && walker.seen.len() < walker.calls {
        let from = walker.best.0.clone();
        for k in 0..turns.len() {
            let step = |way: f64| turns[k].stepped(from[k], way * steps[k]);
            let better = walker.put(k, step(ways[k])) || {
                ways[k] = -ways[k];
                walker.put(k, step(ways[k]))
            };
            if !better {
                walker.put(k, home[k]);
            }
        }
        if walker.best.0 != from {
            let on = walker.turns.iter().zip(walker.best.0.iter().zip(&from));
            let on = on.map(|(t, (b, f))| t.stepped(*b, (b - f) / t.grid)).collect();
            walker.scored(on);
        } else if steps.iter().all(|s| *s <= 1.0) {
            break;
        } else {
            steps.iter_mut().for_each(|s| *s = (0.4 * *s).floor().max(1.0));
        }
    }
    walker.best
}
