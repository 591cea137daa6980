//! Looks for the value of a number at which something is as it was: brackets from where it stands outwards, then a root.

use std::cell::Cell;

use potset_numerics::root;

/// Differences of logarithms below this count as none: a fifth of a percent, far under what is noticed. Source: assumed.
pub const NONE: f64 = 0.002;
/// What a rounded answer may be off by: half a percent. Source: assumed.
pub const CLOSE: f64 = 0.005;

/// Steps outwards to an end of the range; each is twice as wide as the one before it.
const STEPS: u32 = 6;

/// How near it can be brought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    pub at: f64,
    /// Difference that stays there; nothing if there is no forecast anywhere.
    pub off: Option<f64>,
}

/// The value within a range where `off` is nothing, near `start` if it can be.
///
/// - `off` — how far it is from what is wanted, as a difference of logarithms; nothing where there is no forecast.
///
/// # Errors
/// The nearest that was found, where none is near enough.
pub fn seek(start: f64, range: (f64, f64), off: impl Fn(f64) -> Option<f64>) -> Result<f64, Nearest> {
    let nearest = Cell::new(Nearest { at: start, off: None });
    let seen = |x: f64| {
        let difference = off(x).filter(|d| d.is_finite()).unwrap_or(f64::NAN);
        if difference.is_finite() && nearest.get().off.is_none_or(|d| difference.abs() < d.abs()) {
            nearest.set(Nearest { at: x, off: Some(difference) });
        }
        if difference.abs() < NONE { 0.0 } else { difference }
    };
    let found = || Ok(nearest.get().at);
    let start = start.clamp(range.0, range.1);
    let here = seen(start);
    if here == 0.0 {
        return found();
    }
    // More is nearly always thicker and sourer, so that is tried first where there is too little.
    let ends = if here > 0.0 { [range.0, range.1] } else { [range.1, range.0] };
    for end in ends {
        let mut before = (start, here);
        for step in 1..=STEPS {
            let share = f64::from(2_u32.pow(step) - 1) / f64::from(2_u32.pow(STEPS) - 1);
            let x = start + share * (end - start);
            let there = seen(x);
            if there == 0.0 {
                return found();
            }
            if before.1 * there < 0.0 {
                // It stops by itself where the difference counts as none; a jump over it is found out below.
                let _ = root::between(seen, before.0, x, 1e-6 * (range.1 - range.0));
                if nearest.get().off.is_some_and(|d| d.abs() < CLOSE) {
                    return found();
                }
            }
            before = (x, there);
        }
    }
    Err(nearest.get())
}

/// A value with as few decimals as still do.
pub fn rounded(value: f64, decimals: usize, does: impl Fn(f64) -> bool) -> f64 {
    let to = |d: usize| {
        let scale = 10.0_f64.powi(i32::try_from(d).unwrap_or(9));
        (value * scale).round() / scale
    };
    (decimals..decimals + 3).map(to).find(|v| does(*v)).unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_finds_what_is_there_and_tells_the_nearest_if_not() {
        let square = |x: f64| Some((x * x / 9.0).ln());
        let at = seek(1.0, (0.1, 60.0), square).unwrap();
        assert!(square(at).unwrap().abs() < NONE);
        // Falling instead of rising.
        let at = seek(20.0, (0.1, 60.0), |x| square(x).map(|d| -d)).unwrap();
        assert!((at - 3.0).abs() < 0.01, "{at}");
        let near = seek(1.0, (0.1, 2.0), square).unwrap_err();
        assert!((near.at - 2.0).abs() < 1e-12 && near.off.unwrap() < 0.0);
        assert_eq!(seek(1.0, (0.1, 2.0), |_| None).unwrap_err().off, None);
        // A jump over it is not taken for an answer.
        let near = seek(1.0, (0.0, 10.0), |x| Some(if x < 4.0 { -0.3 } else { 0.2 })).unwrap_err();
        assert!(near.at >= 4.0 && near.off == Some(0.2));
    }

    #[test]
    fn no_more_decimals_than_it_needs() {
        assert_eq!(rounded(18.4567, 1, |v| (v - 18.4567).abs() < 0.1), 18.5);
        assert_eq!(rounded(18.4567, 1, |v| (v - 18.4567).abs() < 0.004), 18.46);
        assert_eq!(rounded(18.4567, 1, |_| false), 18.4567);
    }
}
