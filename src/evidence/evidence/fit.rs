//! Pace, lag and buffer of one culture of one paper: bounded least squares with the pantry's spreads as priors.

use super::forecasts;
use potset_base::{Note, choices};
use potset_doc::Pantry;
use potset_doc::evidence::{Case, Fit};
use potset_forecast::evidence::{Knobs, priors, said};
use potset_numerics::least_squares::{Unknown, minimise};

choices! {
    /// What may be turned, in the order of the unknowns.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum FittedFactor: words {
        Speed => "pace",
        Lag => "lag",
        Buffer => "buffer",
    }
}

/// A fitted value: a factor on what its case says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    pub what: FittedFactor,
    pub factor: f64,
    /// What the first case of its group says: pace, lag, or buffer in mmol/(kg pH).
    pub said: f64,
    /// One sigma of its logarithm, by Laplace's rule; and before any reading.
    pub sigma: f64,
    pub prior_sigma: f64,
}

/// The fitted values of one culture of one paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    pub shared: String,
    pub values: Vec<Value>,
}

impl Fitted {
    fn knobs(&self) -> Knobs {
        set(&self.values.iter().map(|v| (v.what, v.factor)).collect::<Vec<_>>())
    }
}

/// Beyond so many scatters a residual grows as its square root only (robust).
const HUBER: f64 = 3.0;

/// What a pot counts in a fit that never comes to its reading, scatters.
const NEVER: f64 = 30.0;

/// The unknowns that a group of cases shares, with the residuals that they leave.
struct Problem<'a> {
    cases: &'a [&'a Case],
    pantry: &'a Pantry,
    knobs: Vec<FittedFactor>,
    /// Sigmas of the logarithms of the factors, in the order of [`LeverId`], and what the factors are on.
    priors: [f64; 3],
    said: [f64; 3],
}

impl<'a> Problem<'a> {
    fn new(shared: &str, cases: &'a [&'a Case], pantry: &'a Pantry) -> Result<Self, Note> {
        let may = |pick: &dyn Fn(&Fit) -> bool| cases.iter().filter_map(|c| c.fit.as_ref()).any(pick);
        let mut knobs = Vec::new();
        for (what, allowed) in [
            (FittedFactor::Speed, may(&|f| f.speed)),
            (FittedFactor::Lag, may(&|f| f.lag)),
            (FittedFactor::Buffer, may(&|f| f.buffer)),
        ] {
            if allowed {
                knobs.push(what);
            }
        }
        let pot = cases
            .iter()
            .find_map(|c| c.pot())
            .ok_or_else(|| Note::error(shared, "None of its cases is a pot", "Mend the cases"))?;
        Ok(Self { cases, pantry, knobs, priors: priors(pot, pantry)?, said: said(pot, pantry)? })
    }

    fn prior(&self, what: FittedFactor) -> f64 {
        self.priors[what as usize]
    }

    /// Logarithms as factors, knob by knob.
    fn turned(&self, x: &[f64]) -> Vec<(FittedFactor, f64)> {
        self.knobs.iter().copied().zip(x.iter().map(|v| v.exp())).collect()
    }

    /// The priors' residuals, then those of all readings.
    fn residuals(&self, x: &[f64]) -> Vec<f64> {
        let knobs = set(&self.turned(x));
        let mut all: Vec<f64> = self.knobs.iter().zip(x).map(|(k, v)| v / self.prior(*k)).collect();
        for case in self.cases {
            match forecasts(case, &knobs, self.pantry) {
                Ok(list) => all.extend(
                    list.iter()
                        .zip(&case.readings)
                        .map(|(f, r)| robust(f.map_or(NEVER, |f| r.difference(f)))),
                ),
                Err(_) => all.extend(case.readings.iter().map(|_| f64::NAN)),
            }
        }
        all
    }
}

/// Fits the values that the cases of a group share.
///
/// # Errors
/// A note if a case cannot be run at its start, or has no prior.
pub fn group(shared: &str, cases: &[&Case], pantry: &Pantry) -> Result<Fitted, Note> {
    let problem = Problem::new(shared, cases, pantry)?;
    // Three sigmas of the prior either way are the bounds.
    let unknowns: Vec<Unknown> = problem
        .knobs
        .iter()
        .map(|k| Unknown {
            start: 0.0,
            low: -3.0 * problem.prior(*k),
            high: 3.0 * problem.prior(*k),
            step: 0.01,
        })
        .collect();
    let found = minimise(|x| problem.residuals(x), &unknowns);
    if !found.cost.is_finite() {
        return Err(Note::error(shared, "A case of this group cannot be run", "Mend the case"));
    }
    let values = problem
        .turned(&found.x)
        .into_iter()
        .zip(found.sigma)
        .map(|((what, factor), sigma)| Value {
            what,
            factor,
            said: problem.said[what as usize],
            sigma,
            prior_sigma: problem.prior(what),
        })
        .collect();
    Ok(Fitted { shared: shared.to_owned(), values })
}

/// Huber's rule as a residual: half its square grows as a straight line beyond [`HUBER`].
///
/// Source: published, Huber 1964, Ann Math Stat 35:73.
fn robust(d: f64) -> f64 {
    if d.abs() <= HUBER { d } else { d.signum() * (HUBER * (2.0 * d.abs() - HUBER)).sqrt() }
}

fn set(values: &[(FittedFactor, f64)]) -> Knobs {
    let of = |what: FittedFactor| values.iter().find(|(k, _)| *k == what).map_or(1.0, |(_, f)| *f);
    Knobs { speed: of(FittedFactor::Speed), lag: of(FittedFactor::Lag), buffer: of(FittedFactor::Buffer) }
}

/// The fitted values that a case runs with.
pub fn knobs_of(case: &Case, fitted: &[Fitted]) -> Knobs {
    case.fit
        .as_ref()
        .and_then(|fit| fitted.iter().find(|f| f.shared == fit.shared))
        .map_or(Knobs::NONE, Fitted::knobs)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_value_close_by_fits_better() {
        let pantry = potset_doc::assets::pantry().unwrap();
        let cases = potset_doc::evidence::shipped().unwrap();
        for shared in ["florence2009_pair", "florence2009_bifido", "dan2019", "yuliana2010"] {
            let of: Vec<&Case> = cases
                .iter()
                .filter(|c| c.fit.as_ref().is_some_and(|f| f.shared == shared))
                .filter(|c| super::super::waits(c, &pantry).is_none())
                .collect();
            let problem = Problem::new(shared, &of, &pantry).unwrap();
            let found = group(shared, &of, &pantry).unwrap();
            let at: Vec<f64> = found.values.iter().map(|v| v.factor.ln()).collect();
            let cost = |x: &[f64]| problem.residuals(x).iter().map(|r| r * r).sum::<f64>();
            let best = cost(&at);
            for k in 0..at.len() {
                for step in [-0.3, -0.1, -0.03, 0.03, 0.1, 0.3] {
                    let mut there = at.clone();
                    there[k] += step;
                    assert!(cost(&there) > best - 0.05, "{shared} {k} {step}: {} {best}", cost(&there));
                }
            }
        }
    }

    #[test]
    fn the_robust_residual_is_smooth_where_it_bends() {
        assert_eq!(robust(2.9), 2.9);
        assert!((robust(3.0 + 1e-9) - 3.0).abs() < 1e-8);
        // Half the square is 3 d − 4.5.
        assert!((0.5 * robust(-7.0).powi(2) - 16.5).abs() < 1e-12 && robust(-7.0) < 0.0);
    }
}
