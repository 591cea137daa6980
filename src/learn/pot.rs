//! One pot of a book: what can be taught by it, what its readings would be, and what else scatters them.

use crate::data::Datum;
use crate::fit::Observed;
use potset_base::{Note, Spread};
use potset_doc::pantry::{Warmer, Warming};
use potset_doubt::spread::{STEPS, Sampler};
use potset_forecast::learnt::{LearntKind, Subject, subject};
use potset_forecast::place::Place;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::ready::HORIZON_H;
use potset_science::params::WordLaw;
use potset_science::simulate::growing_times;

/// Something that a pot can teach, and the unknown of the pot that it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Taught {
    pub subject: Subject,
    /// Its place among the unknowns of the pot.
    pub unknown: usize,
}

/// What a logger says of the warmer: the warmth that the pot stayed at.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Level {
    /// Its place among what is taught.
    taught: usize,
    /// What the warmer would reach with its figure at the likely value, °C, and that figure's likely value and spread.
    likely_c: f64,
    off: (f64, Spread),
    read_c: f64,
    sigma: f64,
}

/// A pot that teaches.
pub struct TaughtPot {
    sampler: Sampler,
    words: WordLaw,
    data: Vec<Datum>,
    level: Option<Level>,
    pub(crate) taught: Vec<Taught>,
    times: Vec<f64>,
    /// Where each datum is among the times.
    at: Vec<usize>,
}

/// Least that a doubt does to a reading to be kept, of the reading's scatter. Source: assumed; four hundred such add up to one.
const LEAST_SHARE: f64 = 0.05;

/// A logger tells the warmer's level from so many hours on, and it must tell so many points. Source: assumed: a litre has
/// come to its warmth.
const LEVEL_FROM_H: f64 = 4.0;
const LEVEL_POINTS: usize = 5;

impl TaughtPot {
    /// A pot with its readings.
    ///
    /// - `kinds` — what it may teach.
    /// - `level_sigma` — one sigma of the level that a logger tells, °C.
    ///
    /// # Errors
    /// Why there is no forecast of it.
    pub fn new(
        scenario: &Scenario<'_>,
        data: Vec<Datum>,
        kinds: &[LearntKind],
        level_sigma: f64,
    ) -> Result<Self, Vec<Note>> {
        let sampler = Sampler::to_teach(scenario)?;
        let mut taught = Vec::new();
        for (unknown, of) in sampler.unknowns().list.iter().enumerate() {
            let subject = subject(&of.key, scenario.design, scenario.pantry);
            if kinds.contains(&subject.kind)
                && !taught.iter().any(|t: &Taught| t.subject.name == subject.name)
            {
                taught.push(Taught { subject, unknown });
            }
        }
        let mut times: Vec<f64> = data.iter().map(|d| d.at_h).chain([0.0]).collect();
        times.sort_by(f64::total_cmp);
        times.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        let at = data.iter().map(|d| times.partition_point(|t| *t < d.at_h - 1e-9)).collect();
        let words = sampler.likely().mix.laws.words;
        let level = level(scenario, &taught, level_sigma);
        let mut pot = Self { sampler, words, data, level, taught, times, at };
        pot.keep_telling();
        Ok(pot)
    }

    /// The readings.
    pub fn data(&self) -> &[Datum] {
        &self.data
    }

    /// Its likely run before any pot taught anything.
    pub fn likely(&self) -> &Run {
        self.sampler.likely()
    }

    /// Leaves out what the readings tell nothing about.
    fn keep_telling(&mut self) {
        let places: Vec<Vec<f64>> = std::iter::once(vec![0.0; self.taught.len()])
            .chain((0..self.taught.len()).map(|k| {
                let mut place = vec![0.0; self.taught.len()];
                place[k] = 1.0;
                place
            }))
            .collect();
        let told = self.forecasts(&places);
        let Some(Some(here)) = told.first() else { return };
        let sigmas: Vec<f64> = self.variances().iter().map(|v| v.sqrt()).collect();
        let tells = |there: &Option<Vec<f64>>| {
            there.as_ref().is_some_and(|there| {
                there.iter().zip(here).zip(&sigmas).any(|((t, h), s)| (t - h).abs() > LEAST_SHARE * s)
            })
        };
        let tells: Vec<bool> = told.iter().skip(1).map(tells).collect();
        let level = self.level.map(|level| self.taught[level.taught].clone());
        let mut told = tells.into_iter();
        self.taught.retain(|_| told.next().unwrap_or(false));
        if let (Some(of), Some(level)) = (level, &mut self.level) {
            match self.taught.iter().position(|t| *t == of) {
                Some(at) => level.taught = at,
                None => self.level = None,
            }
        }
    }

