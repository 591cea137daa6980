//! Aim: what is wanted of the design on the bench, what may move, and what was found.

use std::sync::Arc;

use potset_base::Note;
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_doubt::spread::SEED;
use potset_forecast::lever::{LeverId, levers};
use potset_forecast::scenario::Scenario;
use potset_science::Forecast;
use potset_search::aim::moves::ENTRIES;
use potset_search::aim::{AimAsk, Found, Gives, Moves, Want};

/// What was found, with what the screen needs beside it.
#[derive(Clone, Debug, Default)]
pub struct TargetResult {
    pub found: Found,
    /// Of the design that was asked about.
    pub now: Gives,
    /// Of each proposal; of the nearest setting where nothing reaches it.
    pub forecasts: Vec<Forecast>,
}

impl TargetResult {
    /// Whether a setting was found, or what blocks.
    pub fn something(&self) -> bool {
        let done = self.found.complete && self.found.does_already();
        !self.found.proposals.is_empty() || self.found.blocked.is_some() || done
    }
}

/// What a search was asked about.
#[derive(Clone, Debug)]
pub struct Asked {
    pub design: Arc<Design>,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
    pub ask: AimAsk,
}

/// Wants, moves and answer.
#[derive(Clone, Debug, Default)]
pub struct TargetState {
    pub wants: Vec<Want>,
    /// As it was said, of the design that it was said of.
    pub moves: Moves,
    pub moves_of: Option<Arc<Design>>,
    /// What was typed and could not be read, to be mended where it was typed, and why.
    pub typed: String,
    pub typed_fault: Option<Note>,
    /// Goes up with every question; answers to older ones are dropped.
    pub question: u64,
    pub aimed: Option<Arc<TargetResult>>,
    /// What that is an answer to.
    pub asked: Option<Asked>,
    /// The answer before, while the search has found nothing yet.
    pub former: Option<(Arc<TargetResult>, Asked)>,
    /// Goes up with everything that came of it.
    pub number: u64,
    /// Why it cannot be asked.
    pub fault: Option<Note>,
    /// Nothing is worked out any more: all is found, or it was stopped.
    pub over: bool,
    /// The design, the wants or what may move are not those that were asked about.
    pub outdated: bool,
    /// The setting that was made the design, and that design.
    pub took: Option<(usize, Arc<Design>)>,
    /// That design is on the bench now, and nothing else is otherwise.
    pub taken: Option<usize>,
    /// Proposals are drawn on the bench, as long as they are of the design there.
    pub on_bench: bool,
}

impl TargetState {
    /// What may move of a design: what was said of an entry holds wherever that stands in it.
    pub fn moves_on(&self, design: &Design) -> Moves {
        self.moves_of.as_ref().map_or_else(|| self.moves.clone(), |of| self.moves.carried(of, design))
    }

    /// As a question about a design.
    ///
    /// # Errors
    /// A note where nothing is wanted.
    pub fn ask(&self, design: &Design) -> Result<AimAsk, Note> {
        AimAsk::new(self.wants.clone(), self.moves_on(design), SEED)
    }

    /// Whether a search is under way.
    pub fn busy(&self) -> bool {
        !self.over && self.aimed.as_ref().is_some_and(|a| !a.found.complete)
    }

