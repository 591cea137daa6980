//! The possible pots of a design, and how many of them keep what is wanted.

use super::stand::{self, Demand};
use crate::numerics::interpolate::logistic;
use crate::study::ask::{Ask, Run};
use crate::study::spread::{self, Sampler};

/// What is read off each possible pot of a design: question, seed, how many, and what reads it. The same question and seed give
/// the same pots, and pot `k` stands for the same luck at every setting, so that settings can be compared pot by pot. A pot
/// without a forecast gives nothing.
pub type Pots = fn(&Ask<'_>, u64, usize, &(dyn Fn(&Ask<'_>, &Run) -> f64 + Sync)) -> Vec<Option<f64>>;

/// The possible pots by all their unknowns.
#[must_use]
pub fn possible(
    ask: &Ask<'_>,
    seed: u64,
    pots: usize,
    read: &(dyn Fn(&Ask<'_>, &Run) -> f64 + Sync),
) -> Vec<Option<f64>> {
    let Ok(sampler) = Sampler::new(ask, seed, pots) else { return Vec::new() };
    sampler.each(0..pots, |ask, run| read(ask, &run)).into_iter().map(Result::ok).collect()
}

/// The likely pot alone.
#[must_use]
pub fn likely(
    ask: &Ask<'_>,
    _seed: u64,
    _pots: usize,
    read: &(dyn Fn(&Ask<'_>, &Run) -> f64 + Sync),
) -> Vec<Option<f64>> {
    ask.run_coarse(0.0).ok().map(|run| read(ask, &run)).into_iter().map(Some).collect()
}

/// Width of the step from lost to kept when pots are compared, in steps that a person notices. Source: assumed; without it
/// a search would see no slope between two counts.
const SOFT: f64 = 0.25;

/// How many possible pots keep all demands.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Chance {
    pub pots: spread::Chance,
    /// Share with pots near the edge counted in part: for comparing settings.
    pub soft: f64,
}

impl Chance {
    /// Counts.
    #[must_use]
    pub fn of(ask: &Ask<'_>, demands: &[Demand], pots: Pots, (seed, n): (u64, usize)) -> Self {
        let least = |ask: &Ask<'_>, run: &Run| {
            stand::margins(ask, run, demands).into_iter().fold(f64::INFINITY, f64::min)
        };
        // A pot without a forecast keeps nothing.
        let all: Vec<f64> =
            pots(ask, seed, n, &least).into_iter().map(|m| m.unwrap_or(stand::UNKNOWN)).collect();
        #[allow(clippy::cast_precision_loss, reason = "some hundred pots")]
        let n = all.len().max(1) as f64;
        let soft = all.iter().map(|m| logistic(m.min(4.0), 0.0, SOFT)).sum::<f64>() / n;
        Self { pots: spread::Chance::count(all.iter().map(|m| *m >= 0.0)), soft }
    }

    /// Share of the pots, 0 to 1.
    #[must_use]
    pub fn share(self) -> f64 {
        self.pots.share()
    }

    /// Whether it stands for more than the likely pot.
    #[must_use]
    pub const fn spread(self) -> bool {
        self.pots.among > 1
    }

    /// In words: "all holds in 9 in 10 possible pots".
    #[must_use]
    pub fn words(self) -> String {
        if self.spread() {
            format!("all holds in {} possible pots", self.pots.words())
        } else {
            "all holds on the likely line".to_owned()
        }
    }
}
