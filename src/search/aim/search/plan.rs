//! What a search looks at next: which combinations, from which settings, which of them as proposals.

use super::{Job, Looked, TargetSearch, Walked, why};
use crate::aim::moves::Beyond;
use crate::aim::problem::{Objective, rank};
use crate::aim::stand;

/// What another entry must bring in margin to be walked from before the design's own. Source for all these numbers: assumed; set
/// so that a usual question takes less than two seconds on two cores.
const PER_SWAP: f64 = 0.3;
/// Combinations that reach all with half a step to spare, so that no more need to be put together.
const PLENTY: usize = 6;
const SPARE: f64 = 0.5;
/// Combinations that are brought a little up before it is said which are walked from, and how many more for each demand.
const LIFTED: usize = 30;
const LIFTED_BY_ONE: usize = 4;
/// Combinations of which all is looked at that is one change off.
const AROUND: usize = 4;
/// Combinations that are walked from, those of a second and third setting too, and those whose nearest and soonest settings are
/// sought.
pub(super) const WALKED: usize = 10;
const AGAIN: usize = 3;
const NEAREST: usize = 2;
/// A miss that the precise forecast may make good, in steps that a person notices.
const NEARLY: f64 = 0.3;

impl Looked {
    /// What it is walked from by: its best setting, less for what is not the design's own.
    fn rank(&self) -> f64 {
        let swaps = self.made.swaps as f64;
        self.settings.first().map_or(stand::UNKNOWN, rank) - PER_SWAP * swaps
    }
}

impl TargetSearch {
    /// Looks at some combinations, and at what is one change off others and was not looked at yet.
    fn looks(&self, mut new: Vec<Vec<usize>>, off: &[Vec<usize>]) -> Vec<Job> {
        let places = off.iter().flat_map(|combo| (0..combo.len()).map(move |k| (combo, k)));
        for (combo, k) in places {
            for pick in 0..self.choices[k].picks.len() {
                let mut combo = combo.clone();
                combo[k] = pick;
                if self.looked.iter().all(|l| l.combo != combo) && !new.contains(&combo) {
                    new.push(combo);
                }
            }
        }
        new.into_iter().map(Job::Look).collect()
    }

    /// The design's own entries, and every pick alone.
    pub(super) fn star(&self) -> Vec<Job> {
        let own = vec![0; self.choices.len()];
        self.looks(vec![own.clone()], &[own])
    }

    /// What is one change off the best combinations. As long as one demand is missed that only another base can bring, say, all
    /// thickeners look alike; beside that base they do not.
    pub(super) fn around(&self) -> Vec<Job> {
        let best = self.ranked().into_iter().take(AROUND);
        self.looks(Vec::new(), &best.map(|at| self.looked[at].combo.clone()).collect::<Vec<_>>())
    }

    /// Whether enough combinations reach all as they were looked at.
    pub(super) fn plenty(&self) -> bool {
        let reach = |l: &&Looked| l.settings.iter().any(|s| s.least() >= SPARE);
        self.looked.iter().filter(reach).count() >= PLENTY
    }

    /// A few steps up from where a combination was looked at, where single looks do not reach far enough: a few settings among
    /// many levers say little of how far it goes.
    pub(super) fn lifts(&self) -> Vec<Job> {
        if self.plenty() {
            return Vec::new();
        }
        let first = self.promising(LIFTED, LIFTED_BY_ONE).into_iter().filter(|at| !self.looked[*at].walked);
        first.flat_map(|at| self.walks_from(at, 1, Objective::Promising)).collect()
    }

    /// The most promising combinations, and the more that are so for each demand alone: what brings one may miss the others now
    /// and hold them beside another pick.
    pub(super) fn promising(&self, most: usize, by_one: usize) -> Vec<usize> {
        let mut all: Vec<usize> = self.ranked().into_iter().take(most).collect();
        for (_, order) in why::by_one(&self.looked, &self.demands) {
            let more: Vec<usize> = order.into_iter().filter(|at| !all.contains(at)).take(by_one).collect();
            all.extend(more);
        }
        all
    }

    /// Walks from the best settings of a combination.
    pub(super) fn walks_from(&self, at: usize, starts: usize, objective: Objective) -> Vec<Job> {
        let from = self.looked[at].settings.iter().take(starts).cloned();
        from.map(|setting| Job::Walk(Walked { at, setting, objective })).collect()
    }

    /// Places of the combinations, the most promising first.
    pub(super) fn ranked(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.looked.len()).collect();
        order.sort_by(|a, b| self.looked[*b].rank().total_cmp(&self.looked[*a].rank()));
        order
    }

    /// The same with the design's own entries first.
    fn own_first(&self) -> Vec<usize> {
        let mut order = self.ranked();
        order.sort_by_key(|at| self.looked[*at].made.swaps > 0);
        order
    }

    pub(super) fn walks(&self) -> Vec<Job> {
        let starts = |place: usize| if place < AGAIN || self.beyond != Beyond::Never { AGAIN } else { 1 };
        let first = self.own_first().into_iter().take(WALKED).enumerate();
        first.flat_map(|(place, at)| self.walks_from(at, starts(place), Objective::Surest)).collect()
    }

    /// The best setting found of each combination that reaches all: the design's own first, then the most promising. What was
    /// made surer takes the place of what it came from.
    pub(super) fn reached(&self) -> Vec<Walked> {
        let best = self.own_first().into_iter().filter_map(|at| {
            let surer = |w: &&Walked| (w.objective == Objective::Likeliest, w.setting.least());
            let of = |w: &&Walked| w.at == at && !w.near() && w.setting.least() >= self.enough();
            self.walked
                .iter()
                .filter(of)
                .max_by(|a, b| surer(a).partial_cmp(&surer(b)).unwrap_or(std::cmp::Ordering::Equal))
        });
        best.cloned().collect()
    }

    /// Least margin by the coarse forecast at which a setting is worth the precise one. As the last thing that is tried also
    /// what misses by a hair.
    const fn enough(&self) -> f64 {
        if self.seeded { -NEARLY } else { 0.0 }
    }

    pub(super) fn nears(&self) -> Vec<Job> {
        let walk = |w: &Walked, objective| Job::Walk(Walked { objective, ..w.clone() });
        let reached = self.reached();
        let first = reached.iter().take(NEAREST);
        first.flat_map(|w| [walk(w, Objective::Nearest), walk(w, Objective::Soonest)]).collect()
    }

    /// Settings to be worked out as proposals: each once, the surest first.
    pub(super) fn proposed(&self, most: usize) -> Vec<Job> {
        let reached = self.reached();
        let mut near = self.walked.iter().filter(|w| w.near() && w.setting.least() >= self.enough());
        let (first, more) = reached.split_at(reached.len().min(1));
        let (next, last) = more.split_at(more.len().min(3));
        let nearest = near.next();
        let mut all: Vec<Walked> = Vec::new();
        for w in first.iter().chain(nearest).chain(next).chain(near).chain(last) {
            if all.len() < most && all.iter().all(|o| o.at != w.at || o.setting.values != w.setting.values) {
                all.push(w.clone());
            }
        }
        all.into_iter().map(Job::Propose).collect()
    }
}

impl Walked {
    /// Whether it was walked to for little change or an early stop.
    fn near(&self) -> bool {
        matches!(self.objective, Objective::Nearest | Objective::Soonest)
    }
}
