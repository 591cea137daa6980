//! The model against published cases: what it forecasts for each reading, what was fitted, and how far it is off.
//!
//! A case goes the way of every design: compile, mix, simulate. Pace and lag, shared by the cases of one culture of one
//! paper, and one buffer where the paper gives pH with acidity, may be fitted; all else is predicted.
//!
//! # Evidence
//!
//! `assets/evidence/*.ron` holds what was published, a file a kind: conditions, readings with their scatter, how they were
//! read, what was assumed, and whether the case helped to set shared figures (`calibrate`) or not (`check`); `seen` marks a
//! check that was looked at while a figure was chosen, and its agreement counts for less. `doc::evidence`
//! reads it, `forecast::evidence` turns a case into a mix by the same path as a design (pantry entries with the source's own
//! figures over them), `evidence::evidence` runs and compares, `potset evidence` prints.
//!
//! - Fitted are only pace and lag, shared by the cases of one culture of one paper (`fit: (shared: …)`), one buffer where a
//!   paper gives pH with acidity, and an end of a hold that is not told (`to_meet`). Each is counted and taken off the
//!   degrees of freedom; the rest is predicted. Three readings or fewer carry no headline figure.
//! - Scatter is the source's own, but not below a least one (repeats in one laboratory say little about a kitchen); else the
//!   usual one of the reading, which is assumed. A miss is beyond two scatters, and stays in the list.
//! - Where a source does not tell its inoculum, the same active starter (1e7 and 5e6 cfu/g, lag 0.5) stands in everywhere: no
//!   case gets a dose of its own.
//! - `tests/reference/evidence.txt` fixes summary, fitted values and misses; `UPDATE_EXPECT=1 cargo test --test it evidence`
//!   writes it anew. `tests/reference/fit.md` is a refit of the shared figures and why none was taken over.
//! - `potset evidence FILE` runs cases that do not ship by the same path (`doc::evidence::read`); `doc/evidence/check.rs` holds
//!   what can be wrong with a case, told with its field, and holds the shipped ones to the same.
//! - A case: add it to its file with citation and `assumed`; a new sort of reading is a variant of `What`, with unit, words
//!   and scatter, and an arm in `evidence/evidence/pots.rs` or `laws.rs`. A case whose entry is not in the pantry waits for it.
//!
//! - *Counts in store* are decades between two days, since hold and dose are not told; their scatter holds what strains of the
//!   species differ by, which no forecast from the species can know.
//! - Mean buffers of plants: composition first (`mixing.buffer_*`, also for bases made at home), then pairs of pH and acidity;
//!   where they disagree the range holds both, and the entry says so.

mod coverage;
mod fit;
mod laws;
mod pots;
mod summary;
mod transfer;

use std::collections::BTreeMap;

pub use coverage::{BandRow, Cover, KindCover, POTS, coverage};
pub use fit::{Fitted, FittedFactor, Value};
pub use summary::{KindSummary, Part, Summary, rms, summary};
pub use transfer::{Transfer, transfers};

use potset_base::{Note, SourceKind, choices};
use potset_doc::Pantry;
use potset_doc::evidence::{Case, Setup, Stop, What};
use potset_forecast::evidence::{Knobs, missing};
use potset_forecast::params;

/// A difference is a miss beyond so many scatters.
pub const MISS: f64 = 2.0;

/// The most that one reading counts, in scatters; also what a pot counts that never comes to its reading.
pub const WORST: f64 = 10.0;

choices! {
    /// How a forecast stands to its reading.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum CaseResult: words {
        /// Nothing of its case was fitted.
        Predicted => "predicted",
        /// Values of its case were fitted to it, among others.
        Fitted => "fitted",
        /// The unknown end of the hold was chosen so that it is met.
        Met => "met",
    }
}

/// One reading beside its forecast.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    pub what: String,
    pub unit: &'static str,
    pub measured: f64,
    /// `None`: the pot never comes there.
    pub forecast: Option<f64>,
    /// One sigma, a factor where `by_factor`.
    pub scatter: f64,
    pub scatter_kind: SourceKind,
    pub by_factor: bool,
    /// In scatters, at most [`WORST`] either way.
    pub difference: f64,
    pub standing: CaseResult,
}

impl Row {
    /// Off by more than its scatter allows.
    pub fn miss(&self) -> bool {
        self.difference.abs() > MISS
    }
}

/// What came of a case.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    Rows(Vec<Row>),
    /// The pantry lacks this entry.
    Waits(String),
    /// It could not be run.
    Failed(Note),
}

