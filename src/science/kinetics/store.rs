//! Loss of living cells in the cold: little at first, then as many decades a week, by organism.

use std::f64::consts::LN_10;

use potset_numerics::interpolate::smooth_step;

/// Hours of a week.
const WEEK_H: f64 = 168.0;

/// Constants of the loss, the same for all organisms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loss {
    /// Below this the cold counts in full, above the other not at all, °C.
    pub full_below_c: f64,
    pub none_above_c: f64,
    /// Temperature at which an organism's loss is stated, °C.
    pub reference_c: f64,
    /// How much faster 10 °C more make it.
    pub q10: f64,
    /// Days in the cold after which half of the loss has set in.
    pub delay_days: f64,
}

/// How far a temperature counts as cold, 0 to 1: nothing is known of slow death where cells can still grow.
pub fn coldness(t: f64, law: &Loss) -> f64 {
    1.0 - smooth_step(law.full_below_c, law.none_above_c, t)
}

/// Rate of loss once it has set in, 1/h: `ln 10/168 · r · Q10^((T − Tref)/10) · coldness`.
///
/// - `t` — °C; `decades_week` — r, decades a week at the reference.
/// - Source: assumed form (first order, as the published series are nearly straight lines of the logarithm); rates of
///   the organisms in the pantry.
pub fn rate(t: f64, decades_week: f64, law: &Loss) -> f64 {
    LN_10 / WEEK_H * decades_week * law.q10.powf(0.1 * (t - law.reference_c)) * coldness(t, law)
}

/// Share of the loss that has set in after some days in the cold: `d²/(d² + d1²)`.
///
/// Source: assumed form; five published series do not fall, or rise by 0.1 to 0.6 decades, in their first one to seven
/// days (Dan et al. 2019, Front Microbiol 9:3133, Table 4, among them).
pub fn begun(days: f64, law: &Loss) -> f64 {
    let square = days * days;
    square / (square + law.delay_days * law.delay_days)
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAW: Loss =
        Loss { full_below_c: 8.0, none_above_c: 16.0, reference_c: 4.0, q10: 3.0, delay_days: 3.0 };

    #[test]
    fn so_many_decades_a_week_at_the_reference_and_none_where_cells_grow() {
        assert!((rate(4.0, 0.4, &LAW) * WEEK_H / LN_10 - 0.4).abs() < 1e-12);
        assert!(rate(8.0, 0.4, &LAW) > 1.5 * rate(4.0, 0.4, &LAW));
        assert_eq!(rate(16.0, 0.4, &LAW), 0.0);
    }

    #[test]
    fn it_sets_in_slowly_and_fades_without_a_jump() {
        assert_eq!(begun(0.0, &LAW), 0.0);
        assert!((begun(3.0, &LAW) - 0.5).abs() < 1e-12 && begun(28.0, &LAW) > 0.98);
        let mut last = rate(0.0, 1.0, &LAW);
        for i in 1..=20_000 {
            let now = rate(f64::from(i) * 1e-3, 1.0, &LAW);
            assert!((now - last).abs() < 1e-5, "at {}", f64::from(i) * 1e-3);
            last = now;
        }
    }
}
