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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::aim::moves::{Beyond, Reach};
    use potset_doc::{Pantry, assets};
    use potset_forecast::lever::{Knob, Lever};

    const WALK: Walk = Walk { first: 0.2, calls: 200, enough: f64::NEG_INFINITY, promised: 4 };

    /// Levers from 0 to 10 by halves.
    fn turns(n: usize) -> Vec<Turn> {
        let lever = Lever {
            knob: Knob::HoldTemperature,
            name: "Hold at".to_owned(),
            unit: "°C",
            value: 5.0,
            range: (0.0, 10.0),
            usual: None,
            step: 0.5,
            decimals: 1,
        };
        let design = assets::demo("coconut-pot.ron").unwrap();
        let reach = Reach { knob: lever.knob, bounds: None, step: None };
        let on = (&design, &Pantry::default());
        let turn = Turn::new(lever, reach, Some(5.0), on, (&[], Beyond::Never)).unwrap();
        vec![turn; n]
    }

    #[test]
    fn the_lowest_setting_is_found_on_the_grid() {
        let look = |v: &[f64]| vec![v[0] - 7.3, v[1] - 2.2];
        let square = |s: &Setting| s.margins.iter().map(|m| m * m).sum();
        let found = lowest(&turns(2), (&[5.0, 5.0], &[5.0, 5.0]), WALK, look, square);
        assert_eq!(found.values, [7.5, 2.0]);
        let found = lowest(&turns(2), (&[5.0, 5.0], &[5.0, 5.0]), Walk { calls: 1, ..WALK }, look, square);
        assert_eq!(found.values, [5.0, 5.0], "one look is the start");
    }

    #[test]
    fn two_levers_that_pull_apart_are_turned_together() {
        // A narrow valley along x + y = 10: no single lever leads down it.
        let look = |v: &[f64]| vec![v[0] - v[1] - 6.0, -40.0 * (v[0] + v[1] - 10.0).abs()];
        let least = |s: &Setting| -s.margins.iter().copied().fold(f64::INFINITY, f64::min);
        let go = |promised| {
            let walk = Walk { enough: 0.0, promised, ..WALK };
            lowest(&turns(2), (&[5.0, 5.0], &[5.0, 5.0]), walk, look, least)
        };
        assert!(least(&go(0)) > 1.0);
        assert!(go(4).values[0] >= 5.5, "{:?}", go(4));
    }

    #[test]
    fn nothing_to_turn_is_one_look_and_home_is_a_step() {
        let none = lowest(&[], (&[], &[]), WALK, |_| vec![-1.0], |s| -s.margins[0]);
        assert_eq!(none.margins, [-1.0]);
        // Only home is better, and it is no step of the first width off.
        let found = lowest(
            &turns(1),
            (&[9.0], &[5.0]),
            WALK,
            |v| vec![v[0]],
            |s| {
                if s.values[0] == 5.0 { 0.0 } else { 1.0 }
            },
        );
        assert_eq!(found.values, [5.0]);
    }
}
