//! The fit of many pots at once: Gauss-Newton on a posterior of three levels, each pot's own part taken out by elimination.
//!
//! Each input of a pot (the place of one figure) is a sum: `x = Σ u + v`. The shared parts `u` last with a culture, a base, a
//! packet; `v` is the pot's own. All are normal around 0, and the variances of an input's parts add up to 1, the spread of its
//! figure. With the pots' readings made linear about the present place, `v` is eliminated from each pot's own few equations,
//! and the shared parts are left with a system no larger than their number, however many pots there are.
//!
//! Source: published, the two levels of a linear mixed model (Laird and Ware 1982, Biometrics 38:963) in Gauss-Newton steps;
//! ranges by Laplace's rule.

use crate::equations::{
    self, Eliminated, Equations, Input, dot, each, eliminate, of_inputs, own_step, spread_of,
};
use potset_numerics::cholesky::Cholesky;

/// A pot with readings.
pub trait Observed {
    /// The readings.
    fn values(&self) -> Vec<f64>;
    /// One variance of each that is its own: the scatter of the reading.
    fn variances(&self) -> Vec<f64>;
    /// What the readings would be at each of several places of the inputs; nothing where there is no forecast.
    fn forecasts(&mut self, places: &[Vec<f64>]) -> Vec<Option<Vec<f64>>>;
}

/// What was found about one pot.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedPot {
    /// Its places, and one sigma of each.
    pub places: Vec<f64>,
    pub sigma: Vec<f64>,
    /// How the doubts that are left hang together, from -1 to 1.
    pub correlation: Vec<Vec<f64>>,
    /// The readings as they come out at its places, and before any pot.
    pub after: Vec<f64>,
    pub before: Vec<f64>,
    /// How far each reading lies from what all the others of the pot say, scatters.
    pub aside: Vec<f64>,
    /// The places that the other pots alone give it.
    pub without: Vec<f64>,
    /// One sigma of those, of a pot that nothing was read of.
    pub without_sigma: Vec<f64>,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The shared parts, and what is not known of them.
    pub shared: Vec<f64>,
    pub covariance: Vec<Vec<f64>>,
    /// Pot by pot; nothing for a pot that could not be forecast.
    pub pots: Vec<Option<FittedPot>>,
}

/// A reading that lies so many scatters from what the others say counts less: its own scatter grows by the square of how much
/// farther it is.
const ASIDE: f64 = 3.0;

/// Most steps, and how often readings are weighed again.
const STEPS: usize = 8;
const WEIGHED: usize = 1;

/// Step of the difference quotients to both sides, deviates.
const STEP: f64 = 0.25;

/// Farthest place from the likely one, deviates: what the laws are still meant for.
const FARTHEST: f64 = 3.5;

/// A pot made linear about a place.
struct Linear {
    /// Readings less what they would be.
    left: Vec<f64>,
    /// What each input does to each reading: a row an input.
    slopes: Vec<Vec<f64>>,
}

/// One pot in the fit.
struct Member<'a> {
    of: &'a mut dyn Observed,
    inputs: &'a [Input],
    values: Vec<f64>,
    variances: Vec<f64>,
    places: Vec<f64>,
    own: Vec<f64>,
    aside: Vec<f64>,
    before: Vec<f64>,
    linear: Option<Linear>,
}

