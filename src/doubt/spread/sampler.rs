//! The possible pots of one design: each unknown at a place of its spread, compiled and forecast.

use std::sync::Arc;

use rayon::prelude::*;

use super::learnt::Taught;
use super::left_out::left_of;
use super::made::{TOLERANCE, curves, forecast, maker, times_of, why};
use super::unknowns::{Drawn, UnknownKind, Unknowns};
use potset_base::{Cited, Note};
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_forecast::learnt::subject;
use potset_forecast::place::{Place, stream};
use potset_forecast::scenario::{Run, Scenario, not_computed};
use potset_forecast::{Compiled, Facts, compile_drawn, params};
use potset_numerics::samples;
use potset_science::Mix;
use potset_science::params::Laws;
use potset_science::simulate::simulate_at;
use potset_science::simulate_coarse;

/// Pots of the first picture. They fill every spread evenly by themselves, and so do they with all later ones.
pub const FIRST: usize = 64;

/// Deviate of the 95 % bound.
pub(super) const Z95: f64 = 1.644_853_627;

/// Draws the pots of one design. The same design, kitchen, seed and number of pots give the same pots, on any number of
/// threads; another design draws what both share from the same places.
#[derive(Clone, Debug)]
pub struct Sampler {
    pub(super) unknowns: Unknowns,
    /// Place of each pot, unknown by unknown.
    places: Vec<Vec<Place>>,
    pub(super) design: Design,
    pantry: Arc<Pantry>,
    pub(super) kitchen: Kitchen,
    /// Nothing: what pots taught is in the places.
    learnt: Learnt,
    /// Factor on the texture of pots of this base, where pots taught it: it stands for what the laws leave out.
    body: Option<Cited>,
    laws: Laws,
    /// The pot as it is likely, on the times of all.
    likely: Run,
    times: Vec<f64>,
    /// One sigma, as a logarithm, of what the laws of texture leave out and the drawn figures do not make up for.
    left_out: f64,
}

/// Whose doubts are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MakerScatter {
    /// The maker's hand scatters too: amounts, label, age, room, thermometer and warmth.
    Scatters,
    /// Only the figures of the model and of the pantry; the hand does as planned.
    AsPlanned,
}

/// What is changed from pot to pot.
pub(super) struct Scratch {
    pub(super) design: Design,
    pub(super) kitchen: Kitchen,
}

impl Sampler {
    /// A sampler of so many pots.
    ///
    /// # Errors
    /// The notes that say why there is no forecast of the likely pot.
    pub fn new(scenario: &Scenario<'_>, seed: u64, pots: usize) -> Result<Self, Vec<Note>> {
        Self::looking_to(scenario, seed, pots, 0.0)
    }

    /// The same, looking at least so many hours ahead.
    ///
    /// # Errors
    /// As [`Sampler::new`].
    pub fn looking_to(
        scenario: &Scenario<'_>,
        seed: u64,
        pots: usize,
        horizon_h: f64,
    ) -> Result<Self, Vec<Note>> {
        let mut all = Self::compiled(scenario, seed, pots, horizon_h)?;
        all.find_left_out(FIRST.min(pots));
        Ok(all)
    }

    /// The same with what the laws of texture leave out known already, from [`Sampler::left_out`] of another like it.
    ///
    /// # Errors
    /// As [`Sampler::new`].
    pub fn leaving_out(
        scenario: &Scenario<'_>,
        seed: u64,
        pots: usize,
        left_out: f64,
    ) -> Result<Self, Vec<Note>> {
        Ok(Self { left_out, ..Self::compiled(scenario, seed, pots, 0.0)? })
    }

    /// A sampler for [`Sampler::each_mix`] alone: it does not find out what the laws of texture leave out.
    ///
    /// # Errors
    /// As [`Sampler::new`].
    pub fn of_mixes(scenario: &Scenario<'_>, seed: u64, pots: usize) -> Result<Self, Vec<Note>> {
        Self::compiled(scenario, seed, pots, 0.0)
    }

