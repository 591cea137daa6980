//! The forecast ahead of a pot under way: its possible pots, weighed by what was read so far. Nothing is fitted here, so that
//! a reading is answered at once.
//!
//! The weight of a possible pot is how likely the readings are in it. Readings count by a curve with long tails, so that one
//! slip of the hand does not rule out every pot.

use crate::data::{Datum, Seen};
use potset_base::Note;
use potset_base::chance::{Chance, WINDOW_CHANCE};
use potset_doubt::spread::{EDGES, Pot, Sampler};
use potset_forecast::scenario::Scenario;
use potset_judge::ready::{HALF, HORIZON_H};
use potset_numerics::interpolate::curve;

/// Possible pots of a pot under way.
pub const CLOUD_POTS: usize = 1500;

/// Freedom of the curve by which a reading counts: 4 is nearly normal in the middle, and has long tails.
/// Source: common practice of robust fits with Student's curve.
const FREEDOM: f64 = 4.0;

/// Fewer pots than so many must not carry the answer: then readings count for less until they do. Source: assumed.
const LEAST_PRESENT: f64 = 25.0;

/// A reading that the weighed pots miss by so many scatters on the mean fits none of them. Source: assumed.
const FAR: f64 = 3.0;

/// The possible pots of a pot under way, worked out once.
#[derive(Clone, Debug, PartialEq)]
pub struct Cloud {
    t: Vec<f64>,
    pots: Vec<CloudPot>,
    /// The pots in rising order of each kind of reading at each time, and of when they are ready: what a reading asks for is
    /// then one walk each.
    orders: Vec<Vec<Vec<usize>>>,
    by_ready: Vec<usize>,
}

/// One of them.
#[derive(Clone, Debug, PartialEq)]
struct CloudPot {
    /// What can be read of it, by the places of [`Seen::ALL`].
    seen: Vec<Vec<f64>>,
    ready_h: Option<f64>,
    lost: bool,
}

/// When the pots are ready, 5 and 95 % of them, h; the end of the horizon for those that are not.
pub type Range = (f64, f64);

/// What the readings make of the possible pots.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ahead {
    /// h.
    pub t: Vec<f64>,
    /// For each of [`Seen::ALL`] its edges, as [`EDGES`].
    pub bands: Vec<[Vec<f64>; 5]>,
    /// When 5 and 8 in 10 have first become ready, h.
    pub half_h: Option<f64>,
    pub most_h: Option<f64>,
    /// How far the hours at which they become ready lie apart.
    pub range: Range,
    /// Pots that become ready at all, and that are to be thrown away as planned.
    pub ever: Chance,
    pub lost: Chance,
    /// How many pots the answer rests on, by their weights.
    pub present: f64,
    /// The readings lie where hardly any possible pot does: they were made to count for less.
    pub strained: bool,
    /// Weight of each pot; they sum to 1.
    pub weights: Vec<f64>,
}

impl Cloud {
    /// The possible pots of a question.
    ///
    /// # Errors
    /// The notes that say why there is no forecast.
    pub fn new(scenario: &Scenario<'_>, seed: u64, pots: usize) -> Result<Self, Vec<Note>> {
        let sampler = Sampler::looking_to(scenario, seed, pots, HORIZON_H)?;
        let words = sampler.likely().mix.laws.words;
        let made = sampler.each(0..pots, |scenario, run| {
            let f = &run.forecast;
            let seen = Seen::ALL.map(|seen| (0..f.t.len()).map(|i| seen.at(f, i, &words)).collect());
            let pot = Pot::of(scenario, &run);
            CloudPot { seen: seen.into(), ready_h: pot.ready_h, lost: pot.lost.is_some() }
        });
        let mut all = Self {
            t: sampler.times().to_vec(),
            pots: made.into_iter().filter_map(Result::ok).collect(),
            orders: Vec::new(),
            by_ready: Vec::new(),
        };
        let value = |seen: Seen, i: usize| move |pot: &CloudPot| pot.seen[seen as usize][i];
        let of_kind = |seen| (0..all.t.len()).map(|i| order(all.pots.iter().map(value(seen, i)))).collect();
        all.orders = Seen::ALL.map(of_kind).into();
        all.by_ready = order(all.ready().into_iter());
        Ok(all)
    }

    /// Times of the pots, h.
    pub fn times(&self) -> &[f64] {
        &self.t
    }

    /// A kind of reading in each pot at a time.
    pub fn at(&self, seen: Seen, t_h: f64) -> Vec<f64> {
        self.pots.iter().map(|pot| curve(&self.t, &pot.seen[seen as usize], t_h)).collect()
    }

    /// When each pot is first ready, h; later than the horizon where it is not within it.
    pub fn ready(&self) -> Vec<f64> {
        self.pots.iter().map(|pot| pot.ready_h.unwrap_or(HORIZON_H * 1.1)).collect()
    }

