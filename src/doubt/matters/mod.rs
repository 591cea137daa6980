//! What matters: which numbers move a pot, which doubts are worth finding out about, and which reading tells most.

mod doubts;
mod finds;
mod readings;
mod turns;
mod usual;

pub use finds::{Doubt, Find, Remedy, Weighing, remedy};
pub use readings::{Reading, Worth};
pub use turns::{Better, Effect, LeverEffect, Way};

use crate::spread::Spreader;
use potset_base::chance::Chance;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_numerics::quantile;

/// Share of pots that must come to be ready for that time to be watched. Source: assumed.
const ENOUGH_READY: f64 = 0.7;

/// Share of pots that never come there from which on nobody can say how far a doubt moves that time. Source: assumed.
const TOO_RARE: f64 = 0.5;

/// One watched outcome over the pots of a spread.
#[derive(Clone, Debug, PartialEq)]
pub struct Watched {
    pub outcome: Observable,
    /// Below these lie 5, 50 and 95 % of the pots; infinite where so many come there after the end of the sheet, or never.
    pub edges: [f64; 3],
    pub never: Chance,
    /// Share of the variance that a straight line through each doubt explains; the rest is bent, or comes of several together.
    pub explained: f64,
    /// The scale on which the shares of the doubts were found.
    pub scale: Scale,
}

/// Why an outcome is not watched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unwatched {
    /// So many pots never come there.
    Never(Chance),
    /// Nobody would notice what the pots differ by.
    Alike,
}

/// A band that is narrowed to more than this share of its width is not told in figures: they would hardly differ. Source:
/// assumed.
pub const WORTH_TELLING: f64 = 0.95;

/// The scale on which differences of a watched outcome are added up and shared out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// That of the outcome itself: logarithms where a person notices factors.
    Own,
    /// Times that some pots never reach, as 1/h: what is late and what never comes lie side by side, wherever the sheet ends.
    PerHour,
}

impl Scale {
    /// The least time that is told apart, h. Source: assumed.
    const LEAST_H: f64 = 0.1;

    fn of(outcome: Observable, never: Chance) -> Self {
        let time = matches!(outcome, Observable::ReadyFrom | Observable::SourAt);
        if time && never.of > 0 { Self::PerHour } else { Self::Own }
    }

    fn place(self, outcome: Observable, v: f64) -> f64 {
        match self {
            Self::Own => outcome.scaled(v),
            Self::PerHour => 1.0 / v.max(Self::LEAST_H),
        }
    }

    fn value(self, outcome: Observable, place: f64) -> f64 {
        match self {
            Self::Own => outcome.unscaled(place),
            Self::PerHour => 1.0 / place,
        }
    }
}

impl Watched {
    /// What 9 of 10 pots come to where that is narrower by a factor about the middle, on the scale on which the doubts were
    /// shared out. Nothing where the end of the sheet cuts it off: that end would only be moved by looking further.
    pub fn narrowed(&self, factor: f64) -> Option<(f64, f64)> {
        if self.edges.iter().any(|v| !v.is_finite()) {
            return None;
        }
        let [low, middle, high] = self.edges.map(|v| self.scale.place(self.outcome, v));
        let at = |edge: f64| self.scale.value(self.outcome, middle + factor * (edge - middle));
        Some((at(low), at(high)))
    }
}

/// What matters for one design in one kitchen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Matters {
    /// Pots that it was worked out from.
    pub pots: usize,
    pub watched: Vec<Watched>,
    /// What is not watched, and why.
    pub left_out: Vec<(Observable, Unwatched)>,
    /// What can be turned: first what changes the verdict, then the strongest.
    pub turns: Vec<LeverEffect>,
    /// Levers of which nobody notices anything, by name.
    pub unnoticed: Vec<String>,
    /// What can be found out, the most telling first.
    pub finds: Vec<Find>,
    /// Single readings, the most telling first.
    pub readings: Vec<Worth>,
}

/// The values of a watched outcome over the pots.
struct Values {
    outcome: Observable,
    /// Infinite where a pot never comes there.
    real: Vec<f64>,
    /// On its scale.
    scaled: Vec<f64>,
    scale: Scale,
    never: Chance,
    /// Whether nobody would notice what the pots differ by.
    alike: bool,
}

impl Values {
    fn of(spreader: &Spreader, outcome: Observable) -> Self {
        let list: Vec<Option<f64>> = spreader.made().map(|(_, pot)| pot.outcomes.get(outcome)).collect();
        let never = Chance::count(list.iter().map(Option::is_none));
        let real: Vec<f64> = list.into_iter().map(|v| v.unwrap_or(f64::INFINITY)).collect();
        let scale = Scale::of(outcome, never);
        let scaled = real.iter().map(|v| scale.place(outcome, *v)).collect();
        let alike = alike(spreader, outcome);
        Self { outcome, scaled, real, scale, never, alike }
    }

    fn edges(&self) -> [f64; 3] {
        quantile::of(&mut self.real.clone(), [0.05, 0.5, 0.95])
    }
}

/// Whether nobody would notice what 9 of 10 pots differ by, judged by what leads.
fn alike(spreader: &Spreader, outcome: Observable) -> bool {
    let lead = outcome.led_by(spreader.made().any(|(_, pot)| pot.outcomes.cuts()));
    let mut values: Vec<f64> =
        spreader.made().map(|(_, pot)| pot.outcomes.get(lead).unwrap_or(f64::INFINITY)).collect();
    let [low, high] = quantile::of(&mut values, [0.05, 0.95]);
    high.is_finite() && lead.steps_between(low, high) < 1.0
}

/// Finds out what matters, from a spread that is worked out. The same on any number of threads.
pub fn matters(scenario: &Scenario<'_>, spreader: &Spreader) -> Matters {
    let numbers: Vec<usize> = spreader.made().map(|(k, _)| k).collect();
    let all = values(spreader);
    let outcomes: Vec<Observable> = all.iter().map(|v| v.outcome).collect();
    let mut left_out = Vec::new();
    let mut values = Vec::new();
    for v in all {
        if v.never.share() > TOO_RARE {
            left_out.push((v.outcome, Unwatched::Never(v.never)));
        } else if v.alike {
            left_out.push((v.outcome, Unwatched::Alike));
        } else {
            values.push(v);
        }
    }
    let doubts = doubts::doubts(spreader, &numbers, &values);
    let watched: Vec<Watched> = values
        .iter()
        .zip(&doubts)
        .map(|(v, d)| Watched {
            outcome: v.outcome,
            edges: v.edges(),
            never: v.never,
            explained: d.explained(),
            scale: v.scale,
        })
        .collect();
    let (turns, unnoticed) = turns::turns(scenario, &outcomes);
    let mut readings = readings::readings(scenario, spreader, &values);
    readings.retain(|worth| worth.narrows.iter().any(|factor| *factor < WORTH_TELLING));
    Matters {
        pots: numbers.len(),
        turns,
        unnoticed,
        finds: finds::finds(scenario, spreader, &doubts),
        readings,
        watched,
        left_out,
    }
}

fn values(spreader: &Spreader) -> Vec<Values> {
    Observable::MATTERING
        .into_iter()
        .map(|outcome| {
            let values = Values::of(spreader, outcome);
            let rare = outcome == Observable::ReadyFrom && values.never.share() > 1.0 - ENOUGH_READY;
            if rare { Values::of(spreader, Observable::SourAt) } else { values }
        })
        .collect()
}
