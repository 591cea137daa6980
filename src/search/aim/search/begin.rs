//! How a search begins: the design as it is, what can be otherwise, and what is given up before or after; and how it goes on
//! where nothing usual reaches what is wanted.

use super::stage::Stage;
use super::{Aimer, Candidate, Task, WALKED};
use crate::aim::as_is::AsIs;
use crate::aim::blocked;
use crate::aim::blocked::Blocked;
use crate::aim::choices::Rules;
use crate::aim::spot::{Look, Setting};
use crate::aim::stand::Demand;
use crate::aim::want::{Quantity, Want};
use potset_forecast::scenario::Ask;
use potset_judge::nutrition::nutrition;

/// Combinations that are looked at again for what they do for one demand. Source: assumed.
const AGAIN_BY_ONE: usize = 2;

impl Aimer {
    /// What can be otherwise: or the rule that leaves nothing.
    pub(super) fn start(&mut self, ask: &Ask<'_>) {
        self.found.as_is = AsIs::of(ask, &self.demands);
        if let Some(own) = self.found.as_is.as_ref().filter(|own| own.does()) {
            // Surer is then: surer by the same yardstick.
            for demand in self.demands.iter_mut().filter(|d| **d == Demand::Done) {
                *demand = Demand::DoneAsNow(own.release_ph);
            }
        }
        self.keep_texture();
        if let Some((want, blocked)) = self.costless(ask) {
            return self.give_up(&want, blocked);
        }
        match Rules::of(ask, &self.wish).choices() {
            Ok(choices) => {
                self.choices = choices;
                // First of all, where that may be the answer.
                let own = self.found.does_already().then_some(Task::AsIs);
                let star = own.into_iter().chain(self.star()).collect();
                self.begin(Stage::Screen, star);
            }
            Err(ruled) => {
                let blocked = Blocked::by_rule(ask, &ruled);
                self.give_up(&ruled.rule, blocked);
            }
        }
    }

    /// A pot of which no texture is wanted keeps its own, as long as that goes.
    fn keep_texture(&mut self) {
        let word = self.found.as_is.as_ref().and_then(|own| own.texture);
        self.demands.extend(word.filter(|_| !self.texture_wanted()).map(Demand::TextureAsNow));
    }

    pub(super) fn texture_wanted(&self) -> bool {
        self.wish.wants.iter().any(|want| want.measure() == Some(Quantity::Texture))
    }

    /// The same question without the want that blocks.
    fn give_up(&mut self, want: &Want, blocked: Blocked) {
        let mut wish = self.wish.clone();
        wish.wants.retain(|w| w != want);
        self.found.blocked = Some(blocked);
        // Without wants there is nothing to be reached.
        if wish.wants.is_empty() {
            return self.begin(Stage::Done, Vec::new());
        }
        self.without = Some(Box::new(Self::with_pots(wish, self.pots)));
        self.begin(Stage::Without, Vec::new());
    }

    /// A cost cannot be met where what is in the pot has no price.
    fn costless(&self, ask: &Ask<'_>) -> Option<(Want, Blocked)> {
        let costs = |w: &Want| matches!(w, Want::Within(Quantity::Cost, _));
        let want = self.wish.wants.iter().find(|w| costs(w))?;
        let run = ask.run_coarse(0.0).ok()?;
        let serving_g = ask.design.pots.serving_g;
        let table = nutrition(&run.facts.content, &run.mix, &run.forecast, serving_g);
        (!table.cost.whole()).then(|| (want.clone(), Blocked::no_price(want, &table.cost.missing)))
    }

    pub(super) fn next_without(&mut self, ask: &Ask<'_>, n: usize) {
        let Some(inner) = self.without.as_mut() else { return self.begin(Stage::Done, Vec::new()) };
        if !inner.next(ask, n) {
            let found = inner.found.clone();
            self.found.beyond = found.beyond;
            if let (Some(own), Some(inner)) = (&mut self.found.as_is, &found.as_is) {
                (own.chance, own.discards) = (inner.chance.clone(), inner.discards);
            }
            if let Some(blocked) = &mut self.found.blocked {
                blocked.reach_without(found);
            }
            self.without = None;
            self.begin(Stage::Done, Vec::new());
        }
    }

    /// The design as it is, where that reaches all on the likely line.
    pub(super) fn own(&self, ask: &Ask<'_>) -> Option<Candidate> {
        let at = self.looked.iter().position(|l| l.combo.iter().all(|pick| *pick == 0))?;
        let spot = self.spot(ask, at)?;
        let values = spot.there();
        let setting = Setting { least: spot.least(&values, false), values };
        (setting.least >= 0.0).then_some(Candidate { at, setting, look: Look::Nearest })
    }

    /// Walks from what held one demand, before it is said that nothing reaches all.
    pub(super) fn seeds(&mut self, ask: &Ask<'_>) -> Vec<Task> {
        self.seeded = true;
        let mut from = blocked::seeds(&self.tried);
        // Nor is it said before the best combinations for each demand were walked from for all of them.
        for (_, by_own) in blocked::promising(ask, &self.looked, &self.demands) {
            for at in by_own.into_iter().take(AGAIN_BY_ONE) {
                let walked = self.candidates.iter().any(|c| c.at == at) || from.iter().any(|(o, _)| *o == at);
                if !walked {
                    from.extend(self.looked[at].settings.first().map(|s| (at, s.clone())));
                }
            }
        }
        from.into_iter().map(|(at, from)| Task::Walk { at, from, look: Look::Surest }).collect()
    }

    /// Nothing reaches it about what is usual: the same as far as levers are let beyond that, or else why not.
    pub(super) fn wider_or_why(&mut self, ask: &Ask<'_>) {
        self.candidates.clear();
        self.proposals.clear();
        if self.found.does_already() {
            // What does it already needs neither more nor farther.
            return self.begin(Stage::Done, Vec::new());
        }
        if let Some(Demand::TextureAsNow(word)) = self.demands.last() {
            // Nothing keeps the texture: all over again without that.
            self.found.texture_let_go = Some(*word);
            self.demands.pop();
            (self.rounds, self.looked) = (0, Vec::new());
            self.refused.clear();
            let star = self.star();
            return self.begin(Stage::Screen, star);
        }
        if self.beyond == self.wish.moves.beyond {
            if self.seeded {
                return self.begin(Stage::Why, Vec::new());
            }
            let order: Vec<usize> = self.ranked();
            let tasks = blocked::tasks(ask, &order, &self.looked, &self.demands);
            self.begin(Stage::Why, tasks.into_iter().map(Task::Why).collect());
        } else {
            self.beyond = self.wish.moves.beyond;
            // Only what came nearest to all that is wanted, or to one of it, is looked at again.
            let mut again: Vec<usize> = self.ranked().into_iter().take(2 * WALKED).collect();
            for (_, by_own) in blocked::promising(ask, &self.looked, &self.demands) {
                let more: Vec<usize> =
                    by_own.into_iter().take(AGAIN_BY_ONE).filter(|at| !again.contains(at)).collect();
                again.extend(more);
            }
            let again = again.into_iter().map(|at| Task::Look(self.looked[at].combo.clone())).collect();
            self.looked.clear();
            self.refused.clear();
            self.begin(Stage::Beam, again);
        }
    }
}
