//! Bounded least squares for a few unknowns: Levenberg-Marquardt with steps cut back to the bounds.

/// One unknown: where the search starts, and its bounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unknown {
    pub start: f64,
    pub low: f64,
    pub high: f64,
    /// Step of the difference quotients; larger than the noise of the residuals divided by their slope.
    pub step: f64,
}

/// What the search found.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    pub x: Vec<f64>,
    /// Half the sum of squares there.
    pub cost: f64,
    /// Standard deviations by Laplace's rule, `(JᵀJ)⁻¹`: right if the residuals are in units of their scatter.
    pub sigma: Vec<f64>,
    /// How many times the residuals were worked out.
    pub calls: usize,
    /// Whether the last step was too small to matter; otherwise the rounds were used up.
    pub settled: bool,
}

/// Most rounds of a search.
const ROUNDS: usize = 60;

/// Minimises `½ Σ r²` within bounds.
///
/// Residuals must keep their number; one that is not a number makes the trial be refused. A prior goes in as a residual
/// of its own. The same input gives the same bits.
///
/// Source: published, Levenberg 1944, Q Appl Math 2:164; Marquardt 1963, SIAM J 11:431.
pub fn minimise(mut residuals: impl FnMut(&[f64]) -> Vec<f64>, unknowns: &[Unknown]) -> Solution {
    let n = unknowns.len();
    let mut x: Vec<f64> = unknowns.iter().map(|u| u.start.clamp(u.low, u.high)).collect();
    let mut r = residuals(&x);
    let mut calls = 1;
    let mut cost = half_square(&r);
    let mut damping = 1e-3;
    let mut settled = n == 0;
    let mut jacobian = Vec::new();
    let mut rounds = 0;
    while !settled && rounds < ROUNDS {
        rounds += 1;
        jacobian = slopes(&mut residuals, unknowns, &x, &r);
        calls += n;
        let mut moved = false;
        // A refused trial asks for a shorter step; twelve in a row are a factor of 1e12.
        for _ in 0..12 {
            let trial = trial_point(&jacobian, &r, &x, unknowns, damping);
            let length = trial.iter().zip(&x).zip(unknowns).map(|((t, x), u)| ((t - x) / u.step).abs());
            if length.fold(0.0, f64::max) < 0.02 {
                settled = true;
                break;
            }
            let at_trial = residuals(&trial);
            calls += 1;
            let new = half_square(&at_trial);
            if new < cost {
                settled = cost - new < 1e-9 * (1.0 + cost);
                (x, r, cost) = (trial, at_trial, new);
                damping = (damping * 0.2).max(1e-9);
                moved = true;
                break;
            }
            damping *= 10.0;
        }
        settled |= !moved;
    }
    let sigma = deviations(&jacobian, n);
    Solution { x, cost, sigma, calls, settled }
}

fn half_square(r: &[f64]) -> f64 {
    let sum: f64 = r.iter().map(|v| v * v).sum();
    if sum.is_nan() { f64::INFINITY } else { 0.5 * sum }
}

/// One column an unknown: central differences inside, one-sided at a bound.
fn slopes(
    residuals: &mut impl FnMut(&[f64]) -> Vec<f64>,
    unknowns: &[Unknown],
    x: &[f64],
    r: &[f64],
) -> Vec<Vec<f64>> {
    unknowns
        .iter()
        .enumerate()
        .map(|(k, u)| {
            let step = if x[k] + u.step <= u.high { u.step } else { -u.step };
            let mut there = x.to_vec();
            there[k] += step;
            residuals(&there)
                .iter()
                .zip(r)
                .map(|(a, b)| if a.is_finite() { (a - b) / step } else { 0.0 })
                .collect()
        })
        .collect()
}

/// `x − (JᵀJ + λ diag)⁻¹ Jᵀr` over the unknowns that are free: one that sits on a bound and wants to leave it is held.
fn trial_point(j: &[Vec<f64>], r: &[f64], x: &[f64], unknowns: &[Unknown], damping: f64) -> Vec<f64> {
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(p, q)| p * q).sum::<f64>();
    let gradient: Vec<f64> = j.iter().map(|column| dot(column, r)).collect();
    let free: Vec<usize> = (0..x.len())
        .filter(|k| {
            let u = &unknowns[*k];
            !(x[*k] <= u.low && gradient[*k] > 0.0 || x[*k] >= u.high && gradient[*k] < 0.0)
        })
        .collect();
    let mut matrix: Vec<Vec<f64>> =
        free.iter().map(|a| free.iter().map(|b| dot(&j[*a], &j[*b])).collect()).collect();
    for (k, row) in matrix.iter_mut().enumerate() {
        row[k] += damping * row[k].max(1e-12);
    }
    let right: Vec<f64> = free.iter().map(|k| -gradient[*k]).collect();
    let mut out = x.to_vec();
    if let Some(step) = solve(matrix, right) {
        for (k, s) in free.iter().zip(step) {
            out[*k] = (x[*k] + s).clamp(unknowns[*k].low, unknowns[*k].high);
        }
    }
    out
}

