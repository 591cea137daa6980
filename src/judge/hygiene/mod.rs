//! Hygiene: one judge over the whole course of time, warmth and pH, from the opened pack to the last planned day. It says
//! what speaks against a pot and from when; it never says that a pot may be eaten.
//!
//! # Hygiene and the ready time
//!
//! - **One judge** (`judge::hygiene`) reads the whole plan: the base before the culture (`before.rs`), the hold (`hold.rs`), chill
//!   and store (`after.rs`). What it needs of the design is collected in `forecast::hygiene` (row of souring, what heat the base
//!   saw, when the pack was opened); every limit is a figure of the group `hygiene` of the parameters or a row of `cautions`,
//!   each with its source. A rule is a variant of `Row` with its place in the plan, its words and source in `report::hygiene`,
//!   its mends in `mends.rs`, and plans in `tests/it/hygiene/plans.rs`: some that it is told of first, and harmless ones.
//! - It says what speaks against a pot and from when, never that it may be eaten. `Verdict::against` is the first finding with its mend, and the first line of
//!   every view and command; the others stand first in the advice.
//! - Hygiene is the first goal of `readiness::goals`, above the maker's own, and the release pH (`readiness::release`) caps the
//!   maker's goal. So no window opens and no pot is ready at or after a discard; `tests/it/hygiene/random.rs` holds that on
//!   1,000 random designs. Each mend is tried, and offered only where the pot that it gives is not to be thrown away.
//! - **One ready time** (`judge::ready`): when 5 and 8 in 10 of `spread::POTS` possible pots have first become ready, over 72 h,
//!   told in the steps of `shown_h`. The pots of a design are the same wherever its stop is: their times are the common ones with
//!   the stop put in, and what the laws of texture leave out is found at the likely pot's pH 4.6. `doubt::ready_times::of` is for one answer,
//!   `ready_times::Known` keeps the last ones, the bench takes it from the spread that it draws anyway. Sweeps, causes and Aim's table
//!   go by the likely line and say so.
//! - **The likely line lies in the middle of the pots.** An even spread is even on either side of its likely value
//!   (`spread/draw.rs`), so that every figure has its likely value at its median; before, figures with their likely value at one
//!   end made 7 in 10 pots later than the line. `Sampler::one_by_one` with the study `lopsided_doubts` of `tests/it/ready.rs` shows
//!   which doubt pulls to one side. Where the line is not between the 40 and the 60 % place, *How sure* says so.

mod after;
mod against;
mod before;
mod hold;
pub mod mends;
mod row;

pub use against::{Against, When};
pub use row::{Level, Phase, Row};

use potset_forecast::hygiene::{HygieneFacts, Souring};
use potset_forecast::scenario::Run;
use potset_numerics::interpolate::first_below;
use potset_science::Forecast;
use potset_science::params::{CautionRow, HygieneLaw};

/// One thing that speaks against a pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    pub row: Row,
    pub level: Level,
    /// From when, h since the culture went in; less than nothing before it.
    pub from_h: f64,
    /// pH then, where it decides.
    pub ph: Option<f64>,
}

impl Finding {
    fn new(row: Row, level: Level, from_h: f64) -> Self {
        Self { row, level, from_h, ph: None }
    }
}

/// Why a pot is not yogurt, where it is not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotYogurt {
    /// No culture is put in.
    NoCulture,
    /// Heat killed the culture before it had soured the pot.
    Killed,
    /// Most of its acid was put in.
    SouredByHand,
    /// It is stopped above the line of sour food.
    NotSoured,
}

/// A look that the plan asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    pub at_h: f64,
    /// It should be at this pH or lower then.
    pub ph: f64,
    /// What is above `discard_ph` then is thrown away.
    pub discard_h: f64,
    pub discard_ph: f64,
}

/// What the judge says of a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hygiene {
    /// The gravest first; of equal ones the earliest.
    pub findings: Vec<Finding>,
    pub not_yogurt: Option<NotYogurt>,
    /// When to look how far it has soured, for a pot that has to be watched until then.
    pub check: Option<Check>,
    /// From when on the pot is to be thrown away if the hold goes on; nothing if never.
    pub lost_h: Option<f64>,
    /// When a living culture has made most of the acid and the pot is at the line of sour food, h; nothing if never.
    pub soured_h: Option<f64>,
    pub stop_h: f64,
}

impl Hygiene {
    /// The gravest thing that is said.
    pub fn level(&self) -> Option<Level> {
        self.findings.first().map(|f| f.level)
    }

    /// The first finding to throw the pot away, if there is one.
    pub fn discard(&self) -> Option<&Finding> {
        self.findings.first().filter(|f| f.level == Level::Discard)
    }
}

/// The numbers that a judgement reads.
struct Plan<'a> {
    facts: &'a HygieneFacts,
    law: &'a HygieneLaw,
    run: &'a Run,
    /// pH of the line of sour food.
    line_ph: f64,
    /// When the pot comes down to it, h; never is infinite.
    line_h: f64,
    stop_h: f64,
}

impl<'a> Plan<'a> {
    fn of(run: &'a Run) -> Self {
        let line_ph = run.mix.laws.ready.acid_line_ph;
        let f = &run.forecast;
        Plan {
            facts: &run.facts.hygiene,
            law: &run.mix.laws.hygiene,
            run,
            line_ph,
            line_h: first_below(&f.t, &f.ph, line_ph).unwrap_or(f64::INFINITY),
            stop_h: run.mix.stop_h,
        }
    }

    fn forecast(&self) -> &'a Forecast {
        &self.run.forecast
    }

    fn ph(&self, t_h: f64) -> f64 {
        self.forecast().value(&self.forecast().ph, t_h)
    }

    /// A row of the cautions on souring.
    fn row(&self, souring: Souring) -> Option<&'a CautionRow> {
        self.run.mix.laws.cautions.iter().find(|row| row.key == souring.key())
    }
}

/// By when a pot must be how sour, or it is thrown away: (h, pH). Nothing where the table has no such row.
pub fn deadline(run: &Run) -> Option<(f64, f64)> {
    let plan = Plan::of(run);
    hold::deadline(&plan, &before::judge(&plan))
}

/// Judges a run, stopped as planned.
pub fn judge(run: &Run) -> Hygiene {
    judge_at(run, run.mix.stop_h)
}

/// The same as if it were stopped at another hour within its forecast.
pub fn judge_at(run: &Run, stop_h: f64) -> Hygiene {
    let plan = Plan { stop_h, ..Plan::of(run) };
    let before = before::judge(&plan);
    let culture = hold::culture(&plan);
    let hold = hold::judge(&plan, &before, &culture);
    let mut findings = before.findings;
    findings.extend(hold.findings.iter().copied().filter(|f| f.from_h <= plan.stop_h + 1e-9));
    findings.extend(after::judge(&plan));
    findings.sort_by(|a, b| {
        // Two clocks that run out at the same minute are equally early.
        let minute = |f: &Finding| (f.from_h * 60.0).round();
        b.level.cmp(&a.level).then(minute(a).total_cmp(&minute(b))).then(a.row.cmp(&b.row))
    });
    let lost_h = before.lost.then_some(0.0).into_iter().chain(hold.lost_h).reduce(f64::min);
    Hygiene {
        findings,
        not_yogurt: culture.not_yogurt(&plan),
        check: hold.check,
        lost_h,
        soured_h: culture.soured_h(&plan),
        stop_h: plan.stop_h,
    }
}
