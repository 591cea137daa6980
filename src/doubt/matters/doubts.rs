//! How much of the spread of an outcome each unknown makes.

use super::Values;
use crate::spread::Spreader;
use potset_numerics::least_squares::solve;
use potset_numerics::moments;

/// Pots per unknown from which on all unknowns are fitted together. Source: assumed.
const ENOUGH: usize = 3;

/// Shares of the variance of one outcome, unknown by unknown.
#[derive(Default)]
pub struct Doubts {
    /// What chance alone would give is taken off, so that a share may be less than nothing: only sums of many, and what is
    /// told, are cut off there.
    pub shares: Vec<f64>,
    /// What chance alone gives one unknown.
    pub noise: f64,
}

impl Doubts {
    /// Share that all unknowns together explain one by one, 0 to 1.
    pub fn explained(&self) -> f64 {
        self.shares.iter().sum::<f64>().clamp(0.0, 1.0)
    }

    /// How far the sum of the shares of so many unknowns is off by chance, one sigma.
    ///
    /// `√(2k)` times the share of one: the square of a normal deviate has the variance 2. Source: derived.
    pub fn off(&self, k: usize) -> f64 {
        (2.0 * k as f64).sqrt() * self.noise
    }
}

/// Works the shares out: what a straight line through the deviate of each unknown explains of the variance.
///
/// `y = a + Σ b_i z_i`, share `b_i² var(z_i) / var(y)`, less what chance alone would give, `(1 − R²)/(n − p)`. The
/// unknowns are drawn independently, so that the shares add up; what is bent or acts together stays unexplained. With too
/// few pots for all lines together, each is drawn alone.
///
/// Source: published, Saltelli et al. 2008, "Global sensitivity analysis: the primer", chapter 1 (standardised
/// regression coefficients).
pub fn doubts(spreader: &Spreader, numbers: &[usize], values: &[Values]) -> Vec<Doubts> {
    let sampler = spreader.sampler();
    let columns: Vec<Vec<f64>> = (0..sampler.unknowns().list.len())
        .map(|i| {
            let column: Vec<f64> = numbers.iter().map(|k| sampler.place(i, *k).z).collect();
            let mean = moments::mean(&column);
            column.into_iter().map(|z| z - mean).collect()
        })
        .collect();
    let together = numbers.len() >= ENOUGH * columns.len();
    let normal = if together { normal_matrix(&columns) } else { Vec::new() };
    values.iter().map(|v| shares(&columns, &normal, &v.scaled, together)).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

fn normal_matrix(columns: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let p = columns.len();
    let mut matrix = vec![vec![0.0; p]; p];
    for i in 0..p {
        for j in 0..=i {
            let v = dot(&columns[i], &columns[j]);
            matrix[i][j] = v;
            matrix[j][i] = v;
        }
    }
    matrix
}

fn shares(columns: &[Vec<f64>], normal: &[Vec<f64>], y: &[f64], together: bool) -> Doubts {
    let n = y.len() as f64;
    let total = moments::variance(y) * (n - 1.0);
    if total <= 0.0 {
        return Doubts { shares: vec![0.0; columns.len()], noise: 0.0 };
    }
    let right: Vec<f64> = columns.iter().map(|c| dot(c, y)).collect();
    let fitted = if together { solve(normal.to_vec(), right.clone()) } else { None };
    match fitted {
        Some(slopes) => {
            let explained = dot(&slopes, &right) / total;
            let noise = (1.0 - explained).max(0.0) / (n - columns.len() as f64 - 1.0).max(1.0);
            let share = |(b, c): (&f64, &Vec<f64>)| b * b * dot(c, c) / total - noise;
            Doubts { shares: slopes.iter().zip(columns).map(share).collect(), noise }
        }
        None => {
            let noise = 1.0 / (n - 1.0).max(1.0);
            let share = |(r, c): (&f64, &Vec<f64>)| r * r / (dot(c, c) * total).max(1e-300) - noise;
            Doubts { shares: right.iter().zip(columns).map(share).collect(), noise }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_numerics::samples::Generator;

    #[test]
    fn shares_of_a_sum_are_those_of_its_terms() {
        let mut draw = Generator::new(7);
        let mut column = || (0..900).map(|_| draw.unit() - 0.5).collect::<Vec<f64>>();
        let columns = [column(), column(), column()];
        let y: Vec<f64> = (0..900).map(|k| 3.0 * columns[0][k] + 4.0 * columns[1][k]).collect();
        let Doubts { shares, .. } = shares(&columns, &normal_matrix(&columns), &y, true);
        // Nine and sixteen parts of 25, and none; the columns are not quite uncorrelated.
        for (share, true_share) in shares.iter().zip([0.36, 0.64, 0.0]) {
            assert!((share - true_share).abs() < 0.05, "{shares:?}");
        }
    }

    #[test]
    fn chance_alone_explains_nothing() {
        let mut draw = Generator::new(3);
        // As many unknowns as pots, and a few: neither way does a sum of many shares grow out of noise.
        for (n, p) in [(120, 100), (1000, 100)] {
            let mut column = || (0..n).map(|_| draw.unit() - 0.5).collect::<Vec<f64>>();
            let columns: Vec<Vec<f64>> = (0..p).map(|_| column()).collect();
            let y = column();
            let found = shares(&columns, &normal_matrix(&columns), &y, n >= ENOUGH * p);
            assert!(found.explained() < 3.0 * found.off(p), "{n} pots: {}", found.explained());
            assert!(found.shares.iter().any(|s| *s < 0.0));
        }
    }
}
