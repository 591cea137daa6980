//! What a search looks at next: which combinations, from which settings, which of them as proposals.

use super::{Aimer, Candidate, Looked, Task, WALKED};
use crate::aim::blocked;
use crate::aim::moves::Beyond;
use crate::aim::spot::Look;
use crate::aim::stand;
use potset_forecast::scenario::Ask;

/// Picks of a choice, and combinations of them, that are put together. Source for all these numbers: assumed; set so that a
/// usual question takes less than two seconds on two cores.
const TOP_PICKS: usize = 4;
const BEAM: usize = 36;
/// Combinations that reach all with half a step to spare, so that no more need to be put together.
const PLENTY: usize = 6;
const SPARE: f64 = 0.5;
/// Combinations that are brought a little up before it is said which are walked from, and how many more for each demand.
const LIFTED: usize = 30;
const LIFTED_BY_ONE: usize = 4;
/// Combinations of which all is looked at that is one change off.
const AROUND: usize = 4;
/// Combinations that are walked from a second and third setting too; and those whose nearest and soonest settings are sought.
const AGAIN: usize = 3;
/// A miss that a step along a lever or two, or the precise forecast, may make good, in steps that a person notices. Source:
/// assumed.
const NEARLY: f64 = 0.3;
const NEAREST: usize = 2;

impl Aimer {
    /// Every pick alone, all else as likely as can be.
    pub(super) fn star(&self) -> Vec<Task> {
        let middle = vec![0; self.choices.len()];
        let mut all = vec![Task::Look(middle.clone())];
        for (k, choice) in self.choices.iter().enumerate() {
            for pick in 1..choice.picks.len() {
                let mut combo = middle.clone();
                combo[k] = pick;
                all.push(Task::Look(combo));
            }
        }
        all
    }

    /// Whether enough combinations reach all as they were looked at.
    pub(super) fn plenty(&self) -> bool {
        let reach = |l: &&Looked| l.settings.first().is_some_and(|s| s.least >= SPARE);
        self.looked.iter().filter(reach).count() >= PLENTY
    }

    /// A few steps up from where a combination was looked at, where single looks do not reach far enough: a few points among
    /// many levers say little of how far it goes.
    pub(super) fn lifts(&self, ask: &Ask<'_>) -> Vec<Task> {
        if self.plenty() {
            return Vec::new();
        }
        let mut all: Vec<usize> = self.ranked().into_iter().take(LIFTED).collect();
        for (_, by_own) in blocked::promising(ask, &self.looked, &self.demands) {
            let more: Vec<usize> =
                by_own.into_iter().filter(|at| !all.contains(at)).take(LIFTED_BY_ONE).collect();
            all.extend(more);
        }
        all.into_iter().filter(|at| !self.looked[*at].lifted).map(Task::Lift).collect()
    }

    /// What is one change off the best combinations. As long as one demand is missed that only another base can bring, say, all
    /// thickeners look alike; beside that base they do not.
    pub(super) fn around(&self) -> Vec<Task> {
        let mut new: Vec<Vec<usize>> = Vec::new();
        for at in self.ranked().into_iter().take(AROUND) {
            for (k, choice) in self.choices.iter().enumerate() {
                for pick in 0..choice.picks.len() {
                    let mut combo = self.looked[at].combo.clone();
                    combo[k] = pick;
                    if self.looked.iter().all(|l| l.combo != combo) && !new.contains(&combo) {
                        new.push(combo);
                    }
                }
            }
        }
        new.into_iter().map(Task::Look).collect()
    }

