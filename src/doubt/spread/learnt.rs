//! The places of pots in what earlier pots taught: around what was learnt, by the doubt that it left.

use super::FIRST;
use potset_doc::Learnt;
use potset_forecast::place::{Place, stream};
use potset_numerics::{quantile, samples};

/// The deviates that what was learnt is drawn by: one row a learnt figure, each by a stream of its own.
pub(super) struct Taught<'a> {
    learnt: &'a Learnt,
    rows: Vec<Vec<f64>>,
}

impl<'a> Taught<'a> {
    pub(super) fn new(learnt: &'a Learnt, seed: u64, pots: usize) -> Self {
        let row = |name: &str| {
            let side = samples::side(seed, stream(&format!("learnt {name}")), FIRST, pots);
            side.into_iter().map(|unit| Place::of(unit).z).collect()
        };
        Self { learnt, rows: learnt.figures.iter().map(|figure| row(&figure.of)).collect() }
    }

    /// The places of all pots in what is kept under a name; nothing where nothing is.
    pub(super) fn places(&self, name: &str) -> Option<Vec<Place>> {
        let (_, figure) = self.learnt.find(name)?;
        let pots = self.rows.first().map_or(0, Vec::len);
        let z = |pot: usize| {
            let moved = figure.moves.iter().zip(&self.rows).map(|(by, row)| by * row[pot]).sum::<f64>();
            // No farther out than what is drawn without learning.
            (figure.place + moved).clamp(-quantile::normal(0.995), quantile::normal(0.995))
        };
        Some((0..pots).map(|pot| Place::at(z(pot))).collect())
    }
}
