//! The integrator: Verner 6(5) with dense output, from the crate `differential-equations`.
//!
//! Not its Dormand-Prince: in version 0.7.0 the dense output of `dopri5` and `dop853` is no better than a cubic, so
//! that points inside a step are out by a hundred times the tolerance.

use differential_equations::prelude::*;

use super::Error;

/// A system of ordinary differential equations with `N` states.
pub trait System<const N: usize> {
    /// Rates of change at time `t` and state `y`.
    fn rates(&self, t: f64, y: &[f64; N], dy: &mut [f64; N]);
}

/// The system over a span of its own, s from 0 to 1: the crate compares what is left of a run with roundings of 1, and at
/// hundreds of hours the last rounding of a time would count as a step.
struct Face<'a, S> {
    system: &'a S,
    from: f64,
    width: f64,
}

impl<const N: usize, S: System<N>> ODE<f64, [f64; N]> for Face<'_, S> {
    fn diff(&self, s: f64, y: &[f64; N], dydt: &mut [f64; N]) {
        self.system.rates(self.from + s * self.width, y, dydt);
        for rate in dydt {
            *rate *= self.width;
        }
    }
}

/// Tolerances of a run. They bound the local error of a step, not the error at the end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    pub relative: f64,
    pub absolute: f64,
}

/// Integrates from `t0` to `t1` and appends the states at the times `at` (rising, inside the span) to `out`.
/// Returns the state at `t1`.
///
/// Discontinuities of the rates must lie at `t0` or `t1`: end a run there and start a new one.
///
/// # Errors
/// [`Error::Integration`] with the time where the integrator gave up.
pub fn integrate<const N: usize>(
    system: &impl System<N>,
    span: (f64, f64),
    start: [f64; N],
    at: &[f64],
    tolerance: Tolerance,
    out: &mut Vec<[f64; N]>,
) -> Result<[f64; N], Error> {
    let (t0, t1) = span;
    let mut points = Vec::with_capacity(at.len() + 1);
    points.extend(at.iter().map(|t| (t - t0) / (t1 - t0)));
    let ends_asked = at.last().is_some_and(|last| *last >= t1);
    if !ends_asked {
        points.push(1.0);
    }
    // The crate calls a run complete when it is within ten roundings of the end, so the end itself may not be reached.
    if let Some(last) = points.last_mut() {
        *last = last.min(1.0 - 4e-15);
    }
    let face = Face { system, from: t0, width: t1 - t0 };
    let run = IVP::ode(&face, 0.0, 1.0, start)
        .t_eval(&points)
        .method(
            ExplicitRungeKutta::rkv655e()
                .rtol(tolerance.relative)
                .atol(tolerance.absolute)
                .max_steps(200_000),
        )
        .solve()
        .map_err(|e| failure(span, &e))?;
    if run.y.len() != points.len() {
        return Err(Error::Integration {
            at: t1,
            reason: format!("{} of {} points", run.y.len(), points.len()),
        });
    }
    let end = run.y.last().copied().unwrap_or(start);
    if end.iter().any(|v| !v.is_finite()) {
        return Err(Error::Integration { at: t1, reason: "a state is not a number".to_owned() });
    }
    out.extend(run.y.into_iter().take(at.len()));
    Ok(end)
}

fn failure<const N: usize>(
    (t0, t1): (f64, f64),
    error: &differential_equations::error::Error<f64, [f64; N]>,
) -> Error {
    use differential_equations::error::Error as Cause;
    let (at, reason) = match error {
        Cause::MaxSteps { t, .. } => (*t, "too many steps"),
        Cause::StepSize { t, .. } => (*t, "the step became too small"),
        Cause::Stiffness { t, .. } => (*t, "the rates are too stiff"),
        _ => (0.0, "the input cannot be integrated"),
    };
    Error::Integration { at: t0 + at * (t1 - t0), reason: reason.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Decay;
    impl System<1> for Decay {
        fn rates(&self, _t: f64, y: &[f64; 1], dy: &mut [f64; 1]) {
            dy[0] = -y[0];
        }
    }

    #[test]
    fn decay_follows_the_exponential() {
        let mut out = Vec::new();
        let tolerance = Tolerance { relative: 1e-9, absolute: 1e-12 };
        let end = integrate(&Decay, (0.0, 2.0), [1.0], &[0.5, 1.0], tolerance, &mut out).unwrap();
        assert_eq!(out.len(), 2);
        assert!((out[1][0] - (-1.0_f64).exp()).abs() < 1e-8);
        assert!((end[0] - (-2.0_f64).exp()).abs() < 1e-8);
    }

    struct Driven;
    impl System<2> for Driven {
        fn rates(&self, t: f64, y: &[f64; 2], dy: &mut [f64; 2]) {
            dy[0] = t.sin() - y[0];
            dy[1] = 0.3 * y[0] * y[1];
        }
    }

    fn driven(to: f64, at: &[f64], tolerance: f64) -> Vec<[f64; 2]> {
        let mut out = Vec::new();
        let tolerance = Tolerance { relative: tolerance, absolute: tolerance };
        integrate(&Driven, (0.0, to), [1.0, 1.0], at, tolerance, &mut out).unwrap();
        out
    }

    #[test]
    fn points_inside_steps_are_as_exact_as_the_ends() {
        let at: Vec<f64> = (1..=200).map(|i| f64::from(i) * 0.02).collect();
        let (usual, fine) = (driven(4.0, &at, 1e-7), driven(4.0, &at, 1e-13));
        for ((t, a), b) in at.iter().zip(&usual).zip(&fine) {
            // A cubic between the ends of the steps would be out by 1.7e-5 here.
            assert!((a[0] - b[0]).abs() < 1e-6 && (a[1] - b[1]).abs() < 1e-6, "at {t}");
        }
    }

    #[test]
    fn every_end_is_reached() {
        for i in 1..=5000 {
            let end = f64::from(i) * 0.0048;
            assert_eq!(driven(end, &[end], 1e-7).len(), 1, "{end}");
            // Late and far, as a pot in the fridge: a rounding of the time is no step.
            let late = 400.0 + f64::from(i) * 0.0137;
            let mut out = Vec::new();
            let tolerance = Tolerance { relative: 1e-6, absolute: 1e-6 };
            integrate(&Decay, (31.7, late), [1.0], &[32.0, late], tolerance, &mut out).unwrap();
            assert_eq!(out.len(), 2, "{late}");
        }
    }
}
