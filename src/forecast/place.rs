//! One value of a figure for a place in its spread.

use potset_base::Spread;
use potset_base::hash::fnv1a;
use potset_numerics::{normal, quantile};
use potset_science::params::Curve;

/// Deviate of the 95 % bound.
const Z95: f64 = 1.644_853_627;

/// Share left out at each end: the laws were never meant for the outermost values. Source: assumed.
const LEFT_OUT: f64 = 0.005;

/// A place in a spread.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// Share of all that lies below, 0.005 to 0.995.
    pub share: f64,
    /// The same as a normal deviate.
    pub z: f64,
}

impl Place {
    /// The place of a normal deviate, however far out.
    pub fn at(z: f64) -> Self {
        Self { share: normal::below(z), z }
    }

    /// The place of an evenly spread number from 0 to 1.
    pub fn of(unit: f64) -> Self {
        let share = LEFT_OUT + (1.0 - 2.0 * LEFT_OUT) * unit;
        Self { share, z: quantile::normal(share) }
    }

    /// The value of a figure here: half of all lie below the likely value, 5 % below the lower and above the upper bound.
    ///
    /// Each side of the likely value has its own width. What has a lower bound of 0 or more never goes below 0: under a
    /// bound `a` the tail is bent to `a·exp((x − a)/a)`. An even spread has its bounds as ends.
    pub fn value(self, v: f64, spread: Spread) -> f64 {
        let sided = |v: f64, low: f64, high: f64| {
            let width = if self.z < 0.0 { v - low } else { high - v };
            v + self.z * width / Z95
        };
        match spread {
            Spread::Exact => v,
            Spread::Uniform(low, _) if self.share < 0.5 => low + (v - low) * 2.0 * self.share,
            Spread::Uniform(_, high) => v + (high - v) * (2.0 * self.share - 1.0),
            Spread::LogNormal(low, high) => sided(v.ln(), low.ln(), high.ln()).exp(),
            Spread::Normal(low, high) => {
                let x = sided(v, low, high);
                match x < low {
                    true if low > 0.0 => low * ((x - low) / low).exp(),
                    true if low == 0.0 => 0.0,
                    _ => x,
                }
            }
        }
    }

    /// A factor between 1 and its bounds.
    pub fn factor(self, low: f64, high: f64) -> f64 {
        if low < high { self.value(1.0, Spread::LogNormal(low, high)) } else { 1.0 }
    }

    /// A curve of shares from 0 to 1, all moved together; what is nought or whole stays so.
    ///
    /// They are moved as logits, by the half-width over `v (1 − v)`, this no less than 0.1 (assumed).
    pub fn shares(self, curve: &Curve) -> Vec<(f64, f64)> {
        let moved = |v: f64| {
            if v <= 0.0 || v >= 1.0 {
                return v;
            }
            let logit = (v / (1.0 - v)).ln() + self.z * curve.half_width / Z95 / (v * (1.0 - v)).max(0.1);
            1.0 / (1.0 + (-logit).exp())
        };
        curve.points.iter().map(|(c, v)| (*c, moved(*v))).collect()
    }

    /// A curve of positive rates, all by one factor: the half-width over the mean of the values.
    pub fn rates(self, curve: &Curve) -> Vec<(f64, f64)> {
        let mean = curve.points.iter().map(|p| p.1).sum::<f64>() / curve.points.len().max(1) as f64;
        let factor = (self.z * (1.0 + curve.half_width / mean.max(1e-9)).ln() / Z95).exp();
        curve.points.iter().map(|(c, v)| (*c, v * factor)).collect()
    }
}

/// The stream of numbers of an unknown: its name, so that designs that share it draw it from the same places.
pub fn stream(key: &str) -> u64 {
    fnv1a(key.bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(z: f64, v: f64, spread: Spread) -> f64 {
        Place { share: 0.5, z }.value(v, spread)
    }

    #[test]
    fn bounds_are_met_and_the_middle_is_the_likely_value() {
        for spread in [Spread::Normal(1.0, 5.0), Spread::LogNormal(1.0, 5.0)] {
            assert!((at(0.0, 2.0, spread) - 2.0).abs() < 1e-12);
            assert!((at(-Z95, 2.0, spread) - 1.0).abs() < 1e-9);
            assert!((at(Z95, 2.0, spread) - 5.0).abs() < 1e-9);
        }
        let even = Place::of(0.5);
        assert!((even.value(2.0, Spread::Uniform(1.0, 5.0)) - 2.0).abs() < 1e-12 && even.z.abs() < 1e-12);
        let at_end = |unit: f64| Place::of(unit).value(1.0, Spread::Uniform(0.5, 1.0));
        assert!((at_end(0.5) - 1.0).abs() < 1e-12 && (at_end(0.9) - 1.0).abs() < 1e-12 && at_end(0.1) < 0.65);
    }

    #[test]
    fn what_cannot_be_negative_is_not() {
        let lowest = Place::of(0.0);
        assert!((lowest.z + 2.575_829).abs() < 1e-5);
        assert!(lowest.value(1.4, Spread::Normal(0.2, 2.0)) > 0.0);
        assert_eq!(lowest.value(1.0, Spread::Normal(0.0, 2.0)), 0.0);
        // An offset may well be negative.
        assert!(lowest.value(0.0, Spread::Normal(-1.0, 1.0)) < -1.5);
    }
}
