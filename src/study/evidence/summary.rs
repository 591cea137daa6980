//! The summary by kind of case.

use super::{Outcome, Report, Row, Standing};
use crate::doc::evidence::{CaseKind, Role};

/// Fewest degrees of freedom and readings behind a headline figure: a series of three points has none.
const LEAST: usize = 4;

/// One kind of case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KindSummary {
    pub kind: CaseKind,
    pub cases: usize,
    pub readings: usize,
    /// Values fitted for its cases. One that cases of several kinds share counts where its first case is.
    pub fitted: usize,
    pub misses: usize,
    /// Root of the mean square difference, scatters, fitted values taken off; `None` for three readings or fewer.
    pub rms: Option<f64>,
}

impl KindSummary {
    /// Readings less fitted values.
    #[must_use]
    pub const fn freedom(&self) -> usize {
        self.readings.saturating_sub(self.fitted)
    }
}

/// The whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Kinds that have cases, in order.
    pub kinds: Vec<KindSummary>,
    /// Cases that ran, and of them those that set shared parameters.
    pub ran: usize,
    pub calibrate: usize,
    pub check: usize,
    pub waiting: usize,
    pub failed: usize,
}

/// Root mean square over degrees of freedom; `None` where a headline figure would be idle.
#[must_use]
pub fn rms<'a>(rows: impl Iterator<Item = &'a Row>, fitted: usize) -> Option<f64> {
    let (n, sum) = rows.fold((0_usize, 0.0), |(n, sum), row| (n + 1, sum + row.difference * row.difference));
    let freedom = n.saturating_sub(fitted);
    (n >= LEAST && freedom > 0).then(|| (sum / freedom as f64).sqrt())
}

/// Sums up a report.
#[must_use]
pub fn summary(report: &Report<'_>) -> Summary {
    let ran = |role: Role| {
        report.cases.iter().filter(|(c, o)| c.role == role && matches!(o, Outcome::Rows(_))).count()
    };
    let count = |test: &dyn Fn(&Outcome) -> bool| report.cases.iter().filter(|(_, o)| test(o)).count();
    Summary {
        kinds: CaseKind::ALL.into_iter().filter_map(|kind| of_kind(report, kind)).collect(),
        ran: count(&|o| matches!(o, Outcome::Rows(_))),
        calibrate: ran(Role::Calibrate),
        check: ran(Role::Check),
        waiting: count(&|o| matches!(o, Outcome::Waits(_))),
        failed: count(&|o| matches!(o, Outcome::Failed(_))),
    }
}

fn of_kind(report: &Report<'_>, kind: CaseKind) -> Option<KindSummary> {
    let ran: Vec<(&str, &Vec<Row>)> = report
        .cases
        .iter()
        .filter(|(case, _)| case.kind == kind)
        .filter_map(|(case, outcome)| match outcome {
            Outcome::Rows(rows) => Some((case.key.as_str(), rows)),
            _ => None,
        })
        .collect();
    if ran.is_empty() {
        return None;
    }
    let all = || ran.iter().flat_map(|(_, rows)| rows.iter());
    let met = all().filter(|row| row.standing == Standing::Met).count();
    let shared: usize = report
        .fitted
        .iter()
        .filter(|f| {
            let first = report.cases.iter().find(|(case, outcome)| {
                matches!(outcome, Outcome::Rows(_))
                    && case.fit.as_ref().is_some_and(|fit| fit.shared == f.shared)
            });
            first.is_some_and(|(case, _)| case.kind == kind)
        })
        .map(|f| f.values.len())
        .sum();
    let fitted = met + shared;
    Some(KindSummary {
        kind,
        cases: ran.len(),
        readings: all().count(),
        fitted,
        misses: all().filter(|row| row.miss()).count(),
        rms: rms(all(), fitted),
    })
}
