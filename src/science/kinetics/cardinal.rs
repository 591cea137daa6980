//! How temperature and pH slow growth: the cardinal models.

/// Cardinal temperature model with inflection.
///
/// `γ = (T − Tmax)(T − Tmin)² / ((Topt − Tmin) [(Topt − Tmin)(T − Topt) − (Topt − Tmax)(Topt + Tmin − 2T)])`
/// between Tmin and Tmax, 0 outside; 1 at Topt.
///
/// - `t` — °C; `[min, opt, max]` — °C with opt above the middle of min and max. Result — \[-\], 0 to 1.
/// - Source: published, Rosso et al. 1993, J Theor Biol 162:447.
/// - Checked by unit tests and the reference cases.
pub fn temperature(t: f64, [min, opt, max]: [f64; 3]) -> f64 {
    if t <= min || t >= max {
        return 0.0;
    }
    let above = (t - min) * (t - min);
    let below = (opt - min) * ((opt - min) * (t - opt) - (opt - max) * (opt + min - 2.0 * t));
    (t - max) * above / below
}

/// Cardinal pH model.
///
/// `γ = (pH − min)(pH − max) / ((pH − min)(pH − max) − (pH − opt)²)` between min and max, 0 outside; 1 at opt.
///
/// - Source: published, Rosso et al. 1995, Appl Environ Microbiol 61:610.
pub fn ph(ph: f64, [min, opt, max]: [f64; 3]) -> f64 {
    if ph <= min || ph >= max {
        return 0.0;
    }
    let product = (ph - min) * (ph - max);
    product / (product - (ph - opt) * (ph - opt))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_at_the_best_and_nothing_outside() {
        let cardinals = [19.0, 42.0, 50.5];
        assert!((temperature(42.0, cardinals) - 1.0).abs() < 1e-12);
        assert_eq!(temperature(19.0, cardinals), 0.0);
        assert_eq!(temperature(50.5, cardinals), 0.0);
        assert!((ph(6.5, [4.4, 6.5, 8.5]) - 1.0).abs() < 1e-12);
        assert_eq!(ph(4.3, [4.4, 6.5, 8.5]), 0.0);
    }

    #[test]
    fn rises_to_the_best_and_falls_from_it() {
        let at = |t: f64| temperature(t, [19.0, 42.0, 50.5]);
        let mut last = 0.0;
        for i in 1..=100 {
            let now = at(19.0 + 23.0 * f64::from(i) / 100.0);
            assert!(now > last);
            last = now;
        }
        for i in 1..100 {
            let now = at(42.0 + 8.5 * f64::from(i) / 100.0);
            assert!(now < last);
            last = now;
        }
    }
}
