//! The hold: whether a living culture is at work, and whether it sours the pot in time.

use super::before::Before;
use super::{Check, Finding, Level, NotYogurt, Plan, Row};
use potset_forecast::hygiene::Souring;
use potset_science::params::CautionRow;

/// Cells per gram below which nothing counts as put in. Source: assumed, far below any dose.
const LEAST_CELLS: f64 = 1.0;

/// The culture over the hold.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Culture {
    /// Spans in which no living culture is in the pot, h; the last may end at infinity.
    without: Vec<(f64, f64)>,
    /// Whether one was ever put in.
    put_in: bool,
    /// Most of the way to the line of sour food was made by what was put in.
    by_hand: bool,
}

impl Culture {
    /// Whether the culture died before the pot was sour.
    fn killed(&self, plan: &Plan<'_>) -> bool {
        self.put_in && self.without.last().is_some_and(|(from, to)| to.is_infinite() && *from < plan.line_h)
    }

    /// When the pot is sour by its culture, h.
    pub fn soured_h(&self, plan: &Plan<'_>) -> Option<f64> {
        let sour = self.put_in && !self.by_hand && !self.killed(plan) && plan.line_h.is_finite();
        sour.then_some(plan.line_h)
    }

    /// Whether the pot is sour by its culture when it is stopped.
    pub fn soured_at_stop(&self, plan: &Plan<'_>) -> bool {
        self.soured_h(plan).is_some_and(|h| h <= plan.stop_h + 1e-9)
    }

    /// Why the pot is not yogurt at the stop.
    pub fn not_yogurt(&self, plan: &Plan<'_>) -> Option<NotYogurt> {
        if !self.put_in {
            Some(NotYogurt::NoCulture)
        } else if self.killed(plan) {
            Some(NotYogurt::Killed)
        } else if self.by_hand {
            Some(NotYogurt::SouredByHand)
        } else {
            (!self.soured_at_stop(plan)).then_some(NotYogurt::NotSoured)
        }
    }
}

/// Follows the culture.
pub(super) fn culture(plan: &Plan<'_>) -> Culture {
    let (f, mix) = (plan.forecast(), &plan.run.mix);
    let put = |t: f64| {
        let late = mix.additions.iter().filter(|a| a.at_h <= t + 1e-9).flat_map(|a| a.counts.iter());
        mix.organisms.iter().map(|o| o.count).chain(late.copied()).sum::<f64>()
    };
    let living = |i: usize| {
        let cells: f64 = f.species.iter().filter_map(|s| s.log10.get(i)).map(|log| 10.0_f64.powf(*log)).sum();
        let put = put(f.t[i]);
        put >= LEAST_CELLS && cells >= plan.law.living_share * put
    };
    let mut without = Vec::new();
    let mut since: Option<f64> = None;
    for (i, t) in f.t.iter().enumerate() {
        match (living(i), since) {
            (false, None) => since = Some(*t),
            (true, Some(from)) => {
                without.push((from, *t));
                since = None;
            }
            _ => {}
        }
    }
    without.extend(since.map(|from| (from, f64::INFINITY)));
    let end = f.t.last().copied().unwrap_or(0.0);
    let own = plan.facts.base_ph;
    let start = f.ph.first().copied().unwrap_or(own);
    let by_hand = own > plan.line_ph && own - start > plan.law.soured_share * (own - plan.line_ph);
    Culture { without, put_in: put(end) >= LEAST_CELLS, by_hand }
}

/// What is found in the hold.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Held {
    /// As if the hold went on to the end of the forecast.
    pub findings: Vec<Finding>,
    pub lost_h: Option<f64>,
    pub check: Option<Check>,
}

/// Reads the hold.
pub(super) fn judge(plan: &Plan<'_>, before: &Before, culture: &Culture) -> Held {
    let mut out = Held::default();
    let (base_h, outside_h) = clocks(plan, before);
    for (from, to) in &culture.without {
        let killed = to.is_infinite() && culture.killed(plan);
        if *from >= plan.line_h {
            continue;
        }
        // A culture that was killed soured nothing: the base counts from the beginning.
        if let Some(at) = base_h.map(|at| at.max(*from)).filter(|at| at < to) {
            out.findings.push(Finding::new(Row::NotCultured, Level::Discard, at));
        }
        let cooked = before.heated_at_h.map(|at| at + plan.law.cool_first_h).filter(|_| !killed);
        let warm = |at: f64| {
            let course = if at < 0.0 {
                (&plan.facts.before, at + plan.facts.before.end_h())
            } else {
                (&plan.run.mix.course, at)
            };
            course.0.at(course.1) > plan.law.room_c
        };
        if let Some(at) = cooked.filter(|at| *at < *to && at.max(0.0) >= *from && warm(*at)) {
            out.findings.push(Finding::new(Row::CookedNotCultured, Level::Discard, at));
        }
    }
    if culture.put_in {
        slow(plan, outside_h, &mut out);
    }
    let lost = out.findings.iter().filter(|f| f.level == Level::Discard).map(|f| f.from_h.max(0.0));
    out.lost_h = lost.reduce(f64::min);
    out
}