    /// When the pot comes to a pH at each of several places, h; nothing where it does not within the common horizon.
    pub(crate) fn hours_to(&mut self, places: &[Vec<f64>], ph: f64) -> Vec<Option<f64>> {
        self.sampler.at(&self.pots(places), &growing_times(HORIZON_H, STEPS));
        let see = |_: &Scenario<'_>, run: Run| run.forecast.time_to_ph(ph);
        self.sampler.each(0..places.len(), see).into_iter().map(|told| told.ok().flatten()).collect()
    }

    /// Pots at places of what is taught.
    fn pots(&self, places: &[Vec<f64>]) -> Vec<Vec<(usize, f64)>> {
        let unknowns = || self.taught.iter().map(|t| t.unknown);
        places.iter().map(|place| unknowns().zip(place.iter().copied()).collect()).collect()
    }

    /// The readings of pots with unknowns at places.
    fn read(&mut self, pots: &[Vec<(usize, f64)>]) -> Vec<Option<Vec<f64>>> {
        self.sampler.at(pots, &self.times);
        let (data, at, words) = (&self.data, &self.at, &self.words);
        let see = |_: &Scenario<'_>, run: Run| {
            let value = |(d, i): (&Datum, &usize)| d.seen.at(&run.forecast, *i, words);
            data.iter().zip(at).map(value).collect::<Vec<f64>>()
        };
        let whole = |told: Result<Vec<f64>, Note>| told.ok().filter(|all| all.iter().all(|v| v.is_finite()));
        self.sampler.each(0..pots.len(), see).into_iter().map(whole).collect()
    }
}

impl Observed for TaughtPot {
    fn values(&self) -> Vec<f64> {
        self.data.iter().map(|d| d.value).chain(self.level.map(|level| level.read_c)).collect()
    }

    fn variances(&self) -> Vec<f64> {
        self.data.iter().map(|d| d.sigma).chain(self.level.map(|level| level.sigma)).map(|s| s * s).collect()
    }

    fn forecasts(&mut self, places: &[Vec<f64>]) -> Vec<Option<Vec<f64>>> {
        let mut told = self.read(&self.pots(places));
        if let Some(level) = self.level {
            for (told, place) in told.iter_mut().zip(places) {
                let z = place.get(level.taught).copied().unwrap_or(0.0);
                let (likely, spread) = level.off;
                let reached = level.likely_c + Place::at(z).value(likely, spread) - likely;
                if let Some(told) = told {
                    told.push(reached);
                }
            }
        }
        told
    }
}

/// What a logger says of the warmer, where the pot has a course of warmth that was logged.
fn level(scenario: &Scenario<'_>, taught: &[Taught], sigma: f64) -> Option<Level> {
    let hold = scenario.design.hold()?;
    let to_h = hold.hours;
    let mut read: Vec<f64> =
        hold.measured.iter().filter(|r| r.at_h >= LEVEL_FROM_H && r.at_h <= to_h).map(|r| r.c).collect();
    if read.len() < LEVEL_POINTS {
        return None;
    }
    let at = taught.iter().position(|t| t.subject.kind == LearntKind::Warmth)?;
    let warmer = scenario.design.entry::<Warmer>(scenario.pantry, &hold.warmer)?;
    let off = match &warmer.warming {
        // Its level is that of the room, and when it was filled tells the rest.
        Warming::Insulated { .. } => return None,
        Warming::Heated { offset_c, .. } if scenario.kitchen.offset_c(&warmer.key).is_none() => {
            (offset_c.value, offset_c.spread)
        }
        _ => {
            let params = potset_forecast::params::shipped().ok()?;
            let open = &params.learning.warmer_off_c;
            (open.value, open.spread)
        }
    };
    read.sort_by(f64::total_cmp);
    let likely_c = hold.set_c
        + match &warmer.warming {
            Warming::Heated { offset_c, .. } => {
                scenario.kitchen.offset_c(&warmer.key).unwrap_or(offset_c.value)
            }
            _ => scenario.kitchen.offset_c(&warmer.key).unwrap_or(0.0),
        };
    let read_c = potset_numerics::quantile::sorted(&read, 0.5);
    Some(Level { taught: at, likely_c, off, read_c, sigma })
}

/// All kinds.
pub(crate) const ALL_KINDS: [LearntKind; 13] = LearntKind::ALL;
