//! Pattern search over settings on grids: steps along one lever after another, wide ones first, and on in the direction that
//! paid; where no single lever helps, several together that straight lines through what was tried promise.
//!
//! Source: published, Hooke and Jeeves 1961, "Direct search solution of numerical and statistical problems"; the straight
//! lines as Booker et al. 1999, "A rigorous framework for optimization of expensive functions by surrogates". Here on the grid
//! of each lever, so that nothing has to be rounded afterwards, and with a step home to what the design has.

/// The settings of one lever.
pub trait Grid {
    /// From its lowest setting to its highest.
    fn width(&self) -> f64;
    /// Distance of two settings.
    fn step(&self) -> f64;
    /// The setting so many steps off another one, within the bounds.
    fn stepped(&self, from: f64, steps: f64) -> f64;
}

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

impl Setting {
    /// Its least margin.
    pub fn least(&self) -> f64 {
        self.margins.iter().copied().fold(f64::INFINITY, f64::min)
    }
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
    grids: &[impl Grid],
    (start, home): (&[f64], &[f64]),
    walk: Walk,
    look: impl Fn(&[f64]) -> Vec<f64>,
    score: impl Fn(&Setting) -> f64,
) -> Setting {
    let mut walker =
        Walker { look, score, calls: walk.calls.max(1), seen: Vec::new(), best: (0, f64::INFINITY) };
    walker.try_out(start.to_vec());
    let mut steps: Vec<f64> =
        grids.iter().map(|g| (walk.first * g.width() / g.step()).round().max(1.0)).collect();
    let mut ways = vec![1.0; grids.len()];
    while walker.best.1 > walk.enough && !walker.over() {
        let from = walker.best().values.clone();
        for k in 0..grids.len() {
            let step = |way: f64| grids[k].stepped(from[k], way * steps[k]);
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
            let on = grids.iter().zip(walker.best().values.iter().zip(&from));
            let on = on.map(|(g, (b, f))| g.stepped(*b, (b - f) / g.step())).collect();
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
    const WALK: Walk = Walk { first: 0.2, calls: 200, enough: f64::NEG_INFINITY, promised: 4 };

    /// Settings from 0 to 10 by halves.
    struct Halves;

    impl Grid for Halves {
        fn width(&self) -> f64 {
            10.0
        }
        fn step(&self) -> f64 {
            0.5
        }
        fn stepped(&self, from: f64, steps: f64) -> f64 {
            (2.0 * (from + 0.5 * steps).clamp(0.0, 10.0)).round() / 2.0
        }
    }

    #[test]
    fn the_lowest_setting_is_found_on_the_grid() {
        let look = |v: &[f64]| vec![v[0] - 7.3, v[1] - 2.2];
        let square = |s: &Setting| s.margins.iter().map(|m| m * m).sum();
        let found = lowest(&[Halves, Halves], (&[5.0, 5.0], &[5.0, 5.0]), WALK, look, square);
        assert_eq!(found.values, [7.5, 2.0]);
        let found =
            lowest(&[Halves, Halves], (&[5.0, 5.0], &[5.0, 5.0]), Walk { calls: 1, ..WALK }, look, square);
        assert_eq!(found.values, [5.0, 5.0], "one look is the start");
    }

    #[test]
    fn two_levers_that_pull_apart_are_turned_together() {
        // A narrow valley along x + y = 10: no single lever leads down it.
        let look = |v: &[f64]| vec![v[0] - v[1] - 6.0, -40.0 * (v[0] + v[1] - 10.0).abs()];
        let least = |s: &Setting| -s.least();
        let go = |promised| {
            let walk = Walk { enough: 0.0, promised, ..WALK };
            lowest(&[Halves, Halves], (&[5.0, 5.0], &[5.0, 5.0]), walk, look, least)
        };
        assert!(least(&go(0)) > 1.0);
        assert!(go(4).values[0] >= 5.5, "{:?}", go(4));
    }

    #[test]
    fn nothing_to_turn_is_one_look_and_home_is_a_step() {
        let none = lowest(&[Halves; 0], (&[], &[]), WALK, |_| vec![-1.0], |s| -s.margins[0]);
        assert_eq!(none.margins, [-1.0]);
        // Only home is better, and it is no step of the first width off.
        let found = lowest(
            &[Halves],
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
