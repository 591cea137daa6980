//! What a call comes to: the causes in their order, the next question, what to do.

use std::sync::Arc;

use crate::call::Mishap;
use crate::change;
use crate::data::{Change, FactKind, Symptom, data};
use crate::fact::{Fact, FactValue};
use crate::mend;
use crate::next::{self, Question, STANDS_OUT};
use crate::pots::Group;
use crate::reason::{Said, Weights, apart, by_cause, lost};
use potset_base::Note;
use potset_doc::Design;
use potset_judge::hygiene::Against;
use potset_judge::mends::Mend;
use potset_science::Forecast;

/// A strip that shows this or less shows a pot that has soured, whatever it errs by. Source: derived, pH 4.6 less the 0.3 that
/// dry strips err by (common practice).
const COUNTS_PH: f64 = 4.3;

/// From this chance on no reading of a strip keeps a pot from being thrown away. Source: assumed.
const SURELY_LOST: f64 = 0.6;

/// How likely a cause is, in a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chance {
    Unlikely,
    Possible,
    MostLikely,
}

impl Chance {
    /// Of a chance from 0 to 1. Source: assumed.
    fn of(chance: f64, best: bool) -> Self {
        match chance {
            c if best && c >= 0.4 => Self::MostLikely,
            c if c >= 0.08 => Self::Possible,
            _ => Self::Unlikely,
        }
    }
}

/// A cause in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct RankedCause {
    /// Its place in the table.
    pub cause: usize,
    /// 0 to 1.
    pub chance: f64,
    pub word: Chance,
    /// The plan itself has this flaw.
    pub in_plan: bool,
    /// Another cause that most of its pots have besides.
    pub with: Option<usize>,
}

/// Causes in the order of their chances.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ranking {
    pub causes: Vec<RankedCause>,
    /// For each symptom that was said, what most likely made it by itself.
    pub apart: Vec<(Symptom, usize)>,
    /// How likely the rules of hygiene throw it away, and by which finding.
    pub lost: f64,
    pub against: Option<Arc<Against>>,
}

/// What comes next.
#[derive(Clone, Debug, PartialEq)]
pub enum Next {
    /// The best question first.
    Ask(Vec<Question>),
    /// One cause stands out: its place in the table.
    StandsOut(usize),
    /// Nothing that can be asked tells more: the cause whose test would.
    Test(usize),
}

/// Why a pot is thrown away.
#[derive(Clone, Debug, PartialEq)]
pub enum ThrowAway {
    /// What was seen does it by itself.
    Seen(Symptom),
    /// The rules of hygiene do, in the pots that it may be; whether a strip is still to be asked for.
    Rule(Arc<Against>, bool),
    /// A cause that it may have does: its place in the table.
    Cause(usize),
}

/// What to do.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatToDo {
    pub throw_away: Option<ThrowAway>,
    /// The cause whose rescue is told; nothing where something speaks against eating it.
    pub rescue: Option<usize>,
    /// The cause that is answered next time, and the change of the plan, where the plan can answer it.
    pub next_time: Option<(usize, Option<Mend>)>,
}

impl Mishap {
    /// The causes, the likeliest first.
    pub fn rank(&self) -> Ranking {
        let table = data();
        let weights = self.weights();
        let chances = weights.groups();
        let all = by_cause(&self.groups, &chances, table);
        let mut order: Vec<usize> = (0..all.len()).filter(|c| all[*c] > 0.0).collect();
        order.sort_by(|a, b| all[*b].total_cmp(&all[*a]));
        let causes = order.iter().enumerate().map(|(i, c)| {
            let single = |flaw: bool| {
                let own = self.groups.iter().zip(&chances);
                own.filter(|(g, _)| g.causes == [*c] && g.flaw.is_some() == flaw).map(|(_, p)| p).sum::<f64>()
            };
            RankedCause {
                cause: *c,
                chance: all[*c],
                word: Chance::of(all[*c], i == 0),
                in_plan: single(true) > 0.0,
                with: self.partner(*c, all[*c], &chances),
            }
        });
        let causes: Vec<RankedCause> = causes.collect();
        let (lost, against) = self.lost(&weights);
        // What the plan itself is thrown away for is said as everywhere.
        let planned = causes.first().filter(|best| best.in_plan && lost > 0.0);
        let planned = planned.and_then(|_| Against::discard(self.sampler.likely())).map(Arc::new);
        let against = planned.or(against);
        let apart = apart(&self.groups, &self.said, &self.truth, table);
        let apart = apart.into_iter().filter_map(|(s, all)| Some((s, all.first()?.0))).collect();
        Ranking { causes, apart, lost, against }
    }

    /// How likely the pot is to be thrown away. A strip that errs by 0.3 clears no pot that may be at the limit.
    fn lost(&self, weights: &Weights) -> (f64, Option<Arc<Against>>) {
        let told = lost(&self.groups, weights);
        let clears = |fact: &Fact| {
            fact.kind != FactKind::Ph || matches!(fact.value, FactValue::Number(ph) if ph <= COUNTS_PH)
        };
        let known: Vec<Fact> = self.said.known.iter().copied().filter(clears).collect();
        if known.len() == self.said.known.len() {
            return told;
        }
        let said = Said { saw: self.said.saw.clone(), known };
        let without = lost(&self.groups, &Weights::of(&self.groups, &said, &self.truth, data()));
        if without.0 > told.0 { without } else { told }
    }

