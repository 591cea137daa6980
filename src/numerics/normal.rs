//! The normal distribution: how much of it lies below a place.

/// Share of a standard normal distribution below `z`, 0 to 1.
///
/// `P(z) = 1 − Z(z) (b1 t + b2 t² + b3 t³ + b4 t⁴ + b5 t⁵)`, `t = 1/(1 + p z)` for z from 0 on
///
/// - Source: published, Abramowitz and Stegun 1964, 26.2.17; out by less than 7.5e-8.
pub fn below(z: f64) -> f64 {
    const P: f64 = 0.231_641_9;
    const B: [f64; 5] = [0.319_381_530, -0.356_563_782, 1.781_477_937, -1.821_255_978, 1.330_274_429];
    let t = 1.0 / (1.0 + P * z.abs());
    let density = (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let tail = density * t * B.iter().rev().fold(0.0, |sum, b| b + t * sum);
    if z >= 0.0 { 1.0 - tail } else { tail }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_below_is_that_of_the_tables() {
        // Source: published, Abramowitz and Stegun 1964, table 26.1.
        for (z, share) in [(0.0, 0.5), (1.0, 0.841_344_746), (1.96, 0.975_002_105), (3.0, 0.998_650_102)] {
            assert!((below(z) - share).abs() < 7.5e-8, "{z}");
            assert!((below(-z) - (1.0 - share)).abs() < 7.5e-8, "{z}");
        }
    }
}
