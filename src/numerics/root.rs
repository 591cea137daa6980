//! Roots of continuous functions between two bounds.

use super::Error;

/// A root of `f` between `low` and `high`, by regula falsi with the Illinois rule, finished by bisection.
///
/// # Errors
/// [`Error::NoRoot`] if `f` has one sign at both bounds.
pub fn between(f: impl Fn(f64) -> f64, low: f64, high: f64, tolerance: f64) -> Result<f64, Error> {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    if fa == 0.0 {
        return Ok(a);
    }
    if fb == 0.0 {
        return Ok(b);
    }
    if (fa > 0.0) == (fb > 0.0) || !fa.is_finite() || !fb.is_finite() {
        return Err(Error::NoRoot { low, high });
    }
    for round in 0..200 {
        let width = b - a;
        if width.abs() <= tolerance {
            break;
        }
        // Every third step halves, so that a flat end cannot hold the search up.
        let c = if round % 3 == 2 { 0.5 * (a + b) } else { b - fb * width / (fb - fa) };
        let fc = f(c);
        if fc == 0.0 {
            return Ok(c);
        }
        if (fc > 0.0) == (fb > 0.0) {
            fa *= 0.5;
        } else {
            (a, fa) = (b, fb);
        }
        (b, fb) = (c, fc);
    }
    Ok(0.5 * (a + b))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_root_of_two() {
        let root = between(|x| x * x - 2.0, 0.0, 2.0, 1e-12).unwrap();
        assert!((root - 2.0_f64.sqrt()).abs() < 1e-10);
    }

    #[test]
    fn says_when_there_is_none() {
        assert_eq!(between(|x| x * x + 1.0, 0.0, 2.0, 1e-9), Err(Error::NoRoot { low: 0.0, high: 2.0 }));
    }
}