    /// What the readings so far make of the pots.
    pub fn ahead(&self, data: &[Datum]) -> Ahead {
        let mut told: Vec<f64> = vec![0.0; self.pots.len()];
        let off: Vec<Vec<f64>> = data.iter().map(|datum| self.off(datum)).collect();
        for off in &off {
            for (told, d) in told.iter_mut().zip(off) {
                let less = 0.5 * (FREEDOM + 1.0) * (d * d / FREEDOM).ln_1p();
                *told -= if less.is_finite() { less } else { 1e6 };
            }
        }
        let mut part = 1.0;
        let mut weights = weights(&told, part);
        while present(&weights) < LEAST_PRESENT.min(self.pots.len() as f64) && part > 1e-3 {
            part *= 0.8;
            weights = self::weights(&told, part);
        }
        let mean = |off: &Vec<f64>| off.iter().zip(&weights).map(|(d, w)| d.abs() * w).sum::<f64>();
        let strained = part < 0.5 || off.iter().any(|off| mean(off) > FAR);
        self.weighed(weights, strained)
    }

    /// How far each pot lies from a reading, scatters.
    fn off(&self, datum: &Datum) -> Vec<f64> {
        let value = self.at(datum.seen, datum.at_h).into_iter();
        value.map(|value| (value - datum.value) / datum.sigma).collect()
    }

    fn weighed(&self, weights: Vec<f64>, strained: bool) -> Ahead {
        let n = self.pots.len();
        let ready = self.ready();
        let quantile = |share| quantiles(|k| ready[k], &self.by_ready, &weights, &[share])[0];
        let by = |share| Some(quantile(share)).filter(|h| *h <= HORIZON_H);
        let share = |is: &dyn Fn(&CloudPot) -> bool| {
            let sum: f64 = self.pots.iter().zip(&weights).filter(|(pot, _)| is(pot)).map(|(_, w)| w).sum();
            Chance { of: ((sum * n as f64).round() as usize).min(n), among: n }
        };
        let bands = Seen::ALL.map(|seen| {
            let mut edges: [Vec<f64>; 5] = Default::default();
            for i in 0..self.t.len() {
                let value = |k: usize| self.pots[k].seen[seen as usize][i];
                let found = quantiles(value, &self.orders[seen as usize][i], &weights, &EDGES);
                edges.iter_mut().zip(found).for_each(|(edge, v)| edge.push(v));
            }
            edges
        });
        Ahead {
            t: self.t.clone(),
            bands: bands.into(),
            half_h: by(HALF),
            most_h: by(WINDOW_CHANCE),
            range: (quantile(EDGES[0]).min(HORIZON_H), quantile(EDGES[4]).min(HORIZON_H)),
            ever: share(&|pot| pot.ready_h.is_some()),
            lost: share(&|pot| pot.lost),
            present: present(&weights),
            strained,
            weights,
        }
    }
}

impl Ahead {
    /// The edges of a kind of reading at a time; nothing where there are no pots.
    pub fn at(&self, seen: Seen, t_h: f64) -> Option<[f64; 5]> {
        let band = self.bands.get(seen as usize).filter(|_| !self.t.is_empty())?;
        Some(std::array::from_fn(|k| curve(&self.t, &band[k], t_h)))
    }
}

/// Weights by logarithms, each counted in part; they sum to 1.
fn weights(told: &[f64], part: f64) -> Vec<f64> {
    let most = told.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let all: Vec<f64> = told.iter().map(|v| ((v - most) * part).exp()).collect();
    let sum: f64 = all.iter().sum();
    all.into_iter().map(|w| w / sum).collect()
}

/// How many pots weights stand for: `1/Σ w²`.
///
/// Source: published, Kish 1965, Survey Sampling.
fn present(weights: &[f64]) -> f64 {
    1.0 / weights.iter().map(|w| w * w).sum::<f64>().max(1e-300)
}

/// Places in rising order of their values.
fn order(values: impl Iterator<Item = f64>) -> Vec<usize> {
    let values: Vec<f64> = values.collect();
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    order
}

/// The values below which rising shares of the weight lie; `order` has the places in rising order of their values.
fn quantiles<const N: usize>(
    value: impl Fn(usize) -> f64,
    order: &[usize],
    weights: &[f64],
    shares: &[f64; N],
) -> [f64; N] {
    let (mut below, mut next) = (0.0, 0);
    let mut found = [order.last().map_or(f64::NAN, |last| value(*last)); N];
    for k in order {
        below += weights[*k];
        while next < N && below >= shares[next] - 1e-12 {
            found[next] = value(*k);
            next += 1;
        }
        if next == N {
            break;
        }
    }
    found
}
