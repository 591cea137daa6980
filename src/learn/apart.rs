//! What the readings of a pot cannot tell apart.

use crate::fit::FittedPot;
use potset_forecast::learnt::Subject;

/// Two things of which a pot only says what both do together.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    pub one: Subject,
    pub other: Subject,
    /// How their doubts hang together, −1 to 1.
    pub correlation: f64,
}

/// From so much on two doubts count as one, while so much of each is still open. Source: assumed.
const TOGETHER: f64 = 0.5;
const OPEN: f64 = 0.5;

/// The pairs that a pot's readings cannot tell apart, the worst first.
pub fn apart(subjects: &[Subject], fitted: &FittedPot) -> Vec<Pair> {
    let open = |k: &usize| subjects[*k].kind.told() && fitted.sigma[*k] > OPEN && fitted.sigma[*k] < 0.97;
    let all: Vec<usize> = (0..subjects.len()).filter(open).collect();
    let mut pairs: Vec<Pair> = Vec::new();
    for (at, a) in all.iter().enumerate() {
        for b in all.iter().skip(at + 1) {
            let correlation = fitted.correlation[*a][*b];
            if correlation.abs() >= TOGETHER {
                pairs.push(Pair { one: subjects[*a].clone(), other: subjects[*b].clone(), correlation });
            }
        }
    }
    pairs.sort_by(|a, b| b.correlation.abs().total_cmp(&a.correlation.abs()));
    pairs
}
