//! What matters: which numbers move a pot, which doubts are worth finding out about, and which reading tells most.

mod doubts;
mod finds;
mod readings;
mod turns;
mod words;

pub use finds::Find;
pub use readings::Worth;
pub use turns::Turn;
pub use words::{effect_words, head};

use super::ask::Ask;
use super::outcome::{Outcome, Step};
use super::spread::{Chance, Spreader};
use crate::numerics::{moments, quantile};

/// What is watched. The time is that of the first moment when all goals hold, or of pH 4.6 where too few pots get there.
pub const WATCHED: [Outcome; 5] =
    [Outcome::ReadyFrom, Outcome::Tang, Outcome::SugarLeft, Outcome::Texture, Outcome::Whey];

/// Share of pots that must come to be ready for that time to be watched. Source: assumed.
const ENOUGH_READY: f64 = 0.7;

/// One watched outcome over the pots of a spread.
#[derive(Clone, Debug, PartialEq)]
pub struct Watched {
    pub outcome: Outcome,
    /// Half of what 9 of 10 pots span, on the scale of [`Outcome::scaled`].
    pub half: f64,
    /// Pots that never come there; they count as coming at the horizon.
    pub never: Chance,
    /// Share of the spread that the doubts explain one by one; the rest comes of several together.
    pub explained: f64,
}

impl Watched {
    /// A half-width in words: "± 2.1 h", "×÷ 1.8".
    #[must_use]
    pub fn half_words(&self, half: f64) -> String {
        use crate::base::number::{self, NBSP};
        match self.outcome.step() {
            Step::Times(_) => format!("×÷{NBSP}{}", number::figures(half.exp(), 2)),
            Step::By(_) => format!("±{NBSP}{}", self.outcome.words(half)),
        }
    }
}

/// What matters for one design in one kitchen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Matters {
    /// Pots that it was worked out from.
    pub pots: usize,
    pub watched: Vec<Watched>,
    /// What can be turned, the strongest first.
    pub turns: Vec<Turn>,
    /// What can be found out, the most telling first.
    pub finds: Vec<Find>,
    /// Single readings, the most telling first.
    pub readings: Vec<Worth>,
}

/// The values of a watched outcome over the pots, on the scale on which differences add up.
struct Values {
    outcome: Outcome,
    scaled: Vec<f64>,
    never: Chance,
}

/// Finds out what matters, from a spread that is worked out. The same on any number of threads.
#[must_use]
pub fn matters(ask: &Ask<'_>, spreader: &Spreader) -> Matters {
    let numbers: Vec<usize> = spreader.made().map(|(k, _)| k).collect();
    let values = values(spreader);
    let doubts = doubts::doubts(spreader, &numbers, &values);
    let watched: Vec<Watched> = values
        .iter()
        .zip(&doubts)
        .map(|(v, d)| {
            let [low, high] = quantile::of(&mut v.scaled.clone(), [0.05, 0.95]);
            Watched {
                outcome: v.outcome,
                half: 0.5 * (high - low),
                never: v.never,
                explained: d.shares.iter().sum::<f64>().min(1.0),
            }
        })
        .collect();
    Matters {
        pots: numbers.len(),
        turns: turns::turns(ask, &watched),
        finds: finds::finds(ask, spreader, &doubts),
        readings: readings::readings(ask, spreader, &values),
        watched,
    }
}

fn values(spreader: &Spreader) -> Vec<Values> {
    let horizon_h = spreader.sampler().likely().mix.horizon_h;
    let all = |outcome: Outcome| {
        let list: Vec<Option<f64>> = spreader.made().map(|(_, pot)| pot.outcomes.get(outcome)).collect();
        let never = Chance::count(list.iter().map(Option::is_none));
        // What never comes has no value of its own: the least that can be said is that it comes after the horizon.
        let scaled = list.iter().map(|v| outcome.scaled(v.unwrap_or(horizon_h))).collect();
        Values { outcome, scaled, never }
    };
    WATCHED
        .into_iter()
        .map(|outcome| {
            let values = all(outcome);
            let rare = outcome == Outcome::ReadyFrom && values.never.share() > 1.0 - ENOUGH_READY;
            if rare { all(Outcome::SourAt) } else { values }
        })
        .filter(|v| moments::variance(&v.scaled) > 0.0)
        .collect()
}
