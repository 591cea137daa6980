//! Why nothing reaches what is wanted: how far each demand can be brought alone and beside the others, and which of them blocks.

use super::{Looked, TargetSearch, Walked};
use crate::aim::discard;
use crate::aim::found::{Blocked, By, How};
use crate::aim::make::hungry;
use crate::aim::moves::Beyond;
use crate::aim::problem::{Objective, own_and_others, worth};
use crate::aim::proposal::{Count, read};
use crate::aim::stand::{self, Demand, least};
use potset_doubt::kept::{self, Draw};
use potset_forecast::scenario::Scenario;
use potset_numerics::pattern::Setting;

/// Combinations for which it is asked.
const TOP: usize = 4;
/// Combinations besides, that are the most promising for the one demand. Source: assumed.
const OWN_TOP: usize = 2;
/// Settings that are walked from once more. Source: assumed.
const SEEDS: usize = 8;
/// A demand still counts as held within this, steps: settings are rounded, and nobody notices. Source: assumed.
const HELD: f64 = -0.1;

impl TargetSearch {
    /// Why nothing reaches what is wanted, by what was tried of single demands.
    pub(super) fn why(&self, scenario: &Scenario<'_>) -> Blocked {
        let count = Count { draw: Draw::new(self.wish.seed, 1), ..self.count(kept::likely) };
        let why = self.blocked(scenario, count).unwrap_or_else(|| Blocked::by(By::Nothing));
        Blocked { farther: self.wish.moves.beyond != Beyond::Far, ..why }
    }

    fn blocked(&self, scenario: &Scenario<'_>, count: Count) -> Option<Blocked> {
        let (near_at, near) = nearest(&self.looked)?;
        let (demand, how, at, values) = match blocking(&self.walked, &self.demands) {
            Some((t, how)) => (t.demand, how, t.walked.at, &t.walked.setting.values),
            None => {
                // The demand that is missed most at the nearest setting.
                let of = |places: std::ops::Range<usize>| least(&near.margins[places]);
                let worst = bounded(&self.demands).min_by(|a, b| of(a.1.clone()).total_cmp(&of(b.1.clone())));
                (worst.map_or(0, |(d, _)| d), How::Together, near_at, &near.values)
            }
        };
        let nearest = read(&self.problem(scenario, at), &self.looked[at].combo, values, count)?;
        let nearest = self.nearest_trimmed(scenario, &nearest, count);
        let on = Scenario { design: &nearest.design, ..*scenario };
        let starves = on.run_coarse(0.0).is_ok_and(|run| hungry(&run));
        let discard = on.run().ok().and_then(|run| discard::of_likely(&on, &run));
        Some(Blocked { discard, starves, ..Blocked::of(demand, how, nearest, &self.refused) })
    }
}

/// What is to be tried: each demand with bounds, alone and while all others hold, for the combinations that are most promising
/// for all demands, and for those that are so for this one.
pub(super) fn raised(order: &[usize], looked: &[Looked], demands: &[Demand]) -> Vec<Walked> {
    let mut all = Vec::new();
    for (demand, by_own) in by_one(looked, demands) {
        let top = &order[..order.len().min(TOP)];
        let own = by_own.into_iter().filter(|at| !top.contains(at)).take(OWN_TOP);
        for at in top.iter().copied().chain(own) {
            let setting = &looked[at].settings[0];
            all.extend([true, false].map(|alone| Walked {
                at,
                setting: setting.clone(),
                objective: Objective::Raised { demand, alone },
            }));
        }
    }
    all
}

/// Each demand with bounds, and the combinations in the order in which their best settings hold that one demand.
pub(super) fn by_one(looked: &[Looked], demands: &[Demand]) -> Vec<(usize, Vec<usize>)> {
    let ordered = |(demand, places): (usize, std::ops::Range<usize>)| {
        let own = |at: &usize| {
            let each = looked[*at].settings.iter().map(|s| least(&s.margins[places.clone()]));
            each.fold(stand::UNKNOWN, f64::max)
        };
        let mut by_own: Vec<usize> = (0..looked.len()).collect();
        by_own.sort_by(|a, b| own(b).total_cmp(&own(a)));
        (demand, by_own)
    };
    bounded(demands).map(ordered).collect()
}

