//! Something read off each possible pot of a design, and how many of them keep all that is asked for, to compare settings by.

use crate::spread::Sampler;
use potset_base::chance::Chance as Counted;
use potset_forecast::scenario::{Run, Scenario};
use potset_numerics::interpolate::logistic;
use std::ops::Range;

/// What is read off each possible pot of a design: question, seed, how many, and what reads it. The same question and seed give
/// the same pots, and pot `k` stands for the same luck at every setting, so that settings can be compared pot by pot. A pot
/// without a forecast gives nothing.
pub type Pots = fn(&Scenario<'_>, Draw, Read<'_>) -> Vec<Option<Vec<f64>>>;

/// Which pots are drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    pub seed: u64,
    pub pots: usize,
    /// What the laws of texture leave out ([`Sampler::left_out`]), where it is known already; else it is found, for half as
    /// much again. Settings of one combination are compared by one.
    pub left_out: Option<f64>,
}

impl Draw {
    /// So many pots of a seed.
    pub const fn new(seed: u64, pots: usize) -> Self {
        Self { seed, pots, left_out: None }
    }

    /// The same with what the laws of texture leave out of a design.
    pub fn of(self, scenario: &Scenario<'_>) -> Self {
        let left_out = Sampler::new(scenario, self.seed, self.pots).ok().map(|sampler| sampler.left_out());
        Self { left_out, ..self }
    }
}

