//! The summary by kind of case.

use super::{CaseResult, Outcome, Report, Row};
use potset_doc::evidence::{Case, CaseKind, Mark};

/// Fewest degrees of freedom and readings behind a headline figure: a series of three points has none.
const LEAST: usize = 4;

/// Readings of one kind, or of those of its cases with one mark.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Part {
    pub readings: usize,
    /// Values fitted for its cases. One that several cases share counts where the first of them is.
    pub fitted: usize,
    /// Root of the mean square difference, scatters, fitted values taken off; `None` for three readings or fewer.
    pub rms: Option<f64>,
}

impl Part {
    /// Readings less fitted values.
    pub const fn freedom(&self) -> usize {
        self.readings.saturating_sub(self.fitted)
    }
}

/// One kind of case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KindSummary {
    pub kind: CaseKind,
    pub cases: usize,
    pub misses: usize,
    pub whole: Part,
    /// In the order of [`Mark::ALL`].
    pub marks: [Part; 3],
}

/// The whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Kinds that have cases, in order.
    pub kinds: Vec<KindSummary>,
    /// Cases that ran, and how many of them have each mark, in the order of [`Mark::ALL`].
    pub ran: usize,
    pub by_mark: [usize; 3],
    pub waiting: usize,
    pub failed: usize,
}

/// Root mean square over degrees of freedom; `None` where a headline figure would be idle.
pub fn rms<'a>(rows: impl Iterator<Item = &'a Row>, fitted: usize) -> Option<f64> {
    let (n, sum) = rows.fold((0_usize, 0.0), |(n, sum), row| (n + 1, sum + row.difference * row.difference));
    let freedom = n.saturating_sub(fitted);
    (n >= LEAST && freedom > 0).then(|| (sum / freedom as f64).sqrt())
}

/// Sums up a report.
pub fn summary(report: &Report<'_>) -> Summary {
    let ran = |mark: Mark| {
        report.cases.iter().filter(|(c, o)| c.mark() == mark && matches!(o, Outcome::Rows(_))).count()
    };
    let count = |test: &dyn Fn(&Outcome) -> bool| report.cases.iter().filter(|(_, o)| test(o)).count();
    Summary {
        kinds: CaseKind::ALL.into_iter().filter_map(|kind| of_kind(report, kind)).collect(),
        ran: count(&|o| matches!(o, Outcome::Rows(_))),
        by_mark: Mark::ALL.map(ran),
        waiting: count(&|o| matches!(o, Outcome::Waits(_))),
        failed: count(&|o| matches!(o, Outcome::Failed(_))),
    }
}

fn of_kind(report: &Report<'_>, kind: CaseKind) -> Option<KindSummary> {
    let ran: Vec<(&Case, &Vec<Row>)> = report
        .cases
        .iter()
        .filter(|(case, _)| case.kind == kind)
        .filter_map(|(case, outcome)| match outcome {
            Outcome::Rows(rows) => Some((*case, rows)),
            _ => None,
        })
        .collect();
    if ran.is_empty() {
        return None;
    }
    let marks = Mark::ALL.map(|mark| part(report, kind, &ran, |case| case.mark() == mark));
    Some(KindSummary {
        kind,
        cases: ran.len(),
        misses: ran.iter().flat_map(|(_, rows)| rows.iter()).filter(|row| row.miss()).count(),
        whole: part(report, kind, &ran, |_| true),
        marks,
    })
}

/// The cases of a kind that pass a test.
fn part(
    report: &Report<'_>,
    kind: CaseKind,
    ran: &[(&Case, &Vec<Row>)],
    test: impl Fn(&Case) -> bool,
) -> Part {
    let all = || ran.iter().filter(|(case, _)| test(case)).flat_map(|(_, rows)| rows.iter());
    let met = all().filter(|row| row.standing == CaseResult::Met).count();
    let shared: usize = report
        .fitted
        .iter()
        .filter(|f| {
            let first = report.cases.iter().find(|(case, outcome)| {
                matches!(outcome, Outcome::Rows(_))
                    && case.fit.as_ref().is_some_and(|fit| fit.shared == f.shared)
            });
            first.is_some_and(|(case, _)| case.kind == kind && test(case))
        })
        .map(|f| f.values.len())
        .sum();
    let fitted = met + shared;
    Part { readings: all().count(), fitted, rms: rms(all(), fitted) }
}
