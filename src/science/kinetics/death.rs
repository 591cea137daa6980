//! Death by heat above the highest growth temperature.

use std::f64::consts::LN_10;

/// Death rate, 1/h.
///
/// `k = ln 10 (1/D(T) − 1/D(Tmax))` for T above Tmax, `D(T) = D60 · 10^((60 − T)/z)`
///
/// The value at Tmax is taken off so that the rate starts from nothing there; at 60 °C this changes it by under 5 %.
///
/// - `d60_min` — min; `z_c` — °C. Result — 1/h, 0 up to Tmax.
/// - Source: published form, Bigelow 1921; D and z assumed, see the pantry. Most *S. thermophilus* strains survive
///   60 °C for 30 min (published); common practice treats 50 °C as the end of a culture.
pub fn rate(t: f64, t_max: f64, d60_min: f64, z_c: f64) -> f64 {
    if t <= t_max {
        return 0.0;
    }
    let per_hour = |c: f64| 60.0 / d60_min * (LN_10 * (c - 60.0) / z_c).exp();
    LN_10 * (per_hour(t) - per_hour(t_max))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_decade_in_d_at_sixty() {
        let rate = rate(60.0, 50.5, 20.0, 6.0);
        let decades = rate / LN_10 * (20.0 / 60.0);
        assert!((decades - 1.0).abs() < 0.05, "{decades}");
        assert_eq!(super::rate(50.5, 50.5, 20.0, 6.0), 0.0);
    }
}
