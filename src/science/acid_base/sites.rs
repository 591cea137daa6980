//! Proton-binding sites of a base: how much acid it takes up between two pH values.

use std::f64::consts::LN_10;

/// A kind of site: amount \[mmol/kg\], pK, and cooperativity n (1 for independent sites).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Site {
    pub amount: f64,
    pub pk: f64,
    pub n: f64,
}

/// pH between which a mean buffer is stated.
pub const MEAN_FROM: f64 = 6.5;
/// See [`MEAN_FROM`].
pub const MEAN_TO: f64 = 4.3;

/// Protons bound by sites.
///
/// `B(pH) = Σ N_j / (1 + 10^(n_j (pH − pK_j)))`
///
/// - `ph` — \[-\]. Result — mmol/kg, falling as pH rises.
/// - Source: published form, Hill 1910; sites of milk from `assets/pantry.ron`.
pub fn bound(sites: &[Site], ph: f64) -> f64 {
    sites.iter().map(|s| s.amount / (1.0 + (LN_10 * s.n * (ph - s.pk)).exp())).sum()
}

/// Slope of [`bound`], mmol/(kg pH), negative.
pub fn slope(sites: &[Site], ph: f64) -> f64 {
    sites
        .iter()
        .map(|s| {
            let x = (LN_10 * s.n * (ph - s.pk)).exp();
            // x/(1+x)² written so that a huge x gives 0, not a quotient of infinities.
            let free = 1.0 / (1.0 + x);
            -s.amount * s.n * LN_10 * free * (1.0 - free)
        })
        .sum()
}

/// Mean buffer from pH 6.5 to 4.3, mmol/(kg pH).
pub fn mean_buffer(sites: &[Site]) -> f64 {
    (bound(sites, MEAN_TO) - bound(sites, MEAN_FROM)) / (MEAN_FROM - MEAN_TO)
}

/// The same shape with amounts scaled to a mean buffer \[mmol/(kg pH)\], times the share of the base in the pot.
pub fn scaled(shape: &[Site], mean: f64, share: f64) -> Vec<Site> {
    let own = mean_buffer(shape);
    let factor = if own > 0.0 { mean / own * share } else { 0.0 };
    shape.iter().map(|s| Site { amount: s.amount * factor, ..*s }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scaling_gives_the_asked_mean() {
        let shape = [Site { amount: 6.5, pk: 4.8, n: 1.0 }, Site { amount: 3.0, pk: 6.5, n: 1.0 }];
        assert!((mean_buffer(&scaled(&shape, 18.0, 0.5)) - 9.0).abs() < 1e-12);
    }

    #[test]
    fn slope_is_the_numeric_slope() {
        let sites = [Site { amount: 13.0, pk: 5.15, n: 1.8 }];
        for ph in [4.0, 5.0, 5.15, 6.0] {
            let numeric = (bound(&sites, ph + 1e-5) - bound(&sites, ph - 1e-5)) / 2e-5;
            assert!((slope(&sites, ph) - numeric).abs() < 1e-4);
        }
        assert!(slope(&sites, 900.0).is_finite());
    }
}
