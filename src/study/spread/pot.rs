//! What is kept of one pot of a spread.

use super::Curve;
use crate::science::{Forecast, cautions};
use crate::study::ask::{Ask, Run};
use crate::study::outcome::Outcomes;
use crate::study::readiness::Goal;
use crate::study::verdict::goals_of;

/// Most goals that a design can have.
pub const MOST_GOALS: usize = 8;

/// One pot.
#[derive(Clone, Debug)]
pub struct Pot {
    /// Values of all curves, one curve after the other.
    pub curves: Vec<f64>,
    /// Which goals hold at each time, a bit a goal.
    pub holds: Vec<u8>,
    pub outcomes: Outcomes,
    /// Whether all goals hold at the stop line.
    pub at_stop: bool,
    pub slow: Slowly,
}

/// How a pot stands with what is said of slow souring, by its own row of the cautions: a pot that turned out colder than
/// planned has a stricter one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Slowly {
    /// Place of its row.
    pub row: usize,
    /// At the hours of the row, as far as the hold goes.
    pub watch: bool,
    pub discard: bool,
    /// It is stopped above the line under which a pot keeps.
    pub stopped_above: bool,
}

impl Slowly {
    fn of(run: &Run) -> Self {
        let (f, mix) = (&run.forecast, &run.mix);
        let found = mix.laws.cautions.get(mix.caution);
        let slow = found.map(|row| cautions::slow(row, &f.t, &f.ph, mix.stop_h));
        Self {
            row: mix.caution,
            watch: slow.is_some_and(|s| s.watch.is_some()),
            discard: slow.is_some_and(|s| s.discard.is_some()),
            stopped_above: f.value(&f.ph, mix.stop_h) > mix.laws.ready.acid_line_ph,
        }
    }
}

/// The curves of a pot with so many organisms.
pub fn curves(organisms: usize) -> Vec<Curve> {
    let mut all = vec![
        Curve::Ph,
        Curve::AcidMade,
        Curve::Tang,
        Curve::Sugar,
        Curve::Chilled,
        Curve::InPot,
        Curve::Stiffness,
        Curve::Whey,
        Curve::Warmth,
    ];
    all.extend((0..organisms).map(Curve::Count));
    all
}

/// The place of a curve among those of a pot with so many organisms.
pub fn place_of(organisms: usize, curve: Curve) -> Option<usize> {
    curves(organisms).iter().position(|c| *c == curve)
}

/// A curve of a forecast, in the unit of [`Curve`].
pub fn values(f: &Forecast, curve: Curve) -> Vec<f64> {
    match curve {
        Curve::Warmth => f.temperature.clone(),
        Curve::Ph => f.ph.clone(),
        Curve::AcidMade => f.acid_made.clone(),
        Curve::Tang => f.undissociated.clone(),
        Curve::Sugar => f.sugar_total.iter().map(|g| g * f.density).collect(),
        Curve::Chilled => f.chilled.viscosity50.clone(),
        Curve::InPot => f.warm.viscosity50.clone(),
        Curve::Stiffness => f.chilled.stiffness_pa.clone(),
        Curve::Whey => f.chilled.at.iter().map(|t| t.whey.standing).collect(),
        Curve::Count(i) => f.species.get(i).map_or_else(|| vec![f64::NAN; f.t.len()], |s| s.log10.clone()),
    }
}

impl Pot {
    /// What is kept of a run.
    pub fn of(ask: &Ask<'_>, run: &Run) -> Self {
        let f = &run.forecast;
        let goals = goals_of(ask, run);
        let stop_h = run.mix.stop_h;
        Self {
            curves: curves(f.species.len()).into_iter().flat_map(|curve| values(f, curve)).collect(),
            holds: (0..f.t.len()).map(|i| holding(&goals, i)).collect(),
            outcomes: Outcomes::of_curves(run, &goals),
            at_stop: goals.iter().all(|g| f.value(&g.margin, stop_h) >= 0.0),
            slow: Slowly::of(run),
        }
    }
}

fn holding(goals: &[Goal], i: usize) -> u8 {
    let bit = |(k, g): (usize, &Goal)| u8::from(g.margin.get(i).is_some_and(|m| *m >= 0.0)) << k;
    goals.iter().take(MOST_GOALS).enumerate().map(bit).fold(0, |all, one| all | one)
}
