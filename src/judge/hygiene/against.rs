//! A finding with all that it is said by: `report::hygiene` makes a title and a sentence of it.

use super::{Finding, Phase, Row, judge};
use potset_forecast::scenario::Run;
use potset_science::params::{CautionRow, HygieneLaw};

/// When something is, as a maker counts, h.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum When {
    /// From the start, before the culture goes in.
    SinceStart(f64),
    SinceCulture(f64),
    AfterHold(f64),
}

/// A finding, and what it is said by.
#[derive(Clone, Debug, PartialEq)]
pub struct Against {
    pub finding: Finding,
    pub when: When,
    /// The limits of the plan.
    pub law: HygieneLaw,
    /// The row of slow souring that it is of.
    pub souring: Option<CautionRow>,
    /// pH of the line of sour food.
    pub line_ph: f64,
    /// Hours that the base may be out of the cold, by where it comes from.
    pub most_h: f64,
    /// What is raw, by name, where it is of that.
    pub raw: Vec<String>,
}

impl Against {
    /// A finding of a run that is stopped at an hour.
    pub fn of(run: &Run, stop_h: f64, finding: Finding) -> Self {
        let (facts, laws) = (&run.facts.hygiene, &run.mix.laws);
        let when = match finding.row.phase() {
            Phase::After => When::AfterHold(finding.from_h - stop_h),
            _ if finding.from_h < -1e-9 => When::SinceStart(finding.from_h + facts.before.end_h()),
            _ => When::SinceCulture(finding.from_h),
        };
        let souring = match finding.row {
            Row::SlowSouring(souring) => laws.cautions.iter().find(|row| row.key == souring.key()).cloned(),
            _ => None,
        };
        let raw = match finding.row {
            Row::RawForFrail => facts.raw.clone(),
            Row::RawMilk => facts.raw_milk.clone(),
            _ => Vec::new(),
        };
        let (law, line_ph) = (laws.hygiene, laws.ready.acid_line_ph);
        Self { finding, when, law, souring, line_ph, most_h: most_h(run), raw }
    }

    /// The first thing to throw a run away for, if there is one.
    pub fn discard(run: &Run) -> Option<Self> {
        judge(run).discard().map(|finding| Self::of(run, run.mix.stop_h, *finding))
    }
}

/// Hours that a base may be out of the cold, by where it comes from.
fn most_h(run: &Run) -> f64 {
    let (facts, law) = (&run.facts.hygiene, &run.mix.laws.hygiene);
    let before = &facts.before;
    let stood = |(from, _): &&(f64, f64)| *from < facts.stood_until_h;
    let spans = before.cut_at(&[]);
    let ends = spans.iter().filter(stood).flat_map(|(a, b)| [before.at(*a), before.at(b - 1e-9)]);
    let warmest = ends.fold(f64::NEG_INFINITY, f64::max);
    let kept_cool = facts.start_c <= law.cold_c && warmest <= law.room_c;
    if kept_cool { law.base_kept_cold_discard_h } else { law.base_discard_h }
}
