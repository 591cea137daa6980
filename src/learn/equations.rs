//! The equations of one pot in the fit: its own part taken out, and what is left unknown of its places.

use potset_numerics::cholesky::Cholesky;

/// One thing that readings can teach about a pot.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// The shared parts that it is the sum of.
    pub shared: Vec<usize>,
    /// Variance of the pot's own part.
    pub own: f64,
}

/// The normal equations of one pot: `½ dᵀ H d − gᵀ d`.
pub(crate) struct Equations {
    pub(crate) h: Vec<Vec<f64>>,
    pub(crate) g: Vec<f64>,
}

/// A pot's equations with its own part taken out, on the inputs' shared parts.
pub(crate) struct Eliminated {
    pub(crate) h: Vec<Vec<f64>>,
    pub(crate) g: Vec<f64>,
}

pub(crate) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Sums of a pot's inputs over the shared parts.
pub(crate) fn of_inputs(inputs: &[Input], shared: &[f64]) -> Vec<f64> {
    inputs.iter().map(|input| input.shared.iter().map(|e| shared[*e]).sum()).collect()
}

/// Shows each input with each of its shared parts.
pub(crate) fn each(inputs: &[Input], mut see: impl FnMut(usize, usize)) {
    for (a, input) in inputs.iter().enumerate() {
        input.shared.iter().for_each(|e| see(a, *e));
    }
}

/// The inputs that have a part of the pot's own, and the system of these parts, `H + V⁻¹`.
fn own_system(equations: &Equations, inputs: &[Input]) -> (Vec<usize>, Option<Cholesky>) {
    let free: Vec<usize> = (0..inputs.len()).filter(|k| inputs[*k].own > 0.0).collect();
    let cell = |a: usize, b: usize| equations.h[a][b] + if a == b { 1.0 / inputs[a].own } else { 0.0 };
    let system: Vec<Vec<f64>> = free.iter().map(|a| free.iter().map(|b| cell(*a, *b)).collect()).collect();
    let triangle = Cholesky::of(&system).filter(|_| !free.is_empty());
    (free, triangle)
}

/// Takes the own part out: `H' = H − H (H + V⁻¹)⁻¹ H`, and the same of the gradient, the own part's prior in it.
pub(crate) fn eliminate(equations: &Equations, inputs: &[Input], own: &[f64]) -> Eliminated {
    let mut out = Eliminated { h: equations.h.clone(), g: equations.g.clone() };
    let (free, Some(system)) = own_system(equations, inputs) else { return out };
    let right: Vec<f64> = free.iter().map(|k| equations.g[*k] - own[*k] / inputs[*k].own).collect();
    let moved = system.solve(&right);
    let rows: Vec<Vec<f64>> =
        (0..inputs.len()).map(|i| free.iter().map(|k| equations.h[*k][i]).collect()).collect();
    for (i, row) in rows.iter().enumerate() {
        let solved = system.solve(row);
        out.g[i] -= dot(row, &moved);
        out.h[i].iter_mut().zip(&rows).for_each(|(v, other)| *v -= dot(other, &solved));
    }
    out
}

/// The own parts' step once the shared ones' is known.
pub(crate) fn own_step(equations: &Equations, inputs: &[Input], own: &[f64], shared: &[f64]) -> Vec<f64> {
    let mut out = vec![0.0; inputs.len()];
    let (free, Some(system)) = own_system(equations, inputs) else { return out };
    let right = |k: &usize| equations.g[*k] - own[*k] / inputs[*k].own - dot(&equations.h[*k], shared);
    let right: Vec<f64> = free.iter().map(right).collect();
    for (k, step) in free.iter().zip(system.solve(&right)) {
        out[*k] = step;
    }
    out
}

/// What is not known of some sums of the shared parts.
pub(crate) fn spread_of(inputs: &[Input], covariance: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let cell = |a: &Input, b: &Input| {
        a.shared
            .iter()
            .flat_map(|e| b.shared.iter().map(move |f| (e, f)))
            .map(|(e, f)| covariance[*e][*f])
            .sum()
    };
    inputs.iter().map(|a| inputs.iter().map(|b| cell(a, b)).collect()).collect()
}

/// What is not known of a pot's places after all readings, and how it hangs together.
///
/// The pot's places given everything else have `P = S' + V`, S' the shared parts without the pot, V its own; with its
/// readings `(P⁻¹ + H)⁻¹`.
pub(crate) fn left(
    inputs: &[Input],
    equations: &Equations,
    covariance: &[Vec<f64>],
    out: &Eliminated,
) -> (Vec<f64>, Vec<Vec<f64>>) {
    let n = inputs.len();
    // S'⁻¹ = S⁻¹ − H', on the pot's inputs.
    let spread = spread_of(inputs, covariance);
    let ridge = |m: &[Vec<f64>]| {
        let mut m = m.to_vec();
        (0..n).for_each(|k| m[k][k] += 1e-9);
        m
    };
    let prior = Cholesky::of(&ridge(&spread)).map(|triangle| {
        let mut inverse = triangle.inverse();
        for (row, h) in inverse.iter_mut().zip(&out.h) {
            row.iter_mut().zip(h).for_each(|(v, h)| *v -= h);
        }
        inverse
    });
    let posterior = prior.and_then(|inverse| {
        let mut p = Cholesky::of(&ridge(&inverse))?.inverse();
        (0..n).for_each(|k| p[k][k] += inputs[k].own);
        let mut inverse = Cholesky::of(&ridge(&p))?.inverse();
        for (row, h) in inverse.iter_mut().zip(&equations.h) {
            row.iter_mut().zip(h).for_each(|(v, h)| *v += h);
        }
        Some(Cholesky::of(&inverse)?.inverse())
    });
    let posterior = posterior.unwrap_or(spread);
    let sigma: Vec<f64> = (0..n).map(|k| posterior[k][k].max(0.0).sqrt()).collect();
    let correlation = (0..n)
        .map(|a| (0..n).map(|b| posterior[a][b] / (sigma[a] * sigma[b]).max(1e-12)).collect())
        .collect();
    (sigma, correlation)
}
