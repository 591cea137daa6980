//! Quantiles: of a list of numbers, and of the normal distribution.

/// The value below which a share of the numbers lies, on a straight line between the two beside it.
///
/// - `sorted` — rising; `share` — 0 to 1. Not a number where the list is empty.
///
/// Source: published, Hyndman and Fan 1996, Am Stat 50:361, definition 7.
pub fn sorted(sorted: &[f64], share: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else { return f64::NAN };
    let (below, part) = place(last, share);
    between(sorted[below], sorted[(below + 1).min(last)], part)
}

/// Several quantiles of numbers in any order; the list is put into another one.
///
/// Only the numbers beside each place are looked for, which is quickest where the shares rise.
pub fn of<const N: usize>(values: &mut [f64], shares: [f64; N]) -> [f64; N] {
    let Some(last) = values.len().checked_sub(1) else { return [f64::NAN; N] };
    // All before this place are no larger than those from it on.
    let mut parted = 0;
    shares.map(|share| {
        let (below, part) = place(last, share);
        let from = if below < parted { 0 } else { parted };
        let (_, a, above) = values[from..].select_nth_unstable_by(below - from, f64::total_cmp);
        parted = below;
        let next = above.iter().copied().min_by(f64::total_cmp).unwrap_or(*a);
        between(*a, next, part)
    })
}

/// The place below a share in a list that ends at place `last`, and how far it is from there to the next.
fn place(last: usize, share: f64) -> (usize, f64) {
    let at = share.clamp(0.0, 1.0) * last as f64;
    let below = (at.floor() as usize).min(last);
    (below, at - below as f64)
}

/// Nothing is taken times an infinite distance, and two infinite ones are alike.
fn between(a: f64, b: f64, part: f64) -> f64 {
    if part == 0.0 || a.to_bits() == b.to_bits() { a } else { a + (b - a) * part }
}

/// Numerator and denominator of the middle, by powers of `0.180625 − q²`.
const MIDDLE: [[f64; 8]; 2] = [
    [
        3.387_132_872_796_366_6,
        133.141_667_891_784_38,
        1_971.590_950_306_551_3,
        13_731.693_765_509_46,
        45_921.953_931_549_87,
        67_265.770_927_008_7,
        33_430.575_583_588_13,
        2_509.080_928_730_122_7,
    ],
    [
        1.0,
        42.313_330_701_600_91,
        687.187_007_492_057_9,
        5_394.196_021_424_751,
        21_213.794_301_586_597,
        39_307.895_800_092_71,
        28_729.085_735_721_943,
        5_226.495_278_852_854,
    ],
];

/// The same of the tails, by powers of `√(−ln p) − 1.6`.
const TAILS: [[f64; 8]; 2] = [
    [
        1.423_437_110_749_683_6,
        4.630_337_846_156_546,
        5.769_497_221_460_691,
        3.647_848_324_763_204_5,
        1.270_458_252_452_368_4,
        0.241_780_725_177_450_6,
        0.022_723_844_989_269_184,
        7.745_450_142_783_414e-4,
    ],
    [
        1.0,
        2.053_191_626_637_759,
        1.676_384_830_183_803_8,
        0.689_767_334_985_1,
        0.148_103_976_427_480_08,
        0.015_198_666_563_616_457,
        5.475_938_084_995_345e-4,
        1.050_750_071_644_416_9e-9,
    ],
];

/// The normal deviate below which a share of all lies, for shares from 1e-11 to 1 − 1e-11; infinite at 0 and 1.
///
/// Source: published, Wichura 1988, Appl Stat 37:477, algorithm AS 241 (its two inner branches).
pub fn normal(share: f64) -> f64 {
    if share <= 0.0 || share >= 1.0 {
        return if share <= 0.0 { f64::NEG_INFINITY } else { f64::INFINITY };
    }
    let q = share - 0.5;
    if q.abs() <= 0.425 {
        return q * ratio(&MIDDLE, 0.180_625 - q * q);
    }
    let tail = share.min(1.0 - share);
    (ratio(&TAILS, (-tail.ln()).sqrt() - 1.6)).copysign(q)
}

fn ratio([above, below]: &[[f64; 8]; 2], r: f64) -> f64 {
    let power_sum = |terms: &[f64; 8]| terms.iter().rev().fold(0.0, |sum, term| sum * r + term);
    power_sum(above) / power_sum(below)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn normal_deviates_of_tables() {
        // Abramowitz and Stegun 1964, table 26.5; and the 5 % point to ten figures.
        for (share, z) in [
            (0.5, 0.0),
            (0.95, 1.644_853_626_951_472_7),
            (0.975, 1.959_963_984_540_054),
            (0.005, -2.575_829_303_548_900_4),
            (0.75, 0.674_489_750_196_081_7),
            (1e-6, -4.753_424_308_822_899),
        ] {
            assert!((normal(share) - z).abs() < 1e-12, "{share}: {}", normal(share));
            assert!((normal(1.0 - share) + z).abs() < 1e-9, "{share}");
        }
        assert_eq!(normal(0.0), f64::NEG_INFINITY);
    }

    #[test]
    fn quantiles_lie_between_their_neighbours() {
        let mut values = [4.0, 1.0, 3.0, 2.0];
        assert_eq!(of(&mut values, [0.0, 0.5, 1.0, 0.25]), [1.0, 2.5, 4.0, 1.75]);
        assert!(of(&mut [], [0.5])[0].is_nan());
        assert!(sorted(&[], 0.5).is_nan());
        assert_eq!(sorted(&[1.0, f64::INFINITY, f64::INFINITY], 0.75), f64::INFINITY);
        assert_eq!(sorted(&[1.0, 2.0, f64::INFINITY], 0.5), 2.0);
    }
    #[test]
    fn quantiles_of_a_list_are_those_of_the_list_in_order() {
        let mut draw = crate::samples::Generator::new(7);
        for n in 1..60 {
            // Some are alike, and the last are infinite.
            let mut values: Vec<f64> = (0..n).map(|_| (draw.unit() * 30.0).floor()).collect();
            values.iter_mut().for_each(|v| *v = if *v > 26.0 { f64::INFINITY } else { *v });
            let mut ordered = values.clone();
            ordered.sort_unstable_by(f64::total_cmp);
            let shares = [0.05, 0.25, 0.5, 0.95, 0.75, 0.0, 1.0];
            assert_eq!(of(&mut values, shares), shares.map(|share| sorted(&ordered, share)), "{ordered:?}");
        }
    }
}