    /// Why no setting can be taken or shown now; nothing if one can.
    pub fn disabled_reason(&self) -> Option<&'static str> {
        if self.busy() {
            Some("Still looking: this may be replaced")
        } else if !self.has_result() {
            Some("No setting was found yet: find settings in Aim")
        } else if self.taken.is_some() {
            Some("A setting is on the bench already. Undo it, then try another")
        } else if self.outdated {
            Some("The settings are for an earlier design or other goals: find settings again")
        } else {
            None
        }
    }

    /// Why a setting cannot be taken now; the nearest one is the first where nothing reaches it.
    pub fn disabled_take(&self, i: usize) -> Option<&'static str> {
        let found = self.aimed.as_ref().map(|a| &a.found);
        let nearest = |f: &Found| i == 0 && f.blocked.as_ref().is_some_and(|b| b.to_take().is_some());
        let there = found.is_some_and(|f| i < f.proposals.len() || nearest(f));
        self.disabled_reason().or_else(|| (!there).then_some("There is no such setting"))
    }

    /// Why nothing can be drawn on the bench now.
    pub fn disabled_show(&self) -> Option<&'static str> {
        let none = self.aimed.as_ref().is_none_or(|a| a.found.proposals.is_empty());
        self.disabled_reason()
            .or_else(|| none.then_some("Nothing reaches all goals: there is no setting to show"))
    }

    /// Forecasts of the proposals to be drawn on the bench.
    pub fn ghosts(&self) -> Vec<&Forecast> {
        match &self.aimed {
            Some(aimed) if self.on_bench && self.disabled_reason().is_none() => {
                aimed.forecasts.iter().take(aimed.found.proposals.len()).collect()
            }
            _ => Vec::new(),
        }
    }

    /// Whether there is something to be copied.
    pub fn has_result(&self) -> bool {
        self.aimed.as_ref().is_some_and(|a| a.something())
    }

    /// What was found as text: settings and trade-offs, or what blocks.
    pub fn text(&self, learnt: &Learnt) -> Option<String> {
        let (aimed, asked) = self.aimed.as_ref().filter(|a| a.something()).zip(self.asked.as_ref())?;
        let ask = Scenario { design: &asked.design, pantry: &asked.pantry, kitchen: &asked.kitchen, learnt };
        let text = potset_export::aim::text(&ask, &asked.ask, &aimed.now, &aimed.found);
        Some(match self.unfinished() {
            Some(words) => format!("{words}\n{text}"),
            None => text,
        })
    }

    /// Why what was found is no finished answer, if so.
    pub fn unfinished(&self) -> Option<&'static str> {
        let found = &self.aimed.as_ref()?.found;
        match (found.complete, self.over) {
            (true, _) => None,
            (false, false) => Some("Still looking: settings may be replaced"),
            (false, true) if !found.proposals.is_empty() => {
                Some("Stopped early: how often they work was not counted")
            }
            (false, true) if found.blocked.is_some() => Some("Stopped before all was looked at"),
            (false, true) => Some("Stopped before anything was found"),
        }
    }

    /// Gives the search up. Where it has found nothing yet, the answer before stays.
    pub fn give_up(&mut self) {
        let bare = !self.has_result();
        if let Some((aimed, asked)) = self.former.take()
            && bare
        {
            (self.aimed, self.asked) = (Some(aimed), Some(asked));
            self.number += 1;
        }
        self.over = true;
    }

    /// Decides by what they hold whether the answer is of what would be asked now.
    pub fn compare(&mut self, design: &Arc<Design>, pantry: &Arc<Pantry>, kitchen: &Kitchen) {
        let Some(asked) = self.asked.as_ref().filter(|_| self.aimed.is_some()) else {
            (self.outdated, self.taken) = (false, None);
            return;
        };
        let around = (Arc::ptr_eq(pantry, &asked.pantry) || **pantry == *asked.pantry)
            && *kitchen == asked.kitchen
            && same_wants(&self.wants, &asked.ask.wants)
            && same_moves(&self.moves_on(&asked.design), &asked.ask.moves, &asked.design, pantry);
        self.outdated = !(around && same_pot(design, &asked.design));
        let took = self.took.as_ref().filter(|(_, took)| around && same_pot(design, took));
        self.taken = took.map(|(i, _)| *i).filter(|_| self.outdated);
    }
}

/// Whether two designs are of one pot: what they are called and what is written beside them counts for nothing.
fn same_pot(a: &Arc<Design>, b: &Arc<Design>) -> bool {
    let same = || {
        let called =
            Design { name: b.name.clone(), notes: b.notes.clone(), tags: b.tags.clone(), ..(**a).clone() };
        called == **b
    };
    Arc::ptr_eq(a, b) || a == b || same()
}

/// Whether the same is wanted, in whatever order it was said.
fn same_wants(a: &[Want], b: &[Want]) -> bool {
    let same = |a: &Want, b: &Want| match (a, b) {
        (Want::Only(a), Want::Only(b)) => a.len() == b.len() && a.iter().all(|key| b.contains(key)),
        _ => a == b,
    };
    let within = |a: &[Want], b: &[Want]| a.iter().all(|x| b.iter().any(|y| same(x, y)));
    a.len() == b.len() && within(a, b) && within(b, a)
}

/// Whether the same may move as far, in whatever way that was said.
fn same_moves(a: &Moves, b: &Moves, design: &Design, pantry: &Pantry) -> bool {
    let lists = || ENTRIES.into_iter().all(|kind| a.entry(kind) == b.entry(kind));
    // What is held keeps its entry too; for what has none it is the same as not to move.
    let entry = |lever_id: LeverId| lever_id.line().is_none() || a.holds(lever_id) == b.holds(lever_id);
    let same = |lever_id| a.lever(lever_id) == b.lever(lever_id) && entry(lever_id);
    a == b || a.beyond == b.beyond && lists() && levers(design, pantry).iter().all(|l| same(l.lever_id))
}
