//! Makes a spread some pots at a time, the coarse picture first, on all cores.

use super::pot::{Pot, place_of};
use super::sampler::Sampler;
use super::{Chance, Curve, FIRST, Spread, summary};
use potset_base::Note;
use potset_forecast::scenario::Scenario;
use potset_judge::readiness::goals_of;
use potset_judge::ready::HORIZON_H;

/// A spread that is being worked out.
#[derive(Clone, Debug)]
pub struct Spreader {
    sampler: Sampler,
    goals: Vec<String>,
    /// Pots in the order of their numbers; why there is none where there is none.
    pots: Vec<Result<Pot, Note>>,
}

impl Spreader {
    /// A spread with nothing worked out.
    ///
    /// # Errors
    /// The notes that say why there is no forecast of the likely pot.
    pub fn new(scenario: &Scenario<'_>, seed: u64, pots: usize) -> Result<Self, Vec<Note>> {
        Self::looking_to(scenario, seed, pots, HORIZON_H)
    }

    /// The same, looking at least so many hours ahead.
    ///
    /// # Errors
    /// As [`Spreader::new`].
    pub fn looking_to(
        scenario: &Scenario<'_>,
        seed: u64,
        pots: usize,
        horizon_h: f64,
    ) -> Result<Self, Vec<Note>> {
        let sampler = Sampler::looking_to(scenario, seed, pots, horizon_h)?;
        let goals = goals_of(scenario, sampler.likely()).into_iter().map(|g| g.name).collect();
        Ok(Self { sampler, goals, pots: Vec::with_capacity(pots) })
    }

    /// Works out so many more pots, the first time the coarse picture at least; whether there are more.
    pub fn more(&mut self, n: usize) -> bool {
        let done = self.pots.len();
        let n = if done == 0 { n.max(FIRST) } else { n };
        self.pots.extend(self.sampler.each(done..done + n, |scenario, run| Pot::of(scenario, &run)));
        self.pots.len() < self.sampler.pots()
    }

    /// The spread so far.
    pub fn spread(&self) -> Spread {
        summary::summary(&self.sampler, &self.goals, &self.pots)
    }

    /// Pots so far that are to be thrown away.
    pub fn lost(&self) -> Chance {
        summary::lost(&self.made().map(|(_, pot)| pot).collect::<Vec<_>>())
    }

    /// Values of a curve in all pots at one of the times.
    pub fn values(&self, organisms: usize, curve: Curve, at: usize) -> Vec<f64> {
        let Some(place) = place_of(organisms, curve) else { return Vec::new() };
        let n = self.sampler.times().len();
        self.made().filter_map(|(_, pot)| pot.curves.get(place * n + at)).copied().collect()
    }

    /// What the pots are drawn by.
    pub const fn sampler(&self) -> &Sampler {
        &self.sampler
    }

    /// Pots that were forecast, with their numbers.
    pub(crate) fn made(&self) -> impl Iterator<Item = (usize, &Pot)> {
        self.pots.iter().enumerate().filter_map(|(k, pot)| pot.as_ref().ok().map(|pot| (k, pot)))
    }
}
