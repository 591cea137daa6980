//! The possible pots of a design, and how many of them keep what is wanted.

use super::stand::{self, Demand};
use crate::numerics::interpolate::logistic;
use crate::study::ask::{Ask, Run};

/// Runs of the possible pots of a design: question, seed, how many. The same question and seed give the same pots, and pot `k`
/// stands for the same luck at every setting, so that settings can be compared pot by pot. A pot without a forecast is left out.
pub type Pots = fn(&Ask<'_>, u64, usize) -> Vec<Run>;

/// The likely pot alone.
#[must_use]
pub fn likely(ask: &Ask<'_>, _seed: u64, _pots: usize) -> Vec<Run> {
    ask.run_coarse(0.0).into_iter().collect()
}

/// Width of the step from lost to kept when pots are compared, in steps that a person notices. Source: assumed; without it
/// a search would see no slope between two counts.
const SOFT: f64 = 0.25;

/// How many possible pots keep all demands.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Chance {
    pub kept: usize,
    pub of: usize,
    /// The same with pots near the edge counted in part: for comparing settings.
    pub soft: f64,
}

impl Chance {
    /// Counts.
    #[must_use]
    pub fn of(ask: &Ask<'_>, demands: &[Demand], pots: Pots, (seed, n): (u64, usize)) -> Self {
        let runs = pots(ask, seed, n);
        let least = |run: &Run| stand::margins(ask, run, demands).into_iter().fold(f64::INFINITY, f64::min);
        let all: Vec<f64> = runs.iter().map(least).collect();
        // Pots without a forecast keep nothing.
        let of = if all.len() <= 1 { all.len() } else { n.max(all.len()) };
        let soft: f64 = all.iter().map(|m| logistic(m.min(4.0), 0.0, SOFT)).sum();
        Self { kept: all.iter().filter(|m| **m >= 0.0).count(), of, soft: soft / count(of.max(1)) }
    }

    /// Share of the pots, 0 to 1.
    #[must_use]
    pub fn share(self) -> f64 {
        if self.of == 0 { 0.0 } else { count(self.kept) / count(self.of) }
    }

    /// Whether it stands for more than the likely pot.
    #[must_use]
    pub const fn spread(self) -> bool {
        self.of > 1
    }
}

#[allow(clippy::cast_precision_loss, reason = "some hundred pots")]
const fn count(n: usize) -> f64 {
    n as f64
}