/// Reads a pot.
pub type Read<'a> = &'a (dyn Fn(&Scenario<'_>, &Run) -> Vec<f64> + Sync);

/// The possible pots by all their unknowns.
pub fn possible(scenario: &Scenario<'_>, draw: Draw, read: Read<'_>) -> Vec<Option<Vec<f64>>> {
    let sampler = match draw.left_out {
        Some(left_out) => Sampler::leaving_out(scenario, draw.seed, draw.pots, left_out),
        None => Sampler::new(scenario, draw.seed, draw.pots),
    };
    let Ok(sampler) = sampler else { return Vec::new() };
    sampler.each(0..draw.pots, |scenario, run| read(scenario, &run)).into_iter().map(Result::ok).collect()
}

/// The likely pot alone.
pub fn likely(scenario: &Scenario<'_>, _: Draw, read: Read<'_>) -> Vec<Option<Vec<f64>>> {
    scenario.run_coarse(0.0).ok().map(|run| read(scenario, &run)).into_iter().map(Some).collect()
}

/// Margin of a pot without a forecast, steps.
const NONE: f64 = -200.0;

/// Width of the step from lost to kept when pots are compared, in steps that a person notices. Source: assumed; without it
/// a search would see no slope between two counts.
const SOFT: f64 = 0.25;

/// Counting errors by which one chance must be above another to be clearly so.
const CLEARLY: f64 = 2.0;

/// How many possible pots keep all demands.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chance {
    pub pots: Counted,
    /// The same for each demand alone.
    pub each: Vec<Counted>,
    /// Share with pots near the edge counted in part: for comparing settings.
    pub soft: f64,
    /// Whether each pot keeps them; the same place is the same luck at every setting.
    kept: Vec<bool>,
}

impl Chance {
    /// Counts by the margins of each pot, 0 or more where it holds; a pot without a forecast keeps nothing.
    ///
    /// - `places` — those of the margins of each demand.
    pub fn of(pots: &[Option<Vec<f64>>], places: &[Range<usize>]) -> Self {
        let least = |m: &[f64]| m.iter().copied().fold(f64::INFINITY, f64::min);
        let at = |places: &Range<usize>| {
            let of_pot = |m: &Option<Vec<f64>>| m.as_ref().map_or(NONE, |m| least(&m[places.clone()]));
            pots.iter().map(of_pot).collect::<Vec<f64>>()
        };
        let count = |margins: &[f64]| Counted::count(margins.iter().map(|m| *m >= 0.0));
        let all = at(&(0..places.last().map_or(0, |last| last.end)));
        let n = all.len().max(1) as f64;
        let soft = all.iter().map(|m| logistic(m.min(4.0), 0.0, SOFT)).sum::<f64>() / n;
        let each = places.iter().map(|places| count(&at(places))).collect();
        Self { pots: count(&all), each, soft, kept: all.iter().map(|m| *m >= 0.0).collect() }
    }

    /// The chance of what keeps a rule in no pot.
    pub fn none(pots: usize) -> Self {
        let none = Counted { of: 0, among: pots };
        Self { pots: none, each: Vec::new(), soft: 0.0, kept: vec![false; pots] }
    }

    /// Whether this chance is above another by more than the counting error of the pots that both were counted in.
    ///
    /// Only pots that hold at one of the two settings tell them apart; if the settings were as good as each other, each of
    /// those would be as likely to hold at the one as at the other, and the difference would scatter by the root of their
    /// number; one pot is taken off it, since counts go by whole pots. Where neither of two chances is above the other, they are
    /// equal as far as so many pots can tell. Source: published, the usual sign test of paired yes-or-no counts with its
    /// correction for whole counts; that two such errors are asked for (about 1 in 40 by luck alone) is common practice.
    pub fn clearly_above(&self, other: &Self) -> bool {
        let pairs = || self.kept.iter().zip(&other.kept);
        let gained = pairs().filter(|(here, there)| **here && !**there).count();
        let lost = pairs().filter(|(here, there)| !**here && **there).count();
        let (gained, lost) = (gained as f64, lost as f64);
        gained - lost - 1.0 > CLEARLY * (gained + lost).sqrt()
    }

    /// Whether the two counts alone tell it from another, as who reads them sees them: by more than twice the scatter of their
    /// difference, √(p(1-p)/n + q(1-q)/m). Pots that are drawn anew would show it too. Source: published, the usual scatter of
    /// the difference of two counted shares; twice of it as in [`Chance::clearly_above`].
    pub fn far_above(&self, other: &Self) -> bool {
        let scatter = |c: &Self| c.share() * (1.0 - c.share()) / c.pots.among.max(1) as f64;
        self.clearly_above(other)
            && self.share() - other.share() > CLEARLY * (scatter(self) + scatter(other)).sqrt()
    }

    /// Share of the pots, 0 to 1.
    pub fn share(&self) -> f64 {
        self.pots.share()
    }

    /// Whether it stands for more than the likely pot.
    pub const fn spread(&self) -> bool {
        self.pots.among > 1
    }

    /// How often one of the demands holds, where that is less than always.
    pub fn of_one(&self, demand: usize) -> Option<Counted> {
        self.each.get(demand).copied().filter(|c| self.spread() && c.of < c.among)
    }

    /// Of pots of which it is known whether they keep all.
    pub fn of_kept(kept: impl IntoIterator<Item = bool>) -> Self {
        let kept: Vec<bool> = kept.into_iter().collect();
        Self { pots: Counted::count(kept.iter().copied()), kept, ..Self::default() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chance(kept: impl IntoIterator<Item = bool>) -> Chance {
        Chance::of_kept(kept)
    }

    #[test]
    fn clearly_above_is_by_pairs_and_not_by_shares() {
        let base = chance((0..200).map(|k| k < 120));
        // The same pots and six more: nothing but gain.
        let more = chance((0..200).map(|k| k < 126));
        assert!(more.clearly_above(&base) && !base.clearly_above(&more));
        // Six more by share, but other pots: 66 gained and 60 lost is luck.
        let others = chance((0..200).map(|k| (60..186).contains(&k)));
        assert_eq!(others.pots, more.pots);
        assert!(!others.clearly_above(&base));
        // Four pots are luck, and no chance is above itself.
        assert!(!chance((0..200).map(|k| k < 124)).clearly_above(&base) && !base.clearly_above(&base));
        // One likely pot tells nothing.
        assert!(!chance([true]).clearly_above(&chance([false])));
        assert!(base.clearly_above(&Chance::none(200)));
    }

    #[test]
    fn a_little_more_often_is_not_clearly_more_often() {
        let often = |of: usize| chance((0..200).map(|k| k < of));
        // The same pots and nine more: surer, though 79 and 70 of other pots would be no news.
        assert!(often(79).clearly_above(&often(70)) && !often(79).far_above(&often(70)));
        assert!(often(95).far_above(&often(70)) && !often(70).far_above(&often(95)));
        // Counts that differ by as much in pots that have nothing in common tell nothing at all.
        let others = chance((0..200).map(|k| (40..119).contains(&k)));
        assert!(others.pots == often(79).pots && !others.clearly_above(&often(70)));
    }
}