    /// The best picks of each choice put together, where single ones do not reach far enough.
    pub(super) fn beam(&self) -> Vec<Task> {
        if self.plenty() {
            return Vec::new();
        }
        let rank = |k: usize, pick: usize| {
            let of = |l: &&Looked| {
                l.combo[k] == pick && l.combo.iter().enumerate().all(|(j, p)| j == k || *p == 0)
            };
            self.looked.iter().find(of).map(Looked::rank)
        };
        let tops: Vec<Vec<usize>> = (0..self.choices.len())
            .map(|k| {
                let picks = 0..self.choices[k].picks.len();
                let mut ranked: Vec<(f64, usize)> =
                    picks.map(|p| (rank(k, p).unwrap_or(stand::UNKNOWN), p)).collect();
                ranked.sort_by(|a, b| b.0.total_cmp(&a.0));
                ranked.into_iter().take(TOP_PICKS).map(|(_, p)| p).collect()
            })
            .collect();
        let mut combos: Vec<(usize, Vec<usize>)> = vec![(0, Vec::new())];
        for top in &tops {
            combos = combos
                .into_iter()
                .flat_map(|(sum, combo)| {
                    top.iter().enumerate().map(move |(place, pick)| {
                        let mut longer = combo.clone();
                        longer.push(*pick);
                        (sum + place, longer)
                    })
                })
                .collect();
            combos.sort_by_key(|(sum, _)| *sum);
            combos.truncate(4 * BEAM);
        }
        let new = combos.into_iter().filter(|(_, c)| self.looked.iter().all(|l| l.combo != *c));
        new.take(BEAM).map(|(_, combo)| Task::Look(combo)).collect()
    }

    /// Places of the combinations, the most promising first.
    pub(super) fn ranked(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.looked.len()).collect();
        order.sort_by(|a, b| self.looked[*b].rank().total_cmp(&self.looked[*a].rank()));
        order
    }

    pub(super) fn walks(&self) -> Vec<Task> {
        let mut all = Vec::new();
        // The design's own entries are always walked from.
        let mut order = self.ranked();
        order.sort_by_key(|at| self.looked[*at].made.swaps > 0);
        for (place, at) in order.into_iter().take(WALKED).enumerate() {
            let starts = if place < AGAIN || self.beyond != Beyond::Never { AGAIN } else { 1 };
            for from in self.looked[at].settings.iter().take(starts) {
                all.push(Task::Walk { at, from: from.clone(), look: Look::Surest });
            }
        }
        all
    }

    /// The best setting found of each combination that reaches all: the design's own first, then the most promising.
    pub(super) fn reached(&self) -> Vec<Candidate> {
        let mut order = self.ranked();
        order.sort_by_key(|at| self.looked[*at].made.swaps > 0);
        let best = order.into_iter().filter_map(|at| {
            let of = self.candidates.iter().filter(|c| c.at == at && c.look == Look::Surest);
            of.max_by(|a, b| a.setting.least.total_cmp(&b.setting.least)).cloned()
        });
        let enough = self.enough();
        best.filter(|c| c.setting.least >= enough).collect()
    }

    /// Least margin by the coarse forecast at which a setting is worth the precise one. As the last thing that is tried also
    /// what misses by a hair.
    const fn enough(&self) -> f64 {
        if self.seeded { -NEARLY } else { 0.0 }
    }

    pub(super) fn nears(&self) -> Vec<Task> {
        let walk = |c: &Candidate, look| Task::Walk { at: c.at, from: c.setting.clone(), look };
        let reached = self.reached();
        let first = reached.iter().take(NEAREST);
        first.flat_map(|c| [walk(c, Look::Nearest), walk(c, Look::Soonest)]).collect()
    }

    /// Settings to be worked out as proposals: each once, the surest first.
    pub(super) fn proposed(&self, most: usize) -> Vec<Candidate> {
        let mut all: Vec<Candidate> = Vec::new();
        let enough = self.enough();
        let mut add = |c: &Candidate| {
            let there = all.iter().any(|o| o.at == c.at && o.setting.values == c.setting.values);
            if c.setting.least >= enough && !there {
                all.push(c.clone());
            }
        };
        let reached = self.reached();
        let near = || self.candidates.iter().filter(|c| c.look != Look::Surest);
        reached.iter().take(1).for_each(&mut add);
        near().take(1).for_each(&mut add);
        reached.iter().skip(1).take(3).for_each(&mut add);
        near().skip(1).for_each(&mut add);
        reached.iter().skip(4).for_each(&mut add);
        all.truncate(most);
        all
    }

    pub(super) fn propose(&self, most: usize, sketch: bool) -> Vec<Task> {
        self.proposed(most).into_iter().map(|candidate| Task::Propose { candidate, sketch }).collect()
    }
}