/// Demands with bounds, and the places of their margins.
fn bounded(demands: &[Demand]) -> impl Iterator<Item = (usize, std::ops::Range<usize>)> + '_ {
    (0..demands.len()).map(|d| (d, stand::places(demands, d))).filter(|(_, places)| !places.is_empty())
}

/// What was tried of single demands: the demand, the margin of it and of all others, and the setting.
fn tried<'a>(walked: &'a [Walked], demands: &'a [Demand]) -> impl Iterator<Item = Tried<'a>> + 'a {
    walked.iter().filter_map(|walked| {
        let Objective::Raised { demand, .. } = walked.objective else { return None };
        let (own, others) = own_and_others(&walked.setting.margins, &stand::places(demands, demand));
        Some(Tried { walked, demand, own, others })
    })
}

struct Tried<'a> {
    walked: &'a Walked,
    demand: usize,
    own: f64,
    others: f64,
}

/// Settings to walk from before it is said that nothing reaches it: what was brought to hold one demand, and came nearest to
/// the others.
pub(super) fn seeds(walked: &[Walked], demands: &[Demand]) -> Vec<Walked> {
    let mut best: Vec<Tried<'_>> = tried(walked, demands).filter(|t| t.own >= HELD).collect();
    best.sort_by(|a, b| b.others.total_cmp(&a.others));
    let mut all: Vec<Walked> = Vec::new();
    for t in best {
        let there = |w: &Walked| w.at == t.walked.at && w.setting == t.walked.setting;
        if all.len() < SEEDS && !all.iter().any(there) {
            all.push(Walked { objective: Objective::Surest, ..t.walked.clone() });
        }
    }
    all
}

/// The demand that blocks, if one does alone: what is not to be had even with nothing else asked, the one farthest off first;
/// else the want that has to give least while all others hold. What every pot keeps is not given up.
fn blocking<'a>(walked: &'a [Walked], demands: &'a [Demand]) -> Option<(Tried<'a>, How)> {
    let best = |demand: usize, rank: &dyn Fn(&Tried<'_>) -> f64| {
        let all = tried(walked, demands).filter(|t| t.demand == demand && rank(t) > f64::NEG_INFINITY);
        all.max_by(|a, b| rank(a).total_cmp(&rank(b)))
    };
    let alone = bounded(demands).filter_map(|(d, _)| best(d, &|t| t.own)).filter(|t| t.own < HELD);
    if let Some(alone) = alone.min_by(|a, b| a.own.total_cmp(&b.own)) {
        return Some((alone, How::Alone));
    }
    let rank = |t: &Tried<'_>| if t.others >= HELD { worth((t.own, t.others)) } else { f64::NEG_INFINITY };
    let given = |want: bool| {
        let of_kind = bounded(demands).filter(|(d, _)| matches!(demands[*d], Demand::Want(_)) == want);
        of_kind.filter_map(|(d, _)| best(d, &rank)).max_by(|a, b| rank(a).total_cmp(&rank(b)))
    };
    given(true).or_else(|| given(false)).filter(|t| t.own < 0.0).map(|t| (t, How::Gives))
}

/// The setting of all that misses least, and the combination that it is of.
fn nearest(looked: &[Looked]) -> Option<(usize, &Setting)> {
    let best = |l: &'_ Looked| l.settings.iter().map(Setting::least).fold(stand::UNKNOWN, f64::max);
    let at = (0..looked.len()).max_by(|a, b| best(&looked[*a]).total_cmp(&best(&looked[*b])))?;
    let setting = looked[at].settings.iter().max_by(|a, b| a.least().total_cmp(&b.least()))?;
    Some((at, setting))
}