/// When a base that nothing sours is lost, h; and from when the strict row holds.
fn clocks(plan: &Plan<'_>, before: &Before) -> (Option<f64>, f64) {
    let (law, facts, ready) = (plan.law, plan.facts, &plan.run.mix.laws.ready);
    let course = &plan.run.mix.course;
    let end = plan.forecast().t.last().copied().unwrap_or(0.0).min(plan.line_h);
    let (mut clock, mut cool_h) = (before.clock, before.cool_h);
    let mut base_h = None;
    let mut outside_h = if facts.souring == Souring::Strict { 0.0 } else { f64::INFINITY };
    let cool_counts = facts.souring != Souring::Mesophilic;
    let levels = [law.hot_c, ready.culture_end_c, ready.cold_below_c, law.room_c, law.cold_c];
    for (from, to) in course.cut_at(&levels) {
        let to = to.min(end);
        if to <= from {
            break;
        }
        let c = course.at(0.5 * (from + to));
        base_h = base_h.or(clock.count(plan, (from, to), (c, true)).0);
        let outside = cool_counts && c < ready.cold_below_c || !facts.all_dairy && c > ready.culture_end_c;
        if outside {
            let left = (law.strict_after_h - cool_h).max(0.0);
            cool_h += to - from;
            if cool_h > law.strict_after_h + 1e-9 {
                outside_h = outside_h.min(from + left);
            }
        }
    }
    (base_h, outside_h)
}

/// By when the pot must be how sour: (h, pH).
pub(super) fn deadline(plan: &Plan<'_>, before: &Before) -> Option<(f64, f64)> {
    let (own, strict) = (plan.row(plan.facts.souring)?, plan.row(Souring::Strict)?);
    let strict_h = strict.discard_h.max(clocks(plan, before).1);
    Some(if strict_h < own.discard_h {
        (strict_h, strict.discard_ph)
    } else {
        (own.discard_h, own.discard_ph)
    })
}

/// Slow souring, by the row that holds.
fn slow(plan: &Plan<'_>, strict_from_h: f64, out: &mut Held) {
    let (Some(own), Some(strict)) = (plan.row(plan.facts.souring), plan.row(Souring::Strict)) else { return };
    let end = plan.forecast().t.last().copied().unwrap_or(0.0);
    let above = |at: f64, limit: f64| (at <= end + 1e-9 && plan.ph(at) > limit).then(|| plan.ph(at));
    let both = |of: &dyn Fn(&CautionRow) -> (f64, f64)| {
        let ((own_h, own_ph), (strict_h, strict_ph)) = (of(own), of(strict));
        let late = strict_h.max(strict_from_h);
        let own =
            above(own_h, own_ph).filter(|_| own_h < late).map(|ph| (own_h, ph, own_ph, plan.facts.souring));
        own.or_else(|| above(late, strict_ph).map(|ph| (late, ph, strict_ph, Souring::Strict)))
    };
    let discard = both(&|row| (row.discard_h, row.discard_ph));
    if let Some((at, ph, _, row)) = discard {
        out.findings
            .push(Finding { ph: Some(ph), ..Finding::new(Row::SlowSouring(row), Level::Discard, at) });
    }
    if let Some((at, ph, limit, row)) = both(&|row| (row.watch_h, row.watch_ph)) {
        let lost_before = discard.is_some_and(|(lost, ..)| lost <= at);
        // It ends when the limit is reached: a pot that is there before the stop has nothing to be watched for.
        if plan.ph(plan.stop_h) > limit && !lost_before {
            out.findings
                .push(Finding { ph: Some(ph), ..Finding::new(Row::SlowSouring(row), Level::Watch, at) });
        }
        let row = if row == Souring::Strict { strict } else { own };
        if at <= plan.stop_h {
            let discard_h = row.discard_h.max(if row.key == strict.key { strict_from_h } else { 0.0 });
            out.check = Some(Check { at_h: at, ph: limit, discard_h, discard_ph: row.discard_ph });
        }
    }
}
