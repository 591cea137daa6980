//! A lever that a proposal turns: from what to what, and whether that is beyond what is usual.

use super::turn::SearchLever;

/// A lever that a proposal turns.
#[derive(Clone, Debug, PartialEq)]
pub struct LeverChange {
    pub turn: SearchLever,
    pub to: f64,
    /// What is usual, where it is set beyond that and farther than it was.
    pub unusual: Option<(f64, f64)>,
}

impl LeverChange {
    /// A lever at a value; nothing where that is what the design has.
    pub fn of(turn: &SearchLever, to: f64) -> Option<Self> {
        turn.turned(to).then(|| Self { turn: turn.clone(), to, unusual: unusual(turn, to) })
    }

    pub fn name(&self) -> &str {
        &self.turn.lever.name
    }

    /// Whether it is a dose of nothing.
    pub fn none(&self) -> bool {
        self.turn.dose() && self.to.abs() < 1e-9
    }
}

/// The usual span, where a value is beyond it and farther than the design was.
fn unusual(turn: &SearchLever, v: f64) -> Option<(f64, f64)> {
    let (low, high) = turn.lever.usual?;
    // Less of something that is put in is always usual.
    let low = if turn.dose() { turn.lever.range.0.min(low) } else { low };
    let beyond = |v: f64| (low - v).max(v - high);
    let farther = beyond(v) >= 1e-9 && turn.was.is_none_or(|was| beyond(was) < beyond(v) - 1e-9);
    farther.then_some((low, high))
}
