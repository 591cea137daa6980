//! How a search goes from stage to stage: the design as it is, what can be otherwise, and what is given up where nothing reaches it.

use super::plan::WALKED;
use super::{Job, TargetSearch, Walked, why};
use crate::aim::as_is::AsIs;
use crate::aim::choices::{Ruled, Rules};
use crate::aim::found::{Blocked, By};
use crate::aim::problem::Objective;
use crate::aim::proposal::{Proposal, chosen};
use crate::aim::stage::Stage;
use crate::aim::stand::Demand;
use crate::aim::want::Want;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::nutrition::nutrition;

/// How often what is one change off the best combinations is looked at, where they do not reach far enough. Source for these
/// numbers: assumed; set so that a usual question takes less than two seconds on two cores.
const ROUNDS: usize = 2;
/// Settings that are brought to a larger chance.
const POLISHED: usize = 3;
/// Combinations that are looked at again for what they do for one demand.
const BY_ONE: usize = 2;
/// Proposals, and settings that are worked out as such.
const MOST: usize = 3;
const PROPOSED: usize = 5;

impl TargetSearch {
    /// What can be otherwise: or the rule that leaves nothing.
    pub(super) fn start(&mut self, scenario: &Scenario<'_>) {
        self.found.as_is = AsIs::of(scenario, &self.demands);
        let own = self.found.as_is.as_ref();
        if let Some(own) = own.filter(|own| own.does()) {
            // Surer is then: surer by the same yardstick.
            let done = self.demands.iter_mut().filter(|d| **d == Demand::Done);
            done.for_each(|demand| *demand = Demand::DoneAsNow(own.release_ph));
        }
        // A pot of which no texture is wanted keeps its own, as long as that goes.
        let word = own.and_then(|own| own.texture).filter(|_| !self.texture_wanted());
        self.demands.extend(word.map(|word| Demand::AsNow(Want::texture(word, word))));
        let rules = Rules::of(scenario, &self.wish).choices();
        match (self.costless(scenario), rules) {
            (Some((want, missing)), _) => self.give_up(&want.clone(), By::Prices(want, missing)),
            (None, Err(ruled)) => {
                let named = ruled.rule.named(scenario.design, scenario.pantry);
                self.give_up(&ruled.rule.clone(), By::Rule(Ruled { rule: named, ..ruled }));
            }
            (None, Ok(choices)) => {
                self.choices = choices;
                // First of all, where that may be the answer.
                let own = self.found.does_already().then_some(Job::AsIs);
                let star = own.into_iter().chain(self.star()).collect();
                self.begin(Stage::Screen, star);
            }
        }
    }

    pub(super) fn texture_wanted(&self) -> bool {
        self.wish.wants.iter().any(|want| want.measure() == Some(Observable::Texture))
    }

    /// A cost cannot be met where what is in the pot has no price.
    fn costless(&self, scenario: &Scenario<'_>) -> Option<(Want, Vec<String>)> {
        let costs = |w: &&Want| matches!(w, Want::Within(Observable::Cost, _));
        let want = self.wish.wants.iter().find(costs)?;
        let run = scenario.run_coarse(0.0).ok()?;
        let table = nutrition(&run.facts.content, &run.mix, &run.forecast, scenario.design.pots.serving_g);
        (!table.cost.whole()).then(|| (want.clone(), table.cost.missing))
    }

    /// The same question without the want that blocks.
    fn give_up(&mut self, want: &Want, by: By) {
        let mut wish = self.wish.clone();
        wish.wants.retain(|w| w != want);
        // Without wants there is nothing to be reached.
        let stage = if wish.wants.is_empty() { Stage::Done } else { Stage::Without };
        self.without = (stage == Stage::Without).then(|| Box::new(Self::with_pots(wish, self.pots)));
        self.found.blocked = Some(Blocked::by(by));
        self.begin(stage, Vec::new());
    }

    pub(super) fn next_without(&mut self, scenario: &Scenario<'_>, n: usize) {
        if self.without.as_mut().is_some_and(|inner| inner.next(scenario, n)) {
            return;
        }
        if let Some(inner) = self.without.take() {
            let found = inner.into_found();
            self.found.beyond = found.beyond;
            if let (Some(own), Some(inner)) = (&mut self.found.as_is, &found.as_is) {
                (own.chance, own.discard) = (inner.chance.clone(), inner.discard.clone());
            }
            self.found.blocked = self.found.blocked.take().map(|blocked| blocked.without(found));
        }
        self.begin(Stage::Done, Vec::new());
    }

