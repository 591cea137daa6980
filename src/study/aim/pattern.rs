//! Pattern search over settings that a maker can make: steps along one lever after another, wide ones first, and on in the
//! direction that paid; where no single lever helps, several together that straight lines through what was tried promise.
//!
//! Source: published, Hooke and Jeeves 1961, "Direct search solution of numerical and statistical problems"; the straight
//! lines as Booker et al. 1999, "A rigorous framework for optimization of expensive functions by surrogates". Here on the grid
//! of each lever, so that nothing has to be rounded afterwards, and with a step home to what the design has.

use super::turn::Turn;

/// How a search walks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Walk {
    /// First step, as a share of a lever's width; the last is one step of its grid.
    pub first: f64,
    /// Most settings that are looked at.
    pub calls: usize,
    /// A score at which it may stop.
    pub enough: f64,
    /// Settings that straight lines promise, tried each time that no single lever helps.
    pub promised: usize,
}

/// Combinations of steps that are followed up at a time. Source: assumed.
const FOLLOWED: usize = 200;

/// A setting of all levers, with its margins.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    pub values: Vec<f64>,
    pub margins: Vec<f64>,
}

struct Walker<L, S> {
    look: L,
    score: S,
    calls: usize,
    seen: Vec<Setting>,
    /// Place of the best among them, and its score.
    best: (usize, f64),
}

impl<L: Fn(&[f64]) -> Vec<f64>, S: Fn(&Setting) -> f64> Walker<L, S> {
    fn best(&self) -> &Setting {
        &self.seen[self.best.0]
    }

    fn over(&self) -> bool {
        self.seen.len() >= self.calls
    }

    /// Looks at a setting that was not looked at yet; whether it is the best.
    fn try_out(&mut self, values: Vec<f64>) -> bool {
        if self.over() || self.seen.iter().any(|s| s.values == values) {
            return false;
        }
        let setting = Setting { margins: (self.look)(&values), values };
        let score = (self.score)(&setting);
        self.seen.push(setting);
        let better = score < self.best.1;
        if better {
            self.best = (self.seen.len() - 1, score);
        }
        better
    }

    /// Puts one lever of the best setting elsewhere.
    fn put(&mut self, k: usize, v: f64) -> bool {
        let mut values = self.best().values.clone();
        values[k] = v;
        self.try_out(values)
    }

    /// Steps of single levers from the best setting put together, the most promising first, as if each added what it did alone.
    fn promised(&self) -> Vec<Setting> {
        let best = self.best();
        let alone = |s: &&Setting, k: usize| {
            s.values.iter().zip(&best.values).enumerate().all(|(j, (a, b))| (a == b) != (j == k))
        };
        let mut all = vec![best.clone()];
        for k in 0..best.values.len() {
            let steps: Vec<&Setting> = self.seen.iter().rev().filter(|s| alone(s, k)).take(2).collect();
            let with = |from: &Setting, step: &Setting| {
                let mut to = from.clone();
                to.values[k] = step.values[k];
                let by = step.margins.iter().zip(&best.margins).map(|(a, b)| a - b);
                to.margins.iter_mut().zip(by).for_each(|(m, by)| *m += by);
                to
            };
            let more: Vec<Setting> =
                all.iter().flat_map(|s| steps.iter().map(move |step| with(s, step))).collect();
            all.extend(more);
            all.sort_by(|a, b| (self.score)(a).total_cmp(&(self.score)(b)));
            all.truncate(FOLLOWED);
        }
        all
    }
}

/// The setting with the lowest score that was found, from a setting that can be made.
///
/// - `home` — what the design has, one value a lever.
pub fn lowest(
    turns: &[Turn],
    (start, home): (&[f64], &[f64]),
    walk: Walk,
    look: impl Fn(&[f64]) -> Vec<f64>,
    score: impl Fn(&Setting) -> f64,
) -> Setting {
    let mut walker =
        Walker { look, score, calls: walk.calls.max(1), seen: Vec::new(), best: (0, f64::INFINITY) };
    walker.try_out(start.to_vec());
    let mut steps: Vec<f64> =
        turns.iter().map(|t| (walk.first * (t.high - t.low) / t.grid).round().max(1.0)).collect();
    let mut ways = vec![1.0; turns.len()];
    while walker.best.1 > walk.enough && !walker.over() {
        let from = walker.best().values.clone();
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
        if walker.best().values == from && walk.promised > 0 {
            let new =
                walker.promised().into_iter().filter(|p| walker.seen.iter().all(|s| s.values != p.values));
            for promised in new.take(walk.promised).collect::<Vec<_>>() {
                walker.try_out(promised.values);
            }
        }
        if walker.best().values != from {
            let on = turns.iter().zip(walker.best().values.iter().zip(&from));
            let on = on.map(|(t, (b, f))| t.stepped(*b, (b - f) / t.grid)).collect();
            walker.try_out(on);
        } else if steps.iter().all(|s| *s <= 1.0) {
            break;
        } else {
            steps.iter_mut().for_each(|s| *s = (0.4 * *s).floor().max(1.0));
        }
    }
    walker.seen.swap_remove(walker.best.0)
}
