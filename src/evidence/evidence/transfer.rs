//! Learning on published pots: after one condition of a paper, how far off are its others?
//!
//! By the same fit as a maker's batch book (`potset_learn`): the cases of one culture of one paper are pots of one culture and
//! one base, in a laboratory.

use std::collections::BTreeMap;

use super::coverage::of_pot;
use super::{met, pots, waits};
use potset_base::Note;
use potset_doc::evidence::{Case, Pot, Reading, Scatter, What};
use potset_doc::{Learnt, Pantry};
use potset_doubt::spread::{MakerScatter, Sampler};
use potset_forecast::evidence::{Knobs, design, laboratory};
use potset_forecast::learnt::{Subject, subject};
use potset_forecast::params;
use potset_forecast::scenario::Scenario;
use potset_learn::{Input, Observed, Parts, fit};
use potset_science::params::LearningLaw;

/// What learning from one case does to the forecast of another of its paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Transfer {
    /// What the cases share: one culture of one paper.
    pub shared: String,
    /// Keys of the cases.
    pub from: String,
    pub to: String,
    pub readings: usize,
    /// Root mean square of the differences in scatters: forecast as it stands, and after the other case.
    pub before: f64,
    pub after: f64,
    /// Hours to the pH nearest to 4.6 that the case tells: as read, as it stands, after the other case.
    pub hours: Option<(f64, [f64; 3])>,
}

/// Every pair of cases of one culture of one paper, both ways.
pub fn transfers(cases: &[Case], pantry: &Pantry) -> Vec<Transfer> {
    let mut groups: BTreeMap<&str, Vec<&Case>> = BTreeMap::new();
    for case in cases.iter().filter(|case| waits(case, pantry).is_none()) {
        let shared = case.fit.as_ref().map_or(case.citation.as_str(), |fit| fit.shared.as_str());
        groups.entry(shared).or_default().push(case);
    }
    let mut all = Vec::new();
    for (shared, group) in groups {
        for from in &group {
            for to in group.iter().filter(|to| to.key != from.key) {
                all.extend(transfer(shared, from, to, pantry));
            }
        }
    }
    all
}

/// A case as a pot that teaches.
struct CasePot<'a> {
    pot: &'a Pot,
    sampler: Sampler,
    readings: Vec<Reading>,
    subjects: Vec<(usize, Subject)>,
}

impl<'a> CasePot<'a> {
    fn new(case: &'a Case, pantry: &Pantry) -> Result<Option<Self>, Note> {
        let Some(pot) = case.pot() else { return Ok(None) };
        let met = met(case);
        let kept = |r: &&Reading| pots::follows_the_hold(&r.what) && met.as_ref() != Some(&r.what);
        let readings: Vec<Reading> = case.readings.iter().filter(kept).cloned().collect();
        if readings.is_empty() || pot.cells.is_empty() {
            return Ok(None);
        }
        let design = design(pot, pot.hold_c, &Knobs::NONE, pantry)?;
        let (kitchen, learnt) = (laboratory(pot), Learnt::default());
        let scenario = Scenario { design: &design, pantry, kitchen: &kitchen, learnt: &learnt };
        let lack = |notes: Vec<Note>| {
            let why = notes.into_iter().next();
            why.unwrap_or_else(|| Note::error("pot", "The case cannot be worked out", "Mend the case"))
        };
        let sampler = Sampler::to_teach(&scenario).map_err(lack)?;
        let all = sampler.unknowns().list.iter().enumerate();
        let subjects = all.map(|(i, u)| (i, subject(&u.key, &design, pantry))).collect();
        let mut all = Self { pot, sampler, readings, subjects };
        all.keep_telling();
        Ok(Some(all))
    }

    /// Leaves out what the readings tell nothing about.
    fn keep_telling(&mut self) {
        let n = self.subjects.len();
        let one = |k: usize| (0..n).map(|i| if i == k { 1.0 } else { 0.0 }).collect::<Vec<f64>>();
        let places: Vec<Vec<f64>> = std::iter::once(vec![0.0; n]).chain((0..n).map(one)).collect();
        let told = self.forecasts(&places);
        let Some(Some(here)) = told.first().cloned() else { return };
        let sigmas: Vec<f64> = self.variances().iter().map(|v| v.sqrt()).collect();
        let tells = |there: &Option<Vec<f64>>| {
            there.as_ref().is_some_and(|there| {
                there.iter().zip(&here).zip(&sigmas).any(|((t, h), s)| (t - h).abs() > 0.05 * s)
            })
        };
        let mut tells = told.iter().skip(1).map(tells);
        self.subjects.retain(|_| tells.next().unwrap_or(false));
    }

