//! What the laws of texture leave out, after what the drawn figures scatter already.

use potset_numerics::quantile;

/// Shares of a normal spread that lie below one sigma under and over its middle.
const ONE_SIGMA: [f64; 2] = [0.158_655_254, 0.841_344_746];

/// One sigma, as a logarithm, that is left of a stated one after what positive values scatter by themselves is taken off.
///
/// `s² = σ² − w²`, not below nought, with `w` half the distance of the logarithms at 16 and 84 %: one sigma of a normal
/// spread, and a few pots that have not set do not count. Source: derived, so that the two are not counted twice.
pub fn left_of(stated: f64, values: impl Iterator<Item = f64>) -> f64 {
    let mut logs: Vec<f64> = values.map(f64::ln).filter(|v| v.is_finite()).collect();
    if logs.is_empty() {
        return stated;
    }
    let [low, high] = quantile::of(&mut logs, ONE_SIGMA);
    let own = 0.5 * (high - low);
    (stated * stated - own * own).max(0.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_figures_scatter_is_taken_off() {
        // A thousand even places of a normal spread of one sigma 0.3, as a logarithm.
        let sample = || (1..1000).map(|k| (0.3 * quantile::normal(f64::from(k) / 1000.0)).exp());
        assert!((left_of(0.5, sample()) - 0.4).abs() < 1e-3);
        assert_eq!(left_of(0.2, sample()), 0.0);
        assert_eq!(left_of(0.5, std::iter::empty()), 0.5);
        // A few pots that have not set are a thousand times thinner.
        let some_unset = sample().enumerate().map(|(k, v)| if k % 25 == 0 { 1e-3 * v } else { v });
        assert!((left_of(0.5, some_unset) - 0.4).abs() < 0.03);
    }
}