    fn compiled(scenario: &Scenario<'_>, seed: u64, pots: usize, horizon_h: f64) -> Result<Self, Vec<Note>> {
        let mut design = scenario.design.clone();
        design.refresh_snapshot(scenario.pantry);
        let unknowns = Unknowns::of(scenario, &design).map_err(|note| vec![note])?;
        let taught = Taught::new(scenario.learnt, seed, pots);
        let places = unknowns
            .list
            .par_iter()
            .map(|u| match taught.places(&subject(&u.key, &design, scenario.pantry).name) {
                Some(places) => places,
                None => samples::side(seed, stream(&u.key), FIRST, pots).into_iter().map(Place::of).collect(),
            })
            .collect();
        let body = scenario.learnt.find(&subject("left out", &design, scenario.pantry).name);
        let params = params::shipped().map_err(|note| vec![note.clone()])?;
        let likely = scenario.run_by(horizon_h, |mix| simulate_at(mix, &times_of(mix), TOLERANCE))?;
        Ok(Self {
            unknowns,
            places,
            design,
            pantry: Arc::new(Pantry::default()),
            kitchen: scenario.kitchen.clone(),
            learnt: Learnt::default(),
            body: body.map(|_| params.learning.body.clone()),
            laws: (*likely.mix.laws).clone(),
            times: times_of(&likely.mix),
            likely,
            left_out: 0.0,
        })
    }

    /// What varies.
    pub const fn unknowns(&self) -> &Unknowns {
        &self.unknowns
    }

    /// The pot as it is likely, on the times of all pots.
    pub const fn likely(&self) -> &Run {
        &self.likely
    }

    /// Times of all pots, h.
    pub fn times(&self) -> &[f64] {
        &self.times
    }

    /// How many pots can be drawn.
    pub fn pots(&self) -> usize {
        self.places.first().map_or(0, Vec::len)
    }

    /// The place of an unknown in a pot.
    pub fn place(&self, unknown: usize, pot: usize) -> Place {
        self.places.get(unknown).and_then(|row| row.get(pot)).copied().unwrap_or_default()
    }

    /// The same doubts one by one: pots 2 i and 2 i + 1 have unknown i one sigma up and down and all else in the middle, the
    /// last pot has all in the middle. For finding out which doubt pulls the pots to one side.
    pub fn one_by_one(mut self) -> Self {
        let n = self.places.len();
        let middle = Place { share: 0.5, z: 0.0 };
        let sides = [Place { share: 0.841, z: 1.0 }, Place { share: 0.159, z: -1.0 }];
        self.places = (0..n)
            .map(|i| (0..=2 * n).map(|k| if k / 2 == i { sides[k % 2] } else { middle }).collect())
            .collect();
        self
    }

    /// A sampler for learning from a pot: one pot with all in the middle, and what every warmer is off by among its unknowns.
    /// [`Sampler::at`] puts others in its place.
    ///
    /// # Errors
    /// As [`Sampler::new`].
    pub fn to_teach(scenario: &Scenario<'_>) -> Result<Self, Vec<Note>> {
        let mut all = Self::compiled(scenario, 1, 1, 0.0)?;
        all.unknowns = Unknowns::to_teach(scenario, &all.design).map_err(|note| vec![note])?;
        all.places = vec![vec![Place::at(0.0)]; all.unknowns.list.len()];
        all.body = Some(params::shipped().map_err(|note| vec![note.clone()])?.learning.body.clone());
        Ok(all)
    }

    /// The same with other pots, by the deviates of some unknowns, all others in the middle, and other times, h from 0 on and
    /// rising.
    pub fn at(&mut self, pots: &[Vec<(usize, f64)>], times: &[f64]) {
        self.times = times.to_vec();
        for (unknown, row) in self.places.iter_mut().enumerate() {
            let z =
                |pot: &Vec<(usize, f64)>| pot.iter().find(|(of, _)| *of == unknown).map_or(0.0, |(_, z)| *z);
            *row = pots.iter().map(|pot| Place::at(z(pot))).collect();
        }
    }