    /// The cause that most pots of this one have besides.
    fn partner(&self, cause: usize, chance: f64, chances: &[f64]) -> Option<usize> {
        let pairs =
            self.groups.iter().zip(chances).filter(|(g, _)| g.causes.len() == 2 && g.causes.contains(&cause));
        let (group, best) = pairs.max_by(|a, b| a.1.total_cmp(b.1))?;
        (*best > 0.5 * chance).then(|| group.causes.iter().copied().find(|c| *c != cause))?
    }

    /// What comes next.
    ///
    /// - `skipped` — questions that the caller could not answer.
    pub fn next(&self, skipped: &[FactKind]) -> Next {
        let ranking = self.rank();
        let Some(best) = ranking.causes.first() else { return Next::Test(0) };
        let leave_out: Vec<FactKind> =
            self.said.known.iter().map(|fact| fact.kind).chain(skipped.iter().copied()).collect();
        let seen = data().throw_away.iter().any(|row| self.said.saw.contains(&row.symptom));
        // Whether it is thrown away may hang on its sourness: that is asked before the call ends.
        let sourness = !seen
            && (self.said.throw_away_from()..SURELY_LOST).contains(&ranking.lost)
            && !leave_out.contains(&FactKind::Ph);
        let last = |next: Next| {
            let question = Question { kind: FactKind::Ph, tells: 0.0 };
            if sourness { Next::Ask(vec![question]) } else { next }
        };
        if best.chance >= STANDS_OUT {
            return last(Next::StandsOut(best.cause));
        }
        let all = next::questions(&self.groups, &self.weights(), &self.truth, data(), &leave_out);
        if all.is_empty() { last(Next::Test(best.cause)) } else { Next::Ask(all) }
    }

    /// What to do with the pot, and next time.
    pub fn what_to_do(&self, ranking: &Ranking) -> WhatToDo {
        let table = data();
        let seen = table.throw_away.iter().map(|row| row.symptom).find(|s| self.said.saw.contains(s));
        let read = self.said.known.iter().any(|fact| fact.kind == FactKind::Ph);
        let passed = self.passed.contains(&FactKind::Ph);
        let open = !read && !passed && ranking.lost < SURELY_LOST;
        let rule = || {
            ranking
                .against
                .clone()
                .filter(|_| ranking.lost >= self.said.throw_away_from())
                .map(|against| ThrowAway::Rule(against, open))
        };
        let cause = || {
            let may = ranking.causes.iter().filter(|c| table.causes[c.cause].throw_away);
            may.filter(|c| c.chance >= self.said.throw_away_from()).map(|c| ThrowAway::Cause(c.cause)).next()
        };
        let throw_away = seen.map(ThrowAway::Seen).or_else(rule).or_else(cause);
        let best = ranking.causes.first();
        let rescue = best
            .map(|best| best.cause)
            .filter(|c| throw_away.is_none() && !table.causes[*c].rescue.is_empty());
        let next_time = best.map(|best| (best.cause, self.mend_of(best)));
        WhatToDo { throw_away, rescue, next_time }
    }

    fn mend_of(&self, best: &RankedCause) -> Option<Mend> {
        let key = &data().causes[best.cause].key;
        let flaw = self.flaws.iter().find(|flaw| best.in_plan && flaw.cause == key);
        let own = || mend::mend(key, &self.case.scenario());
        flaw.map_or_else(own, |flaw| flaw.mend.clone())
    }

    /// The forecast of the plan.
    pub fn planned(&self) -> &Forecast {
        &self.sampler.likely().forecast
    }

    /// The pot as it was made if this is the cause: in the middle of its size.
    pub fn design_of(&self, cause: &RankedCause) -> Design {
        let mut design = (*self.case.design).clone();
        if !cause.in_plan {
            let causes: Vec<usize> = std::iter::once(cause.cause).chain(cause.with).collect();
            for c in causes.iter().copied() {
                let size = self.size_of(c, &causes);
                change::apply(&data().causes[c].change, size, &mut design, &self.case.pantry);
            }
            // What the caller knows of the hours stands.
            let hours = self.said.known.iter().find(|fact| fact.kind == FactKind::Hours);
            if let (Some(FactValue::Number(hours)), Some(hold)) =
                (hours.map(|fact| fact.value), design.hold_mut())
                && hours > 0.0
            {
                hold.hours = hours;
            }
        }
        design
    }

    /// The size of a cause in the pot of these causes that fits best.
    fn size_of(&self, cause: usize, causes: &[usize]) -> f64 {
        let weights = self.weights();
        let same = |group: &Group| {
            group.causes.len() == causes.len() && causes.iter().all(|c| group.causes.contains(c))
        };
        let mut pots =
            self.groups.iter().zip(&weights.0).filter(|(group, _)| same(group)).flat_map(|(group, w)| {
                let at = group.causes.iter().position(|c| *c == cause).unwrap_or(0);
                group.pots.iter().zip(w).map(move |(pot, w)| (pot.sizes.get(at).copied(), *w))
            });
        let first = pots.next();
        let best =
            pots.fold(first, |best, pot| if best.is_none_or(|b| pot.1 > b.1) { Some(pot) } else { best });
        best.and_then(|(size, _)| size).unwrap_or(0.5)
    }

    /// Whether the model forecasts what this cause does to a pot.
    pub fn forecasts(&self, cause: &RankedCause) -> bool {
        let row = &data().causes[cause.cause];
        cause.in_plan || row.change != Change::Nothing || row.key == "as_planned"
    }

    /// The curves of that pot, as likely.
    ///
    /// # Errors
    /// The notes that say why there is no forecast.
    pub fn curves_of(&self, cause: &RankedCause) -> Result<Forecast, Vec<Note>> {
        let design = self.design_of(cause);
        self.case.of(&design).run().map(|run| run.forecast)
    }
}