/// All cases with their outcomes, in the same order, and what was fitted.
#[derive(Clone, Debug)]
pub struct Report<'a> {
    pub cases: Vec<(&'a Case, Outcome)>,
    pub fitted: Vec<Fitted>,
}

/// Runs every case.
pub fn run<'a>(cases: &'a [Case], pantry: &Pantry) -> Report<'a> {
    let mut by_group: BTreeMap<&str, Vec<&Case>> = BTreeMap::new();
    for case in cases {
        if let (Some(fit), None) = (&case.fit, waits(case, pantry)) {
            by_group.entry(fit.shared.as_str()).or_default().push(case);
        }
    }
    let (mut fitted, mut unfitted) = (Vec::new(), BTreeMap::new());
    for (shared, group) in by_group {
        match fit::group(shared, &group, pantry) {
            Ok(found) => fitted.push(found),
            Err(note) => {
                unfitted.insert(shared, note);
            }
        }
    }
    let cases = cases
        .iter()
        .map(|case| {
            let knobs = fit::knobs_of(case, &fitted);
            let outcome = match waits(case, pantry) {
                Some(entry) => Outcome::Waits(entry.to_owned()),
                None => match case.fit.as_ref().and_then(|fit| unfitted.get(fit.shared.as_str())) {
                    Some(note) => Outcome::Failed(note.clone()),
                    None => rows(case, &knobs, pantry).map_or_else(Outcome::Failed, Outcome::Rows),
                },
            };
            (case, outcome)
        })
        .collect();
    Report { cases, fitted }
}

fn waits<'a>(case: &'a Case, pantry: &Pantry) -> Option<&'a str> {
    missing(case.pot()?, pantry)
}

/// The stop that was chosen so that a reading is met, as that reading.
fn met(case: &Case) -> Option<What> {
    match case.pot()?.stop {
        Some(Stop::ToMeet { day, .. }) => Some(What::StoredPh(day)),
        _ => None,
    }
}

/// The forecasts of a case, reading by reading.
///
/// # Errors
/// A note if the case cannot be run.
fn forecasts(case: &Case, knobs: &Knobs, pantry: &Pantry) -> Result<Vec<Option<f64>>, Note> {
    match &case.setup {
        Setup::Pot(pot) => pots::forecasts(pot, &case.readings, knobs, pantry),
        Setup::Food(food) => case.readings.iter().map(|r| laws::of_food(food, &r.what)).collect(),
        Setup::Law => {
            let laws = laws::likely()?;
            case.readings.iter().map(|r| laws::alone(&r.what, &laws)).collect()
        }
    }
}

fn rows(case: &Case, knobs: &Knobs, pantry: &Pantry) -> Result<Vec<Row>, Note> {
    let met = met(case);
    let fitted = case.fit.is_some();
    Ok(forecasts(case, knobs, pantry)?
        .into_iter()
        .zip(&case.readings)
        .map(|(forecast, reading)| {
            let (scatter, scatter_kind) = reading.sigma();
            Row {
                what: reading.what.words(),
                unit: reading.what.unit(),
                measured: reading.value,
                forecast,
                scatter,
                scatter_kind,
                by_factor: reading.what.by_factor(),
                difference: capped(forecast.map(|f| reading.difference(f))),
                standing: if met.as_ref() == Some(&reading.what) {
                    CaseResult::Met
                } else if fitted {
                    CaseResult::Fitted
                } else {
                    CaseResult::Predicted
                },
            }
        })
        .collect())
}

/// A pot that never comes to its reading is as late as can be.
fn capped(difference: Option<f64>) -> f64 {
    difference.filter(|d| d.is_finite()).unwrap_or(WORST).clamp(-WORST, WORST)
}

/// How many numbers rest on each kind of source, in the order of [`SourceKind::SHIPPED`]: parameters, and the pantry.
///
/// # Errors
/// A note if the shipped parameters were damaged.
pub fn source_kinds(pantry: &Pantry) -> Result<([usize; 6], [usize; 6]), Note> {
    let params = params::shipped().map_err(Clone::clone)?;
    let list = params.list();
    let figures = pantry.figures();
    let count = |kinds: &dyn Fn(SourceKind) -> usize| SourceKind::SHIPPED.map(kinds);
    Ok((
        count(&|kind| list.iter().filter(|(_, c)| c.from.kind == kind).count()),
        count(&|kind| figures.iter().filter(|(_, c)| c.from.kind == kind).count()),
    ))
}