    /// Forecasts some of the pots, and what `see` makes of each; why there is no forecast where there is none.
    ///
    /// A question about the pot's own design is answered with the `Scenario` that `see` gets.
    pub fn each<T: Send>(
        &self,
        pots: std::ops::Range<usize>,
        see: impl Fn(&Scenario<'_>, Run) -> T + Sync,
    ) -> Vec<Result<T, Note>> {
        self.drawn(pots, MakerScatter::Scatters, |scenario, k, mut mix, (facts, notes)| {
            mix.texture.left_out = self.texture_factor(k);
            let forecast = forecast(&mix, &self.times)?;
            Ok(see(scenario, Run { mix, facts, forecast, notes }))
        })
    }

    /// Compiles some of the pots, and what `see` makes of the number and the mix of each, without a forecast and without
    /// what the laws of texture leave out; why there is no mix where there is none.
    pub fn each_mix<T: Send>(
        &self,
        pots: std::ops::Range<usize>,
        hand: MakerScatter,
        see: impl Fn(&Scenario<'_>, usize, &Mix, &Facts) -> Result<T, Note> + Sync,
    ) -> Vec<Result<T, Note>> {
        self.drawn(pots, hand, |scenario, k, mix, (facts, _)| see(scenario, k, &mix, &facts))
    }

    /// Forecasts pots in which something else was done than the design says, and what `see` makes of each, coarsely: for
    /// studies that ask for hundreds.
    ///
    /// - `pots` — the number of the possible pot that each of them is.
    /// - `change` — what was done to the one at a place in `pots`.
    pub fn each_changed<T: Send>(
        &self,
        pots: &[usize],
        change: impl Fn(usize, &mut Design) + Sync,
        see: impl Fn(usize, &Scenario<'_>, Run) -> T + Sync,
    ) -> Vec<Result<T, Note>> {
        let pot = |scratch: &mut Scratch, (i, k): (usize, &usize)| {
            let laws = self.draw(scratch, *k, MakerScatter::Scatters)?;
            let mut design = scratch.design.clone();
            change(i, &mut design);
            let (pantry, learnt) = (&self.pantry, &self.learnt);
            let scenario = Scenario { design: &design, pantry, kitchen: &scratch.kitchen, learnt };
            let Compiled { mix, facts, notes } = compile_drawn(&scenario, &Arc::new(laws));
            let Some(mut mix) = mix else { return Err(why(notes)) };
            mix.texture.left_out = self.texture_factor(*k);
            let forecast = simulate_coarse(&mix).map_err(|e| not_computed(&e))?;
            Ok(see(i, &scenario, Run { mix, facts, forecast, notes }))
        };
        pots.par_iter().enumerate().map_init(|| self.scratch(), pot).collect()
    }

    fn drawn<T: Send>(
        &self,
        pots: std::ops::Range<usize>,
        hand: MakerScatter,
        see: impl Fn(&Scenario<'_>, usize, Mix, (Facts, Vec<Note>)) -> Result<T, Note> + Sync,
    ) -> Vec<Result<T, Note>> {
        let pots = pots.start..pots.end.min(self.pots());
        let pot = |scratch: &mut Scratch, k| self.pot(scratch, (k, hand), &see);
        pots.into_par_iter().map_init(|| self.scratch(), pot).collect()
    }

    fn scratch(&self) -> Scratch {
        Scratch { design: self.design.clone(), kitchen: self.kitchen.clone() }
    }

    fn pot<T>(
        &self,
        scratch: &mut Scratch,
        (k, hand): (usize, MakerScatter),
        see: &impl Fn(&Scenario<'_>, usize, Mix, (Facts, Vec<Note>)) -> Result<T, Note>,
    ) -> Result<T, Note> {
        let laws = self.draw(scratch, k, hand)?;
        let Scratch { design, kitchen } = scratch;
        let scenario = Scenario { design, pantry: &self.pantry, kitchen, learnt: &self.learnt };
        let Compiled { mix, facts, notes } = compile_drawn(&scenario, &Arc::new(laws));
        let Some(mix) = mix else { return Err(why(notes)) };
        see(&scenario, k, mix, (facts, notes))
    }

    /// What the laws of texture leave out of a pot, as a factor; what pots of its base taught where they did.
    fn texture_factor(&self, k: usize) -> f64 {
        let place = self.unknowns.find("left out").map_or_else(Place::default, |at| self.place(at, k));
        match &self.body {
            Some(cited) => maker(place, cited),
            None => (self.left_out * place.z).exp(),
        }
    }

    pub(super) fn z(&self, key: &str, k: usize) -> f64 {
        self.unknowns.find(key).map_or(0.0, |at| self.place(at, k).z)
    }

    /// Puts every unknown to its place in a pot: the design and the kitchen in place, the laws anew. A scratch is of one hand.
    fn draw(&self, scratch: &mut Scratch, k: usize, hand: MakerScatter) -> Result<Laws, Note> {
        let params = params::shipped().map_err(Clone::clone)?;
        let mut laws = self.laws.clone();
        let mut next = 0;
        let mut at = 0;
        laws.each(&mut |v| {
            self.put(&self.unknowns.laws, (&mut next, &mut at), k, v);
        });
        laws.link(&self.laws);
        let (mut next, mut at) = (0, 0);
        scratch.design.snapshot.each_bare(&mut |cited| {
            self.put(&self.unknowns.entries, (&mut next, &mut at), k, &mut cited.value);
        });
        for (i, unknown) in self.unknowns.list.iter().enumerate() {
            if let UnknownKind::Figures(paths) = &unknown.of {
                curves(&mut laws, params, paths, self.place(i, k));
            }
        }
        if hand == MakerScatter::Scatters {
            self.scatter(scratch, k, &params.maker);
        }
        Ok(laws)
    }

    /// Puts a figure where it is one that varies: `next` counts those, `at` all figures.
    fn put(&self, drawn: &[Drawn], (next, at): (&mut usize, &mut usize), k: usize, v: &mut f64) {
        if let Some(figure) = drawn.get(*next).filter(|d| d.at == *at) {
            *v = self.place(figure.unknown, k).value(figure.value, figure.spread);
            *next += 1;
        }
        *at += 1;
    }

    /// One sigma, as a logarithm, of what the laws of texture leave out and the drawn figures do not make up for.
    pub const fn left_out(&self) -> f64 {
        self.left_out
    }

    /// One sigma of the chilled viscosity that the laws state for the likely pot once it is sour, as a logarithm.
    pub fn stated(&self) -> f64 {
        let textures = self.likely.forecast.textures(self.looked_at_h());
        textures.map_or(0.0, |(_, chilled)| (chilled.high50 / chilled.low50).ln() / (2.0 * Z95))
    }

    /// When the likely pot is sour, or the end of its forecast: whatever its stop, so that no pot hangs on that.
    fn looked_at_h(&self) -> f64 {
        let Run { mix, forecast, .. } = &self.likely;
        forecast.time_to_ph(mix.laws.ready.acid_line_ph).unwrap_or(mix.horizon_h).max(1.0)
    }

    /// Finds one sigma that is left of the laws' stated scatter after that of the drawn figures is taken off.
    ///
    /// What a law states is of a pot whose make-up is known, so that the maker's hand does as planned here, and what it adds
    /// stays. The chilled viscosity of the soured pot counts, over the first pots: their places in all figures are those of the
    /// first pots of the spread.
    fn find_left_out(&mut self, first: usize) {
        let at_h = self.looked_at_h();
        let made = self.drawn(0..first, MakerScatter::AsPlanned, |_, _, mix, _| {
            let forecast = forecast(&mix, &[0.0, at_h])?;
            Ok(forecast.chilled.viscosity50.last().copied().unwrap_or(f64::NAN))
        });
        self.left_out = left_of(self.stated(), made.into_iter().flatten());
    }
}
