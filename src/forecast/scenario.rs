//! One question: this design, in this kitchen; compiled and run.
//!
//! **Thousands of forecasts.** `Scenario::run_coarse` (`simulate_coarse`: 73 points that grow apart, tolerance 1e-4) stands in for
//! `run_to` where a map or a search asks for many; `tests/it/coarse.rs` holds what it may be out by. What is shown as the
//! pot's own forecast is always the precise one.

use std::sync::Arc;

use crate::{Compiled, Facts, compile};
use potset_base::Note;
use potset_doc::{Design, Edit, Kitchen, Learnt, Pantry, edit};
use potset_numerics::Error;
use potset_science::simulate::simulate_also_at;
use potset_science::{Forecast, Mix, simulate, simulate_coarse};

/// What a forecast is asked for.
#[derive(Clone, Copy, Debug)]
pub struct Scenario<'a> {
    pub design: &'a Design,
    pub pantry: &'a Pantry,
    pub kitchen: &'a Kitchen,
    pub learnt: &'a Learnt,
}

/// The same with all of it its own: for work on another thread.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnedScenario {
    pub design: Arc<Design>,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
    pub learnt: Learnt,
}

impl OwnedScenario {
    /// As the question that every law and study takes.
    pub fn scenario(&self) -> Scenario<'_> {
        self.of(&self.design)
    }

    /// The same question about another design.
    pub fn of<'a>(&'a self, design: &'a Design) -> Scenario<'a> {
        Scenario { design, pantry: &self.pantry, kitchen: &self.kitchen, learnt: &self.learnt }
    }
}

/// A forecast with all that was found out on the way.
#[derive(Clone, Debug)]
pub struct Run {
    pub mix: Mix,
    pub facts: Facts,
    pub forecast: Forecast,
    pub notes: Vec<Note>,
}

impl Scenario<'_> {
    /// Compiles and simulates.
    ///
    /// # Errors
    /// The notes that say why there is no forecast.
    pub fn run(&self) -> Result<Run, Vec<Note>> {
        self.run_to(0.0)
    }

    /// The same, looking at least so many hours ahead.
    ///
    /// # Errors
    /// As [`Scenario::run`].
    pub fn run_to(&self, horizon_h: f64) -> Result<Run, Vec<Note>> {
        self.run_by(horizon_h, simulate)
    }

    /// The same with a coarse forecast: for work that asks for thousands of them. See [`simulate_coarse`].
    ///
    /// # Errors
    /// As [`Scenario::run`].
    pub fn run_coarse(&self, horizon_h: f64) -> Result<Run, Vec<Note>> {
        self.run_by(horizon_h, simulate_coarse)
    }

    /// The same with points at these times too, h from 0 on and rising, as far as they reach.
    ///
    /// # Errors
    /// As [`Scenario::run`].
    pub fn run_also_at(&self, times: &[f64]) -> Result<Run, Vec<Note>> {
        self.run_by(times.last().copied().unwrap_or(0.0), |mix| simulate_also_at(mix, times))
    }

    /// The same by a forecast of one's own.
    ///
    /// # Errors
    /// As [`Scenario::run`].
    pub fn run_by(
        &self,
        horizon_h: f64,
        forecast: impl Fn(&Mix) -> Result<Forecast, Error>,
    ) -> Result<Run, Vec<Note>> {
        run_of(compile(self.design, self.pantry, self.kitchen, self.learnt), horizon_h, forecast)
    }

    /// What the design would give with an edit made.
    pub fn with(&self, change: &Edit) -> Option<Run> {
        let design = edit::apply(self.design, change, self.pantry).ok()?;
        Scenario { design: &design, ..*self }.run().ok()
    }
}

/// Forecasts what was compiled, looking at least so many hours ahead.
///
/// # Errors
/// The notes that say why there is no forecast.
pub fn run_of(
    compiled: Compiled,
    horizon_h: f64,
    forecast: impl Fn(&Mix) -> Result<Forecast, Error>,
) -> Result<Run, Vec<Note>> {
    let Compiled { mix, facts, notes } = compiled;
    let Some(mut mix) = mix else { return Err(notes) };
    mix.horizon_h = mix.horizon_h.max(horizon_h);
    match forecast(&mix) {
        Ok(forecast) => Ok(Run { mix, facts, forecast, notes }),
        Err(e) => Err(vec![not_computed(&e)]),
    }
}

/// What is told of a mix whose forecast fails.
pub fn not_computed(e: &Error) -> Note {
    Note::error(
        "design",
        format!("The forecast could not be computed: {e}"),
        "Undo the last change, and send the design to the makers of the program",
    )
}
