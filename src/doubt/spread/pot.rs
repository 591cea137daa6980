//! What is kept of one pot of a spread.

use super::{Curve, STEPS};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::hygiene::{self, Row};
use potset_judge::keeping::{self, Kept};
use potset_judge::outcomes::Outcomes;
use potset_judge::readiness::{self, Goal, goals_with};
use potset_judge::ready::HORIZON_H;
use potset_science::Forecast;
use potset_science::simulate::growing_times;

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
    /// When all goals first hold, h.
    pub ready_h: Option<f64>,
    /// What it is to be thrown away for, as it is planned.
    pub lost: Option<Row>,
    /// Its days in the cold.
    pub kept: Kept,
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
        Curve::ThinLayer,
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
        Curve::AcidMade => f.acid_made.clone(),
        Curve::InPot => f.warm.viscosity50.clone(),
        Curve::Ph => Observable::Ph.course(f),
        Curve::Tang => Observable::Tang.course(f),
        Curve::Sugar => Observable::SugarLeft.course(f),
        Curve::Chilled => Observable::Texture.course(f),
        Curve::Stiffness => Observable::Stiffness.course(f),
        Curve::Whey => Observable::Whey.course(f),
        Curve::ThinLayer => Observable::ThinLayer.course(f),
        Curve::Count(i) => f.species.get(i).map_or_else(|| vec![f64::NAN; f.t.len()], |s| s.log10.clone()),
    }
}

impl Pot {
    /// What is kept of a run.
    pub fn of(scenario: &Scenario<'_>, run: &Run) -> Self {
        let f = &run.forecast;
        let judged = hygiene::judge(run);
        let goals = goals_with(scenario, run, &judged);
        let stop_h = run.mix.stop_h;
        Self {
            curves: curves(f.species.len()).into_iter().flat_map(|curve| values(f, curve)).collect(),
            holds: (0..f.t.len()).map(|i| holding(&goals, i)).collect(),
            outcomes: Outcomes::of_curves(run, &goals),
            at_stop: goals.iter().all(|g| f.value(&g.margin, stop_h) >= 0.0),
            ready_h: readiness::first(&f.t, &goals, &common(&f.t)),
            lost: judged.discard().map(|finding| finding.row),
            kept: keeping::kept(run, scenario.kitchen.fridge_c),
        }
    }
}

/// Places of the times that are the same for every design.
fn common(times: &[f64]) -> Vec<usize> {
    let all = growing_times(HORIZON_H, STEPS);
    let is_common = |i: &usize| all.iter().any(|t| (t - times[*i]).abs() < 1e-9);
    (0..times.len()).filter(is_common).collect()
}

fn holding(goals: &[Goal], i: usize) -> u8 {
    let bit = |(k, g): (usize, &Goal)| u8::from(g.margin.get(i).is_some_and(|m| *m >= 0.0)) << k;
    goals.iter().take(MOST_GOALS).enumerate().map(bit).fold(0, |all, one| all | one)
}