impl Member<'_> {
    /// Makes it linear about its place.
    fn look(&mut self) {
        let n = self.inputs.len();
        let held: Vec<f64> = self.places.iter().map(|p| p.clamp(-FARTHEST, FARTHEST)).collect();
        let moved = |k: usize, by: f64| {
            let mut there = held.clone();
            there[k] += by;
            there
        };
        let sides = (0..n).flat_map(|k| [moved(k, STEP), moved(k, -STEP)]);
        let places: Vec<Vec<f64>> = std::iter::once(held.clone()).chain(sides).collect();
        let all = self.of.forecasts(&places);
        let Some(Some(here)) = all.first().cloned() else {
            self.linear = None;
            return;
        };
        let slopes = all[1..].chunks(2).map(|pair| match pair {
            [Some(up), Some(down)] => up.iter().zip(down).map(|(u, d)| (u - d) / (2.0 * STEP)).collect(),
            _ => vec![0.0; here.len()],
        });
        let slopes: Vec<Vec<f64>> = slopes.collect();
        let left = self.values.iter().zip(&here).map(|(v, h)| v - h).collect();
        if self.before.is_empty() {
            self.before.clone_from(&here);
        }
        self.linear = Some(Linear { left, slopes });
    }

    /// The scatter of the readings together, whatever the places.
    fn scatter(&self, linear: &Linear) -> Vec<Vec<f64>> {
        let n = self.values.len();
        let mut all = vec![vec![0.0; n]; n];
        for (i, row) in all.iter_mut().enumerate() {
            row[i] = self.variances[i];
        }
        for slopes in &linear.slopes {
            for (i, row) in all.iter_mut().enumerate() {
                row.iter_mut().zip(slopes).for_each(|(v, s)| *v += slopes[i] * s);
            }
        }
        all
    }

    /// Its normal equations about its place.
    fn equations(&self) -> Option<Equations> {
        let linear = self.linear.as_ref()?;
        let by_scatter = |all: &[f64]| -> Vec<f64> {
            all.iter().zip(&self.variances).map(|(v, variance)| v / variance.sqrt()).collect()
        };
        let left = by_scatter(&linear.left);
        let slopes: Vec<Vec<f64>> = linear.slopes.iter().map(|row| by_scatter(row)).collect();
        let h = slopes.iter().map(|a| slopes.iter().map(|b| dot(a, b)).collect()).collect();
        let g = slopes.iter().map(|a| dot(a, &left)).collect();
        Some(Equations { h, g })
    }

    /// How far each reading lies from what the others say, by the linear pot with all inputs free: its scatter and theirs.
    /// The farthest is made to count for less first, and the rest are looked at again: one slip of the hand makes its neighbours
    /// look odd.
    fn weigh(&mut self) {
        let Some(linear) = &self.linear else { return };
        let mut left = linear.left.clone();
        for (row, place) in linear.slopes.iter().zip(&self.places) {
            left.iter_mut().zip(row).for_each(|(l, s)| *l += s * place);
        }
        let base = self.of.variances();
        self.variances.clone_from(&base);
        let mut flagged: Vec<(usize, f64)> = Vec::new();
        loop {
            let Some(scatter) = self.linear.as_ref().and_then(|l| Cholesky::of(&self.scatter(l))) else {
                return;
            };
            let (inverse, solved) = (scatter.inverse(), scatter.solve(&left));
            self.aside = solved.iter().enumerate().map(|(i, s)| s / inverse[i][i].sqrt()).collect();
            let open = (0..base.len()).filter(|i| flagged.iter().all(|(at, _)| at != i));
            let worst = open.max_by(|a, b| self.aside[*a].abs().total_cmp(&self.aside[*b].abs()));
            let Some(at) = worst.filter(|at| self.aside[*at].abs() > ASIDE) else { break };
            let beyond = self.aside[at] / ASIDE;
            self.variances[at] = base[at] * beyond * beyond * beyond * beyond;
            flagged.push((at, self.aside[at]));
        }
        flagged.into_iter().for_each(|(at, aside)| self.aside[at] = aside);
    }
}

/// Fits all pots at once.
///
/// - `variances` — of the shared parts.
/// - `pots` — each with its inputs.
pub fn fit(variances: &[f64], pots: Vec<(&mut dyn Observed, &[Input])>) -> Fitted {
    let whole = fit_while(variances, pots, &mut || true);
    whole.unwrap_or_else(|| Fitted { shared: Vec::new(), covariance: Vec::new(), pots: Vec::new() })
}