fn deviations(j: &[Vec<f64>], n: usize) -> Vec<f64> {
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(p, q)| p * q).sum::<f64>();
    (0..n)
        .map(|k| {
            let matrix = j.iter().map(|a| j.iter().map(|b| dot(a, b)).collect()).collect();
            let unit = (0..n).map(|i| if i == k { 1.0 } else { 0.0 }).collect();
            solve(matrix, unit).map_or(f64::INFINITY, |column| column[k].max(0.0).sqrt())
        })
        .collect()
}

/// Solves a small linear system by elimination with row exchange; `None` if it is singular.
pub fn solve(mut a: Vec<Vec<f64>>, mut b: Vec<f64>) -> Option<Vec<f64>> {
    let n = b.len();
    if a.len() != n || a.iter().any(|row| row.len() != n) {
        return None;
    }
    let size = a.iter().flatten().fold(0.0_f64, |m, v| m.max(v.abs()));
    for k in 0..n {
        let pivot = (k..n).max_by(|p, q| a[*p][k].abs().total_cmp(&a[*q][k].abs()))?;
        if a[pivot][k].abs() <= 1e-14 * size {
            return None;
        }
        a.swap(k, pivot);
        b.swap(k, pivot);
        let (top, rest) = a.split_at_mut(k + 1);
        for (i, row) in rest.iter_mut().enumerate() {
            let factor = row[k] / top[k][k];
            for (v, t) in row.iter_mut().zip(&top[k]).skip(k) {
                *v -= factor * t;
            }
            b[k + 1 + i] -= factor * b[k];
        }
    }
    for k in (0..n).rev() {
        let known: f64 = (k + 1..n).map(|i| a[k][i] * b[i]).sum();
        b[k] = (b[k] - known) / a[k][k];
    }
    Some(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn free(start: f64) -> Unknown {
        Unknown { start, low: -1e3, high: 1e3, step: 1e-6 }
    }

    #[test]
    fn the_valley_of_rosenbrock() {
        // Source: published, Rosenbrock 1960, Comput J 3:175: minimum 0 at (1, 1).
        let found = minimise(|x| vec![10.0 * (x[1] - x[0] * x[0]), 1.0 - x[0]], &[free(-1.2), free(1.0)]);
        assert!(found.settled, "{found:?}");
        assert!((found.x[0] - 1.0).abs() < 1e-5 && (found.x[1] - 1.0).abs() < 1e-5, "{found:?}");
    }

    #[test]
    fn a_bound_in_the_valley_is_kept() {
        let low = Unknown { start: -1.2, low: -2.0, high: 0.5, step: 1e-6 };
        let found = minimise(|x| vec![10.0 * (x[1] - x[0] * x[0]), 1.0 - x[0]], &[low, free(1.0)]);
        // On the bound the best is y = x², exactly.
        assert!((found.x[0] - 0.5).abs() < 1e-9 && (found.x[1] - 0.25).abs() < 1e-5, "{found:?}");
    }

    #[test]
    fn a_line_against_its_closed_form() {
        let ts = [0.0, 1.0, 2.0, 4.0, 7.0];
        let ys = [1.1, 2.9, 5.2, 8.8, 15.1];
        let found = minimise(
            |x| ts.iter().zip(ys).map(|(t, y)| x[0] + x[1] * t - y).collect(),
            &[free(0.0), free(0.0)],
        );
        let n = ts.len() as f64;
        let (st, sy): (f64, f64) = (ts.iter().sum(), ys.iter().sum());
        let stt: f64 = ts.iter().map(|t| t * t).sum();
        let sty: f64 = ts.iter().zip(ys).map(|(t, y)| t * y).sum();
        let slope = (n * sty - st * sy) / (n * stt - st * st);
        let intercept = (sy - slope * st) / n;
        assert!((found.x[0] - intercept).abs() < 1e-6 && (found.x[1] - slope).abs() < 1e-6, "{found:?}");
        // Textbook deviations of a line with unit scatter.
        let spread = n * stt - st * st;
        assert!((found.sigma[0] - (stt / spread).sqrt()).abs() < 1e-5);
        assert!((found.sigma[1] - (n / spread).sqrt()).abs() < 1e-5);
    }

    #[test]
    fn a_prior_pulls_by_its_weight() {
        // One reading 2 ± 1 and a prior 0 ± 0.5: the best is 2·1/(1 + 4).
        let found = minimise(|x| vec![x[0] - 2.0, x[0] / 0.5], &[free(1.0)]);
        assert!((found.x[0] - 0.4).abs() < 1e-6);
    }

    #[test]
    fn nothing_to_find_and_nothing_to_learn() {
        assert!(minimise(|_| vec![3.0], &[]).settled);
        let flat = minimise(|_| vec![1.0], &[free(0.3)]);
        assert_eq!(flat.x, [0.3]);
        assert!(flat.sigma[0].is_infinite());
    }

    #[test]
    fn small_systems() {
        let x = solve(vec![vec![0.0, 2.0], vec![3.0, 1.0]], vec![4.0, 5.0]).unwrap();
        assert!((x[0] - 1.0).abs() < 1e-12 && (x[1] - 2.0).abs() < 1e-12);
        assert_eq!(solve(vec![vec![1.0, 2.0], vec![2.0, 4.0]], vec![1.0, 2.0]), None);
    }
}
