//! The base before the culture goes in: how long it stood, and what heat can and cannot mend.

use super::{Finding, Level, Plan, Row};
use potset_forecast::hygiene::pasteurising;

/// What is found, and what goes on counting in the hold.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Before {
    pub findings: Vec<Finding>,
    /// Already to be thrown away.
    pub lost: bool,
    pub clock: Clock,
    /// How long below the warmth of souring, out of the cold, h.
    pub cool_h: f64,
    /// When it last came down from the heat, h since the culture; nothing if it was not heated.
    pub heated_at_h: Option<f64>,
}

/// Time that counts against a base that is not sour.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Clock {
    /// Out of the cold, h.
    pub out_h: f64,
    /// In a warm room or warmer, h.
    pub warm_h: f64,
    /// Whether it came cold and never grew warmer than a room.
    pub kept_cool: bool,
}

impl Clock {
    /// Counts a span at a temperature; the times in it at which the base is lost and is to be watched.
    ///
    /// - `stands` — it stands there; what is warmed for the culture passes the warmth of a room on its way.
    pub fn count(
        &mut self,
        plan: &Plan<'_>,
        (from, to): (f64, f64),
        (c, stands): (f64, bool),
    ) -> (Option<f64>, Option<f64>) {
        let law = plan.law;
        if c >= law.hot_c || c <= law.cold_c {
            return (None, None);
        }
        let hours = to - from;
        if c > law.room_c && (stands || self.warm_h + hours > law.base_watch_h) {
            self.kept_cool = false;
        }
        let reach = |had: f64, most: f64| {
            (had + hours > most + 1e-9).then(|| from + (most - had).max(0.0)).filter(|at| *at <= to)
        };
        let most = if self.kept_cool { law.base_kept_cold_discard_h } else { law.base_discard_h };
        let lost = reach(self.out_h, most);
        let watch = if c > law.room_c { reach(self.warm_h, law.base_watch_h) } else { None };
        self.out_h += hours;
        if c > law.room_c {
            self.warm_h += hours;
        }
        (lost, watch)
    }
}

impl Before {
    /// The heat of pasteurising ended: what stood within its limits begins anew.
    fn heated(&mut self, at_h: f64, in_time: bool, watched_at: &mut Option<f64>) {
        self.heated_at_h = Some(at_h);
        if in_time {
            (self.clock, self.cool_h) = (Clock::default(), 0.0);
            *watched_at = None;
        }
    }
}

/// Reads the base's course up to the culture.
pub(super) fn judge(plan: &Plan<'_>) -> Before {
    let (facts, law) = (plan.facts, plan.law);
    let course = &facts.before;
    let end = course.end_h();
    let mut out = Before {
        clock: Clock { kept_cool: facts.start_c <= law.cold_c + 1e-9, ..Clock::default() },
        ..Before::default()
    };
    raw(plan, &mut out.findings);
    let levels = [law.hot_c, law.room_c, law.cold_c, plan.run.mix.laws.ready.cold_below_c];
    // Heat of the stretch above the hot line that goes on now.
    let mut heat = 0.0;
    let (mut lost_at, mut watched_at): (Option<f64>, Option<f64>) = (None, None);
    for (from, to) in course.cut_at(&levels) {
        let c = course.at(0.5 * (from + to));
        if c >= law.hot_c {
            heat += pasteurising(course, (from, to), law);
            continue;
        }
        if heat >= 1.0 {
            out.heated(from - end, lost_at.is_none(), &mut watched_at);
        }
        heat = 0.0;
        let from = from.max(facts.opened_h);
        if to <= from {
            continue;
        }
        let (lost, watch) = out.clock.count(plan, (from, to), (c, to <= facts.stood_until_h + 1e-9));
        lost_at = lost_at.or(lost);
        watched_at = watched_at.or(watch);
        if c > law.cold_c && c < plan.run.mix.laws.ready.cold_below_c {
            out.cool_h += to - from;
        }
    }
    if heat >= 1.0 {
        out.heated(0.0, lost_at.is_none(), &mut watched_at);
    }
    out.lost = lost_at.is_some();
    if let Some(at) = lost_at {
        let heated = out.heated_at_h.is_some_and(|h| h > at - end);
        let row = if heated { Row::Reheated } else { Row::BaseStood };
        out.findings.push(Finding::new(row, Level::Discard, at - end));
    } else if let Some(at) = watched_at {
        out.findings.push(Finding::new(Row::BaseStood, Level::Watch, at - end));
    }
    if let Some(at) = out.heated_at_h.filter(|at| *at < -law.heated_watch_h - 1e-9) {
        out.findings.push(Finding::new(Row::HeatedCoolsSlowly, Level::Watch, at + law.heated_watch_h));
    }
    out
}

/// What is raw and stays so: it is watched from the beginning.
fn raw(plan: &Plan<'_>, findings: &mut Vec<Finding>) {
    let facts = plan.facts;
    let from_h = -facts.before.end_h();
    if !facts.raw_milk.is_empty() {
        findings.push(Finding::new(Row::RawMilk, Level::Watch, from_h));
    }
    if !facts.raw.is_empty() && facts.frail {
        findings.push(Finding::new(Row::RawForFrail, Level::Watch, from_h));
    }
}