/// The same, given up as soon as `go_on` says no between two pots.
pub fn fit_while(
    variances: &[f64],
    pots: Vec<(&mut dyn Observed, &[Input])>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Fitted> {
    let mut members: Vec<Member<'_>> = pots
        .into_iter()
        .map(|(of, inputs)| {
            let (values, own_variances) = (of.values(), of.variances());
            Member {
                aside: vec![0.0; values.len()],
                values,
                variances: own_variances,
                places: vec![0.0; inputs.len()],
                own: vec![0.0; inputs.len()],
                before: Vec::new(),
                linear: None,
                of,
                inputs,
            }
        })
        .collect();
    let mut shared = vec![0.0; variances.len()];
    look_at_all(&mut members, go_on)?;
    for round in 0..=WEIGHED {
        for _ in 0..STEPS {
            let step = step(&members, variances, &shared);
            let longest = go(&mut members, &mut shared, &step);
            look_at_all(&mut members, go_on)?;
            if longest < 0.05 {
                break;
            }
        }
        if round < WEIGHED {
            members.iter_mut().for_each(Member::weigh);
        }
    }
    Some(found(&members, variances, shared))
}

/// Makes all pots linear about their places, unless that is given up.
fn look_at_all(members: &mut [Member<'_>], go_on: &mut dyn FnMut() -> bool) -> Option<()> {
    for member in members {
        if !go_on() {
            return None;
        }
        member.look();
    }
    Some(())
}

/// A step of the shared parts and of each pot's own.
struct Step {
    shared: Vec<f64>,
    own: Vec<Vec<f64>>,
}

/// Longest step of one place, deviates.
const LONGEST: f64 = 1.0;

fn go(members: &mut [Member<'_>], shared: &mut [f64], step: &Step) -> f64 {
    let mut longest: f64 = 0.0;
    for (member, own) in members.iter().zip(&step.own) {
        let moved = of_inputs(member.inputs, &step.shared);
        longest = moved.iter().zip(own).map(|(s, o)| (s + o).abs()).fold(longest, f64::max);
    }
    let part = if longest > LONGEST { LONGEST / longest } else { 1.0 };
    shared.iter_mut().zip(&step.shared).for_each(|(u, s)| *u += part * s);
    for (member, own) in members.iter_mut().zip(&step.own) {
        member.own.iter_mut().zip(own).for_each(|(v, s)| *v += part * s);
        let sums = of_inputs(member.inputs, shared);
        member.places = sums.iter().zip(&member.own).map(|(s, v)| s + v).collect();
    }
    longest * part
}

/// The system of the shared parts, and its right side: priors and all pots.
struct System {
    matrix: Vec<Vec<f64>>,
    right: Vec<f64>,
    /// What each pot puts in.
    pots: Vec<Option<(Equations, Eliminated)>>,
}

fn system(members: &[Member<'_>], variances: &[f64], shared: &[f64]) -> System {
    let m = variances.len();
    let mut matrix = vec![vec![0.0; m]; m];
    let mut right = vec![0.0; m];
    for (i, variance) in variances.iter().enumerate() {
        matrix[i][i] = 1.0 / variance;
        right[i] = -shared[i] / variance;
    }
    let mut pots = Vec::with_capacity(members.len());
    for member in members {
        let told = member.equations().map(|equations| {
            let out = eliminate(&equations, member.inputs, &member.own);
            (equations, out)
        });
        if let Some((_, out)) = &told {
            each(member.inputs, |a, e| right[e] += out.g[a]);
            each(member.inputs, |a, e| each(member.inputs, |b, f| matrix[e][f] += out.h[a][b]));
        }
        pots.push(told);
    }
    System { matrix, right, pots }
}

fn step(members: &[Member<'_>], variances: &[f64], shared: &[f64]) -> Step {
    let System { matrix, right, pots } = system(members, variances, shared);
    let moved =
        Cholesky::of(&matrix).map_or_else(|| vec![0.0; shared.len()], |triangle| triangle.solve(&right));
    let own = members.iter().zip(&pots).map(|(member, told)| match told {
        Some((equations, _)) => {
            own_step(equations, member.inputs, &member.own, &of_inputs(member.inputs, &moved))
        }
        None => vec![0.0; member.inputs.len()],
    });
    let own = own.collect();
    Step { shared: moved, own }
}

fn found(members: &[Member<'_>], variances: &[f64], shared: Vec<f64>) -> Fitted {
    let System { matrix, right, pots } = system(members, variances, &shared);
    let Some(triangle) = Cholesky::of(&matrix) else {
        return Fitted { shared, covariance: Vec::new(), pots: members.iter().map(|_| None).collect() };
    };
    let covariance = triangle.inverse();
    let pots = members.iter().zip(&pots).map(|(member, told)| {
        let ((equations, out), linear) = (told.as_ref()?, member.linear.as_ref()?);
        let (without, without_sigma) = without(member, out, &matrix, &right, &shared)?;
        let (sigma, correlation) = equations::left(member.inputs, equations, &covariance, out);
        Some(FittedPot {
            places: member.places.clone(),
            sigma,
            correlation,
            after: member.values.iter().zip(&linear.left).map(|(v, l)| v - l).collect(),
            before: member.before.clone(),
            aside: member.aside.clone(),
            without,
            without_sigma,
        })
    });
    let pots = pots.collect();
    Fitted { shared, covariance, pots }
}

/// The places of a pot by all others: its own equations are taken out of the system, which is solved once more.
fn without(
    member: &Member<'_>,
    out: &Eliminated,
    matrix: &[Vec<f64>],
    right: &[f64],
    shared: &[f64],
) -> Option<(Vec<f64>, Vec<f64>)> {
    let (mut matrix, mut right) = (matrix.to_vec(), right.to_vec());
    each(member.inputs, |a, e| right[e] -= out.g[a]);
    each(member.inputs, |a, e| each(member.inputs, |b, f| matrix[e][f] -= out.h[a][b]));
    let triangle = Cholesky::of(&matrix)?;
    let moved: Vec<f64> = triangle.solve(&right).iter().zip(shared).map(|(s, u)| s + u).collect();
    let spread = spread_of(member.inputs, &triangle.inverse());
    let sigma = member.inputs.iter().enumerate().map(|(k, input)| (spread[k][k] + input.own).sqrt());
    Some((of_inputs(member.inputs, &moved), sigma.collect()))
}