    fn inputs(&self, parts: &mut Parts, law: &LearningLaw) -> Vec<Input> {
        self.subjects.iter().map(|(_, subject)| parts.input(subject, "", law)).collect()
    }

    fn of(&mut self, readings: &[Reading], places: &[Vec<f64>]) -> Vec<Option<Vec<f64>>> {
        let unknowns = || self.subjects.iter().map(|(i, _)| *i);
        let pots: Vec<Vec<(usize, f64)>> =
            places.iter().map(|place| unknowns().zip(place.iter().copied()).collect()).collect();
        let hours = self.pot.hours;
        self.sampler.at(&pots, &[0.0]);
        let pot = self.pot;
        let see = |scenario: &Scenario<'_>, _: usize, mix: &_, facts: &_| {
            of_pot(pot, readings, scenario, (mix, facts))
        };
        let told = self.sampler.each_mix(0..places.len(), MakerScatter::Scatters, see);
        // A pot that never comes there does so later than anybody looked.
        let never = |(v, r): (Option<f64>, &Reading)| match r.what {
            What::HoursTo(_) | What::HoursToSteepest => Some(v.unwrap_or(1.2 * hours)),
            _ => v,
        };
        let whole = |list: Vec<Option<f64>>| list.into_iter().zip(readings).map(never).collect();
        told.into_iter().map(|list| list.ok().and_then(whole)).collect()
    }
}

impl Observed for CasePot<'_> {
    fn values(&self) -> Vec<f64> {
        self.readings.iter().map(|r| r.value).collect()
    }

    fn variances(&self) -> Vec<f64> {
        self.readings.iter().map(|r| r.sigma().0.powi(2)).collect()
    }

    fn forecasts(&mut self, places: &[Vec<f64>]) -> Vec<Option<Vec<f64>>> {
        let readings = self.readings.clone();
        self.of(&readings, places)
    }
}

fn transfer(shared: &str, from: &Case, to: &Case, pantry: &Pantry) -> Option<Transfer> {
    let laws = params::shipped().ok()?.laws();
    let mut one = CasePot::new(from, pantry).ok()??;
    let mut other = CasePot::new(to, pantry).ok()??;
    let mut parts = Parts::default();
    let inputs = [one.inputs(&mut parts, &laws.learning), other.inputs(&mut parts, &laws.learning)];
    let members: Vec<(&mut dyn Observed, &[Input])> =
        vec![(&mut one, inputs[0].as_slice()), (&mut other, inputs[1].as_slice())];
    let fitted = fit(&parts.variances, members);
    let found = fitted.pots.get(1)?.as_ref()?;
    let places = [vec![0.0; found.places.len()], found.without.clone()];
    let readings = other.readings.clone();
    let told = other.of(&readings, &places);
    let rms = |list: &Option<Vec<f64>>| {
        let list = list.as_ref()?;
        let squares: f64 = readings.iter().zip(list).map(|(r, v)| r.difference(*v).powi(2)).sum();
        Some((squares / readings.len() as f64).sqrt())
    };
    let hours = read_hours(&readings, laws.ready.acid_line_ph).and_then(|(ph, read)| {
        let asked = [Reading { what: What::HoursTo(ph), value: read, scatter: Scatter::Usual }];
        let told = other.of(&asked, &places);
        let of = |k: usize| told.get(k)?.as_ref()?.first().copied();
        Some((ph, [read, of(0)?, of(1)?]))
    });
    Some(Transfer {
        shared: shared.to_owned(),
        from: from.key.clone(),
        to: to.key.clone(),
        readings: readings.len(),
        before: rms(told.first()?)?,
        after: rms(told.get(1)?)?,
        hours,
    })
}

/// The hours to a pH that readings tell, and which: a time to the pH nearest to the line, else between two readings beside
/// the line.
fn read_hours(readings: &[Reading], line_ph: f64) -> Option<(f64, f64)> {
    let timed = readings.iter().filter_map(|r| match r.what {
        What::HoursTo(ph) => Some((ph, r.value)),
        _ => None,
    });
    let nearest = timed.min_by(|a, b| (a.0 - line_ph).abs().total_cmp(&(b.0 - line_ph).abs()));
    nearest.or_else(|| {
        let mut ph: Vec<(f64, f64)> = readings
            .iter()
            .filter_map(|r| match r.what {
                What::Ph(h) => Some((h, r.value)),
                _ => None,
            })
            .collect();
        ph.sort_by(|a, b| a.0.total_cmp(&b.0));
        let pair = ph.windows(2).find(|pair| pair[0].1 > line_ph && pair[1].1 <= line_ph)?;
        let ((t0, p0), (t1, p1)) = (pair[0], pair[1]);
        Some((line_ph, t0 + (t1 - t0) * (p0 - line_ph) / (p0 - p1)))
    })
}
