//! What pots teach: figures recovered from simulated pots, the forecast ahead, published pots, drift, and what is kept.
//!
//! Truths are simulated here, from places of the figures that the fit does not know; other laws come from `spread::changed`.

mod ahead;
mod kept;
mod published;
mod recovery;

use std::sync::Arc;

use potset_doc::batch::{Batch, BatchReading, Observed};
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_doubt::spread::{MakerScatter, Sampler, TOLERANCE};
use potset_forecast::learnt::{LearntKind, subject};
use potset_forecast::scenario::Scenario;
use potset_numerics::{quantile, samples};
use potset_science::simulate::simulate_at;
use potset_science::{Forecast, Mix};

use crate::support::shipped;

/// The pantry, shared.
fn pantry() -> Arc<Pantry> {
    Arc::new(shipped().clone())
}

/// A normal deviate by seed and place.
fn deviate(seed: u64, place: u64) -> f64 {
    quantile::normal(1e-4 + (1.0 - 2e-4) * samples::side(9000 + seed, place, 1, 1)[0])
}

/// A batch of a design with readings of pH.
fn batch(design: &Design, readings: &[(f64, f64)]) -> Batch {
    let reading = |(at_h, ph): &(f64, f64)| BatchReading {
        at_h: *at_h,
        what: Observed::Ph(*ph),
        note: String::new(),
        photo: String::new(),
        who: String::new(),
    };
    Batch {
        name: design.name.clone(),
        code: String::new(),
        culture_in: String::new(),
        zone: String::new(),
        design: design.clone(),
        kitchen: Kitchen::default(),
        plan: Vec::new(),
        packet: String::new(),
        lots: Vec::new(),
        who: String::new(),
        readings: readings.iter().map(reading).collect(),
        logged: None,
        stopped_h: None,
        ended: true,
        stars: 0,
        note: String::new(),
        use_by: String::new(),
        left_out: false,
    }
}

/// What varies from one true pot to the next.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Varies {
    /// What a person is told of: pace, cells, lag, ceilings, start pH, buffer, warmer.
    Told,
    /// All that is not known, the maker's hand too.
    All,
}

/// Another truth than the model's own.
type Law = dyn Fn(&Mix, &[f64]) -> Forecast + Sync;

fn own_law(mix: &Mix, times: &[f64]) -> Forecast {
    simulate_at(mix, times, TOLERANCE).unwrap()
}

/// A maker of true pots of a design.
struct Truths<'a> {
    design: &'a Design,
    sampler: Sampler,
    kinds: Vec<LearntKind>,
    pace: usize,
}

impl<'a> Truths<'a> {
    fn of(design: &'a Design, pantry: &Pantry) -> Self {
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let scenario = Scenario { design, pantry, kitchen: &kitchen, learnt: &learnt };
        let sampler = Sampler::to_teach(&scenario).unwrap();
        let list = &sampler.unknowns().list;
        let kinds: Vec<LearntKind> = list.iter().map(|u| subject(&u.key, design, pantry).kind).collect();
        // Of the two paces of a culture the one that its base goes by does something.
        let dairy =
            design.bases.iter().all(|line| line.entry.contains("milk") && !line.entry.contains("coconut"));
        let field = if dairy { "speed_dairy" } else { "speed_plant" };
        let pace =
            list.iter().position(|u| u.key.starts_with("cultures.") && u.key.ends_with(field)).unwrap();
        Self { design, sampler, kinds, pace }
    }

    /// A true pot, read at times with a scatter of pH: what is read, and the place of its pace.
    fn pot(&mut self, seed: u64, varies: Varies, law: &Law, times: &[f64], scatter: f64) -> (Batch, f64) {
        self.paced(deviate(seed, self.pace as u64), (seed, varies), law, times, scatter)
    }

    /// The same with its pace at a place.
    fn paced(
        &mut self,
        pace: f64,
        (seed, varies): (u64, Varies),
        law: &Law,
        times: &[f64],
        scatter: f64,
    ) -> (Batch, f64) {
        let free = |k: &usize| varies == Varies::All || self.kinds[*k].told();
        let place = |k: usize| if k == self.pace { pace } else { deviate(seed, k as u64) };
        let places: Vec<(usize, f64)> =
            (0..self.kinds.len()).filter(free).map(|k| (k, place(k))).collect();
        let whole: Vec<f64> = std::iter::once(0.0).chain(times.iter().copied()).collect();
        self.sampler.at(&[places], &whole);
        let see = |_: &Scenario<'_>, _: usize, mix: &Mix, _: &_| Ok(law(mix, &whole).ph);
        let ph = self.sampler.each_mix(0..1, MakerScatter::Scatters, see).remove(0).unwrap();
        let read = |(i, t): (usize, &f64)| (*t, ph[i + 1] + scatter * deviate(seed, 5000 + i as u64));
        let readings: Vec<(f64, f64)> = times.iter().enumerate().map(read).collect();
        (batch(self.design, &readings), pace)
    }
}
