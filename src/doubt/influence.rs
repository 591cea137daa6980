//! Which cited figures move a forecast most: each is moved to its 5 and its 95 % bound, one at a time.

use std::sync::Arc;

use potset_base::words::ACID_LINE_PH;
use potset_base::{Cited, SourceKind};
use potset_doc::Design;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_forecast::{compile_with, params};
use potset_science::params::Params;
use potset_science::{Forecast, simulate};

/// One figure and what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Influence {
    /// Path as in the data: "gel.heated_pa", "organisms.s_thermophilus.growth_rate".
    pub path: String,
    pub cited: Cited,
    /// Change of each watched outcome between the two bounds, on its scale.
    pub moves: [f64; Observable::RESTING.len()],
    /// Largest of them in steps that a person would notice.
    pub steps: f64,
}

impl Influence {
    /// A figure with what it moves.
    pub fn new(path: String, cited: Cited, moves: [f64; Observable::RESTING.len()]) -> Self {
        let steps = noticed(&moves).into_iter().fold(0.0, f64::max);
        Self { path, cited, moves, steps }
    }

    /// Place in [`Observable::RESTING`] of what it moves most, in steps that a person would notice.
    pub fn most(&self) -> usize {
        let steps = noticed(&self.moves);
        (0..steps.len()).max_by(|a, b| steps[*a].total_cmp(&steps[*b])).unwrap_or(0)
    }

    /// Whether it rests on memory or on an assumption.
    pub fn weak(&self) -> bool {
        matches!(self.cited.from.kind, SourceKind::FromMemory | SourceKind::Assumed)
    }
}

/// Figures that move the forecast of a design, the strongest first; those that move nothing are left out.
///
/// One at a time: figures that move together in truth (groups) are not moved together here.
///
/// - `go_on` — asked before each figure; the list is empty if it says no.
pub fn influences(scenario: &Scenario<'_>, go_on: &mut dyn FnMut() -> bool) -> Vec<Influence> {
    let Ok(shipped) = params::shipped() else { return Vec::new() };
    let Some(_) = watched(scenario, scenario.design, shipped) else { return Vec::new() };
    let mut design = scenario.design.clone();
    design.refresh_snapshot(scenario.pantry);
    let mut all = Vec::new();
    let laws = shipped.list().into_iter().map(|(path, cited)| (path, cited.clone(), true));
    let entries = design.snapshot.figures().into_iter().map(|(path, cited)| (path, cited, false));
    for (path, cited, of_laws) in laws.chain(entries) {
        if !go_on() {
            return Vec::new();
        }
        let at = |v: f64| {
            let (mut params, mut moved) = (shipped.clone(), design.clone());
            let mut put = |name: &str, figure: &mut Cited| {
                if name == path {
                    figure.value = v;
                }
            };
            if of_laws {
                params.each(&mut put);
            } else {
                moved.snapshot.each_figure(&mut put);
            }
            watched(scenario, &moved, &params)
        };
        all.extend(influence(&path, &cited, at));
    }
    all.sort_by(|a, b| b.steps.total_cmp(&a.steps).then_with(|| a.path.cmp(&b.path)));
    all
}

/// Changes in steps that a person would notice.
fn noticed(moves: &[f64; Observable::RESTING.len()]) -> [f64; Observable::RESTING.len()] {
    std::array::from_fn(|i| Observable::RESTING[i].steps(moves[i]).abs())
}

fn influence(
    path: &str,
    cited: &Cited,
    at: impl Fn(f64) -> Option<[f64; Observable::RESTING.len()]>,
) -> Option<Influence> {
    let (low, high) = cited.spread.bounds()?;
    let (a, b) = (at(low)?, at(high)?);
    let moves: [f64; Observable::RESTING.len()] = std::array::from_fn(|i| b[i] - a[i]);
    let influence = Influence::new(path.to_owned(), cited.clone(), moves);
    (influence.steps > 0.01).then_some(influence)
}

/// The watched outcomes of a design under a set of parameters, on their scales. A time that is never reached counts as the
/// horizon.
fn watched(
    scenario: &Scenario<'_>,
    design: &Design,
    params: &Params,
) -> Option<[f64; Observable::RESTING.len()]> {
    let mut laws = params.laws();
    laws.link(&params::shipped().ok()?.laws());
    let compiled = compile_with(&Scenario { design, ..*scenario }, &Arc::new(laws));
    let f: Forecast = simulate(&compiled.mix?).ok()?;
    let at = |ys: &[f64]| f.value(ys, f.stop_h);
    let line = f.time_to_ph(ACID_LINE_PH).unwrap_or(f.horizon_h);
    let thin = f.thin_layer(f.stop_h).1;
    let values = [at(&f.ph), line, at(&f.chilled.viscosity50), at(&f.sugar_total) * f.density, thin];
    Some(std::array::from_fn(|i| Observable::RESTING[i].scaled(values[i])))
}
