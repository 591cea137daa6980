//! Two designs beside each other: in which parts they differ, what that does, and which part does how much of it.

mod outcome;
mod part;

pub use outcome::{Outcome, Step};
pub use part::{Pair, Part};

use super::ask::{Answer, Ask, answer};
use crate::base::Note;
use crate::doc::{Design, Kitchen, Learnt, Pantry};

/// An outcome of both, and what a person would notice of the difference.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    pub outcome: Outcome,
    pub a: Option<f64>,
    pub b: Option<f64>,
    /// Second less first, on the scale of the outcome; `None` where one never comes there.
    pub difference: Option<f64>,
    pub noticed: bool,
}

/// What each part has to do with a difference: shares that add up to the whole of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Because {
    pub outcome: Outcome,
    /// Shares in the order of [`Beside::players`], on the scale of the outcome.
    pub shares: Vec<f64>,
    /// What each part does alone, from the first design.
    pub alone: Vec<f64>,
}

/// Two designs beside each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Beside {
    pub names: [String; 2],
    pub differ: Vec<Part>,
    pub rows: Vec<Row>,
    /// Parts that share the differences out; where many differ, the last holds several.
    pub players: Vec<Vec<Part>>,
    /// Outcomes that every mix of the two comes to.
    pub because: Vec<Because>,
}

/// Most parts among which a difference is shared out: 2^6 forecasts.
pub const MOST_PLAYERS: usize = 6;

/// Puts two designs beside each other.
///
/// # Errors
/// Why one of them has no forecast.
pub fn beside(
    a: &Design,
    b: &Design,
    (pantry, kitchen, learnt): (&Pantry, &Kitchen, &Learnt),
) -> Result<Beside, Vec<Note>> {
    let pair = Pair::new(a, b);
    let run = |design: &Design| {
        let out = answer(&Ask { design, pantry, kitchen, learnt });
        if out.errors.is_empty() { Ok(out) } else { Err(out.errors) }
    };
    let differ = pair.differ();
    let players = players(&differ);
    // Every mix of the two, by which players are of the second.
    let mixes: Vec<Result<Answer, Vec<Note>>> = (0..1_usize << players.len())
        .map(|set| {
            let parts: Vec<Part> = players
                .iter()
                .enumerate()
                .filter(|(i, _)| set >> i & 1 == 1)
                .flat_map(|(_, p)| p.clone())
                .collect();
            run(&pair.mixed(&parts))
        })
        .collect();
    let first = mixes.first().cloned().unwrap_or_else(|| run(a))?;
    let last = mixes.last().cloned().unwrap_or_else(|| run(b))?;
    let rows = Outcome::ALL.into_iter().map(|outcome| row(outcome, &first, &last)).collect();
    let because = Outcome::ALL
        .into_iter()
        .filter_map(|outcome| {
            let values: Option<Vec<f64>> = mixes
                .iter()
                .map(|mix| mix.as_ref().ok().and_then(|m| outcome.read(m)).map(|v| outcome.scaled(v)))
                .collect();
            values.map(|values| shared(outcome, &values, players.len()))
        })
        .collect();
    Ok(Beside { names: [a.name.clone(), b.name.clone()], differ, rows, players, because })
}

fn players(differ: &[Part]) -> Vec<Vec<Part>> {
    if differ.len() <= MOST_PLAYERS {
        return differ.iter().map(|part| vec![*part]).collect();
    }
    let (own, rest) = differ.split_at(MOST_PLAYERS - 1);
    own.iter().map(|part| vec![*part]).chain([rest.to_vec()]).collect()
}

fn row(outcome: Outcome, a: &Answer, b: &Answer) -> Row {
    let (a, b) = (outcome.read(a), outcome.read(b));
    let difference = a.zip(b).map(|(a, b)| outcome.scaled(b) - outcome.scaled(a));
    // One that never comes there is noticed in any case.
    let noticed = difference.map_or(a.is_some() != b.is_some(), |d| outcome.steps(d).abs() >= 1.0);
    Row { outcome, a, b, difference, noticed }
}

/// Shares of a difference: each part's own, averaged over all orders in which the parts may be changed.
///
/// `share_i = Σ_S |S|! (n − |S| − 1)! / n! · (v(S ∪ i) − v(S))`
///
/// Source: published, Shapley 1953.
fn shared(outcome: Outcome, values: &[f64], n: usize) -> Because {
    #[allow(clippy::cast_precision_loss, reason = "at most 6")]
    let factorial = |k: usize| (1..=k).map(|i| i as f64).product::<f64>();
    let share = |i: usize| {
        (0..values.len())
            .filter(|set| set >> i & 1 == 0)
            .map(|set| {
                let size = set.count_ones() as usize;
                let weight = factorial(size) * factorial(n - size - 1) / factorial(n);
                weight * (values[set | 1 << i] - values[set])
            })
            .sum()
    };
    let alone = (0..n).map(|i| values[1 << i] - values[0]).collect();
    Because { outcome, shares: (0..n).map(share).collect(), alone }
}

impl Beside {
    /// A player in words.
    #[must_use]
    pub fn player_words(&self, i: usize) -> String {
        self.players.get(i).map_or_else(String::new, |parts| {
            parts.iter().map(|p| p.words()).collect::<Vec<_>>().join(" and ")
        })
    }

    /// The main thing in a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        let [a, b] = &self.names;
        if self.differ.is_empty() {
            return format!("{b} is made as {a} is: nothing differs.");
        }
        let mut told: Vec<(&Row, f64)> = self
            .rows
            .iter()
            .filter(|r| r.noticed)
            .map(|r| (r, r.difference.map_or(f64::INFINITY, |d| r.outcome.steps(d).abs())))
            .collect();
        told.sort_by(|x, y| y.1.total_cmp(&x.1));
        if told.is_empty() {
            return format!(
                "{b} and {a} differ in {}; you would not notice it in the pot.",
                self.differ_words()
            );
        }
        let said: Vec<String> = told
            .iter()
            .take(3)
            .map(|(r, _)| match (r.a, r.b, r.difference) {
                (Some(x), Some(y), Some(d)) => format!(
                    "{} {} against {} ({})",
                    r.outcome.name(),
                    r.outcome.words(y),
                    r.outcome.words(x),
                    r.outcome.difference_words(d)
                ),
                (Some(x), None, _) => {
                    format!("{} never, against {}", r.outcome.name(), r.outcome.words(x))
                }
                (None, Some(y), _) => format!("{} {}, against never", r.outcome.name(), r.outcome.words(y)),
                _ => r.outcome.name().to_owned(),
            })
            .collect();
        format!("{b} beside {a}: {}.", said.join("; "))
    }

    fn differ_words(&self) -> String {
        self.differ.iter().map(|p| p.words()).collect::<Vec<_>>().join(", ")
    }
}
