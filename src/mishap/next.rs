//! The next question: that whose answer is expected to tell most about the cause.

use crate::data::{Asked, FactKind, MishapTable};
use crate::fact::{Fact, FactValue, Truth};
use crate::pots::Group;
use crate::reason::Weights;

/// From which chance on a cause stands out. Source: assumed.
pub const STANDS_OUT: f64 = 0.7;

/// A question that is expected to tell less than this is not asked, nats. Source: assumed; what a coin tells is 0.69.
const LEAST: f64 = 0.02;

/// So many answers of a number are looked at.
const ANSWERS: usize = 24;

/// A question worth asking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Question {
    pub kind: FactKind,
    /// What its answer is expected to tell, nats.
    pub tells: f64,
}

/// Disorder of some chances, nats.
fn entropy(chances: &[f64]) -> f64 {
    chances.iter().filter(|p| **p > 0.0).map(|p| -p * p.ln()).sum()
}

struct Asking<'a> {
    groups: &'a [Group],
    weights: &'a Weights,
    planned: &'a Truth,
    table: &'static MishapTable,
    now: f64,
}

impl Asking<'_> {
    /// How likely an answer is, and how little is known of the causes after it.
    fn after(&self, fact: &Fact) -> (f64, f64) {
        let mut chances: Vec<f64> = self
            .groups
            .iter()
            .zip(&self.weights.0)
            .map(|(group, weights)| {
                let pots = group.pots.iter().zip(weights).filter(|(_, w)| **w > 1e-6);
                pots.map(|(pot, w)| w * pot.truth.likelihood(fact, self.planned, &group.unaware, self.table))
                    .sum()
            })
            .collect();
        let sum: f64 = chances.iter().sum();
        chances.iter_mut().for_each(|c| *c /= sum.max(1e-300));
        (sum, entropy(&chances))
    }

    /// What an answer to this is expected to tell.
    fn tells(&self, kind: FactKind) -> f64 {
        let Some(row) = self.table.fact(kind) else { return 0.0 };
        let fact = |value| Fact { kind, value };
        let gain = match &row.of {
            Asked::Choice(answers) => {
                let left = (0..answers.len()).map(|i| self.after(&fact(FactValue::Choice(i))));
                let (sum, left) = left.fold((0.0, 0.0), |(s, l), (p, h)| (s + p, l + p * h));
                self.now - left / f64::max(sum, 1e-300)
            }
            Asked::Number { .. } => {
                let answers = self.numbers(kind);
                let left: f64 =
                    answers.iter().map(|(v, p)| p * self.after(&fact(FactValue::Number(*v))).1).sum();
                self.now - left
            }
        };
        gain * row.known
    }

    /// Numbers that may be answered, each with its chance: those of pots at even steps of their weight, near and far.
    fn numbers(&self, kind: FactKind) -> Vec<(f64, f64)> {
        let mut all: Vec<(f64, f64)> = self
            .groups
            .iter()
            .zip(&self.weights.0)
            .flat_map(|(group, weights)| {
                group.pots.iter().zip(weights).map(|(pot, w)| (pot.truth.numbers[kind as usize], *w))
            })
            .filter(|(_, w)| *w > 1e-6)
            .collect();
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let sum: f64 = all.iter().map(|(_, w)| w).sum();
        let mut answers = Vec::with_capacity(ANSWERS);
        let mut passed = 0.0;
        let mut at = 0;
        for k in 0..ANSWERS {
            let to = sum * (k as f64 + 0.5) / ANSWERS as f64;
            while at + 1 < all.len() && passed + all[at].1 < to {
                passed += all[at].1;
                at += 1;
            }
            answers.extend(all.get(at).map(|(v, _)| (*v, 1.0 / ANSWERS as f64)));
        }
        answers
    }
}

/// The questions that are worth asking, the best first.
pub fn questions(
    groups: &[Group],
    weights: &Weights,
    planned: &Truth,
    table: &'static MishapTable,
    leave_out: &[FactKind],
) -> Vec<Question> {
    let now = entropy(&weights.groups());
    let asking = Asking { groups, weights, planned, table, now };
    let open = table.facts.iter().map(|row| row.key).filter(|kind| !leave_out.contains(kind));
    let mut all: Vec<Question> = open
        .map(|kind| Question { kind, tells: asking.tells(kind) })
        .filter(|question| question.tells >= LEAST)
        .collect();
    all.sort_by(|a, b| b.tells.total_cmp(&a.tells));
    all
}