    /// A stage is over: what comes of it, and what comes next.
    pub(super) fn advance(&mut self, scenario: &Scenario<'_>) {
        let (stage, jobs) = match self.stage {
            Stage::Screen => (Stage::Lift, self.lifts()),
            Stage::Lift if self.rounds < ROUNDS && !self.plenty() => {
                self.rounds += 1;
                (Stage::Screen, self.around())
            }
            Stage::Lift => (Stage::Walk, self.walks()),
            Stage::Walk | Stage::Seed if self.reached().is_empty() => return self.give_way(scenario),
            Stage::Walk | Stage::Seed => (Stage::Near, self.nears()),
            // Where the design does it already, only what is counted can be shown.
            Stage::Near => (Stage::Sketch, self.proposed(if self.found.does_already() { 0 } else { MOST })),
            Stage::Sketch => {
                self.found.proposals = chosen(&std::mem::take(&mut self.proposals), MOST);
                self.refused.clear();
                let surer = |w| Job::Walk(Walked { objective: Objective::Likeliest, ..w });
                (Stage::Polish, self.reached().into_iter().take(POLISHED).map(surer).collect())
            }
            Stage::Polish => {
                let counted = self.found.as_is.as_ref().is_none_or(|own| own.chance.is_some());
                let own = (!counted).then_some(Job::AsIs);
                (Stage::Count, self.proposed(PROPOSED).into_iter().chain(own).collect())
            }
            Stage::Count => {
                let mut all = std::mem::take(&mut self.proposals);
                all.retain(|p| self.worth(p));
                self.found.proposals = chosen(&all, MOST);
                if self.found.proposals.is_empty() {
                    return self.give_way(scenario);
                }
                all.retain(|p| self.found.proposals.iter().all(|shown| shown.design != p.design));
                self.spare = all;
                (Stage::Trim, trims(self.found.proposals.clone()))
            }
            Stage::Trim => {
                self.found.proposals = chosen(&self.proposals, MOST);
                // Two that only differed in what helped nothing are one now: another may stand in its place.
                let mut spare = std::mem::take(&mut self.spare);
                if spare.is_empty() || self.found.proposals.len() == MOST {
                    spare.clear();
                    self.stage = Stage::Done;
                }
                (self.stage, trims(spare))
            }
            Stage::Why => (Stage::Seed, self.seeds()),
            Stage::Start | Stage::Without | Stage::Done => (Stage::Done, Vec::new()),
        };
        self.begin(stage, jobs);
    }

    /// Whether a proposal is worth a change: where the design does it already, only what is clearly surer.
    pub(super) fn worth(&self, proposal: &Proposal) -> bool {
        let own = self.found.as_is.as_ref().filter(|own| own.does());
        let surer = |own: &AsIs| own.chance.as_ref().is_some_and(|c| proposal.chance.clearly_above(c));
        proposal.changes() > 0 && own.is_none_or(surer)
    }

    /// Nothing reaches it as it is looked for: what is given up then, or why that is so.
    fn give_way(&mut self, scenario: &Scenario<'_>) {
        if self.found.does_already() {
            // What does it already needs neither more nor farther.
            return self.begin(Stage::Done, Vec::new());
        }
        self.proposals.clear();
        if let Some(Demand::AsNow(_)) = self.demands.last() {
            // Nothing keeps the texture: all over again without that.
            self.found.texture_let_go = self.found.as_is.as_ref().and_then(|own| own.texture);
            self.demands.pop();
            self.rounds = 0;
            self.again(Vec::new());
        } else if self.beyond != self.wish.moves.beyond {
            // As far as levers are let beyond what is usual: only what came nearest is looked at again.
            self.beyond = self.wish.moves.beyond;
            let nearest = self.promising(2 * WALKED, BY_ONE).into_iter();
            self.again(nearest.map(|at| self.looked[at].combo.clone()).collect());
        } else if self.seeded {
            self.found.blocked = Some(self.why(scenario));
            self.begin(Stage::Done, Vec::new());
        } else {
            let raised = why::raised(&self.ranked(), &self.looked, &self.demands);
            self.begin(Stage::Why, raised.into_iter().map(Job::Walk).collect());
        }
    }

    /// Looks at combinations anew; at every pick alone where none are given.
    fn again(&mut self, combos: Vec<Vec<usize>>) {
        self.refused.clear();
        self.looked.clear();
        self.walked.clear();
        let combos = combos.into_iter().map(Job::Look).collect::<Vec<_>>();
        let jobs = if combos.is_empty() { self.star() } else { combos };
        self.begin(Stage::Screen, jobs);
    }

    /// Walks from what held one demand, before it is said that nothing reaches all.
    fn seeds(&mut self) -> Vec<Job> {
        self.seeded = true;
        let mut jobs: Vec<Job> = why::seeds(&self.walked, &self.demands).into_iter().map(Job::Walk).collect();
        // Nor is it said before the best combinations for each demand were walked from for all of them.
        let more = self.promising(0, BY_ONE);
        let new = |at: &usize| self.walked.iter().all(|w| w.at != *at || w.objective != Objective::Surest);
        jobs.extend(more.into_iter().filter(new).flat_map(|at| self.walks_from(at, 1, Objective::Surest)));
        jobs
    }
}

fn trims(all: Vec<Proposal>) -> Vec<Job> {
    all.into_iter().map(|p| Job::Trim(Box::new(p))).collect()
}
