//! The search: all combinations in a few points, the best of them walked to their surest setting, ranked by chance; in slices
//! that can be given up between two of them.

mod begin;
mod found;
mod plan;
mod stage;
mod trim;
mod work;

use rayon::prelude::*;

pub use self::found::Found;
use self::stage::Stage;
use super::as_is::AsIs;
use super::blocked;
use super::choices::Choice;
use super::make::Made;
use super::moves::{AimAsk, Beyond};
use super::pots::{self, Chance, Draw, Pots};
use super::proposal::{Count, Proposal, Refused, chosen};
use super::spot::{Look, Setting};
use super::stand::{self, Demand, least};
use crate::study::ask::Ask;

/// Settings that each combination is first looked at in. Source for all these numbers: assumed; set so that a usual question takes
/// less than two seconds on two cores.
const LOOKED: usize = 6;
/// How often what is one change off the best combinations is looked at, where they do not reach far enough.
const ROUNDS: usize = 2;
/// Combinations that are walked from.
const WALKED: usize = 10;
/// Settings that are brought to a larger chance, and with how many possible pots; and how many pots are counted in the end.
const POLISHED: usize = 3;
const POTS: usize = 32;
const COUNTED: usize = 200;
/// Proposals, and settings that are worked out as such.
const MOST: usize = 3;
const PROPOSED: usize = 5;
/// What another entry must bring in margin to be walked from before the design's own.
const PER_SWAP: f64 = 0.3;

/// A combination that was looked at, with its settings, the best first.
#[derive(Clone, Debug)]
pub(super) struct Looked {
    pub combo: Vec<usize>,
    pub made: Made,
    pub settings: Vec<Setting>,
    /// It was brought a few steps up.
    lifted: bool,
}

impl Looked {
    /// What it is walked from by: its best margin, less for what is not the design's own.
    fn rank(&self) -> f64 {
        #[allow(clippy::cast_precision_loss, reason = "a few swaps")]
        let swaps = self.made.swaps as f64;
        self.settings.first().map_or(stand::UNKNOWN, |s| s.least.min(2.0)) - PER_SWAP * swaps
    }
}

/// A setting of one of the combinations.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    pub at: usize,
    pub setting: Setting,
    look: Look,
}

/// One piece of work.
#[derive(Clone, Debug)]
enum Task {
    AsIs,
    Look(Vec<usize>),
    Lift(usize),
    Walk { at: usize, from: Setting, look: Look },
    Polish(Candidate),
    Propose { candidate: Candidate, sketch: bool },
    Trim(Box<Proposal>),
    Why(blocked::Task),
}

/// What comes of one.
enum Answered {
    AsIs(Option<Chance>),
    Looked(Option<Box<Looked>>),
    Lifted(usize, Setting),
    Walked(Candidate),
    Proposed(Box<Result<Proposal, Refused>>),
    Why(blocked::Tried),
}

/// A search that is being worked out.
#[derive(Clone, Debug)]
pub struct Aimer {
    wish: AimAsk,
    pots: Pots,
    demands: Vec<Demand>,
    choices: Vec<Choice>,
    stage: Stage,
    /// How often what is one change off the best was looked at.
    rounds: usize,
    /// How far levers may be turned now.
    beyond: Beyond,
    tasks: Vec<Task>,
    done: usize,
    looked: Vec<Looked>,
    candidates: Vec<Candidate>,
    proposals: Vec<Proposal>,
    /// Proposals that were counted, but were not among the best.
    spare: Vec<Proposal>,
    refused: Vec<Refused>,
    tried: Vec<blocked::Tried>,
    /// What was tried for single demands was walked from.
    seeded: bool,
    /// The same question without the rule that blocks it.
    without: Option<Box<Self>>,
    found: Found,
}

impl Aimer {
    /// A search with nothing worked out yet.
    #[must_use]
    pub fn new(wish: AimAsk) -> Self {
        Self::with_pots(wish, pots::possible)
    }

    /// The same with possible pots of the caller's.
    #[must_use]
    pub fn with_pots(wish: AimAsk, pots: Pots) -> Self {
        let wants = wish.wants.iter().cloned().map(Demand::Want);
        let demands = wants.chain([Demand::Done, Demand::InTime]).collect();
        Self {
            wish,
            pots,
            demands,
            choices: Vec::new(),
            stage: Stage::Start,
            rounds: 0,
            beyond: Beyond::Never,
            tasks: Vec::new(),
            done: 0,
            looked: Vec::new(),
            candidates: Vec::new(),
            proposals: Vec::new(),
            spare: Vec::new(),
            refused: Vec::new(),
            tried: Vec::new(),
            seeded: false,
            without: None,
            found: Found { doing: Stage::Start.words(), ..Found::default() },
        }
    }

    /// What was found so far.
    #[must_use]
    pub const fn found(&self) -> &Found {
        &self.found
    }

    /// What was found, to keep.
    #[must_use]
    pub fn into_found(self) -> Found {
        self.found
    }

    /// Does the next `n` pieces of work; whether there are more. The same in slices of any size, on any number of threads.
    ///
    /// - `ask` — the design that is asked about, the same at each call.
    pub fn next(&mut self, ask: &Ask<'_>, n: usize) -> bool {
        match self.stage {
            Stage::Done => return false,
            Stage::Start => self.start(ask),
            Stage::Without => self.next_without(ask, n),
            _ => {
                let end = self.tasks.len().min(self.done + n.max(1));
                let this = &*self;
                let now = &this.tasks[this.done..end];
                let answers: Vec<Answered> = now.par_iter().map(|task| this.work(ask, task)).collect();
                for answer in answers {
                    self.take(answer);
                }
                self.done = end;
                // A stage may have nothing to do.
                while self.done == self.tasks.len() && !matches!(self.stage, Stage::Done | Stage::Without) {
                    self.advance(ask);
                }
            }
        }
        self.tell();
        self.stage != Stage::Done
    }

    fn tell(&mut self) {
        self.found.doing = self.stage.words();
        self.found.complete = self.stage == Stage::Done;
        if self.looked.iter().any(|l| l.made.turns.iter().any(|t| t.widened)) {
            self.found.beyond = self.beyond;
        }
        #[allow(clippy::cast_precision_loss, reason = "some dozen tasks")]
        let part = if self.tasks.is_empty() { 0.0 } else { self.done as f64 / self.tasks.len() as f64 };
        let (from, to) = (self.stage.begins(), self.stage.next().begins());
        // Looking wider starts over; what is shown does not go back.
        self.found.share = self.found.share.max(from + part * (to - from));
    }

    fn take(&mut self, answer: Answered) {
        match answer {
            Answered::AsIs(chance) => {
                if let Some(own) = &mut self.found.as_is {
                    own.take(chance, &self.demands);
                }
            }
            Answered::Looked(looked) => self.looked.extend(looked.map(|l| *l)),
            Answered::Lifted(at, setting) => {
                self.looked[at].lifted = true;
                self.add(at, setting);
            }
            Answered::Walked(candidate) => {
                self.add(candidate.at, candidate.setting.clone());
                self.candidates.push(candidate);
            }
            Answered::Proposed(proposed) => match *proposed {
                Ok(proposal) => self.proposals.push(proposal),
                Err(refused) => self.refused.push(refused),
            },
            Answered::Why(tried) => self.tried.push(tried),
        }
    }

    /// Another setting of a combination.
    fn add(&mut self, at: usize, setting: Setting) {
        if let Some(looked) = self.looked.get_mut(at) {
            looked.settings.push(setting);
            looked.settings.sort_by(|a, b| b.least.total_cmp(&a.least));
        }
    }

    fn begin(&mut self, stage: Stage, tasks: Vec<Task>) {
        (self.stage, self.tasks, self.done) = (stage, tasks, 0);
    }

    /// A stage is over: what comes of it, and what comes next.
    fn advance(&mut self, ask: &Ask<'_>) {
        match self.stage {
            Stage::Screen => {
                let beam = self.beam();
                self.begin(Stage::Beam, beam);
            }
            Stage::Beam => {
                let lifts = self.lifts(ask);
                self.begin(Stage::Lift, lifts);
            }
            Stage::Lift if self.rounds < ROUNDS && !self.plenty() => {
                self.rounds += 1;
                let around = self.around();
                self.begin(Stage::Beam, around);
            }
            Stage::Lift => {
                let walks = self.walks();
                self.begin(Stage::Walk, walks);
            }
            Stage::Walk if self.reached().is_empty() => self.wider_or_why(ask),
            Stage::Walk => {
                let nears = self.nears();
                self.begin(Stage::Near, nears);
            }
            Stage::Near => {
                // Where the design does it already, only what is counted can be shown.
                let most = if self.found.does_already() { 0 } else { MOST };
                let sketch = self.propose(most, true);
                self.begin(Stage::Sketch, sketch);
            }
            Stage::Sketch => {
                self.found.proposals = chosen(&std::mem::take(&mut self.proposals), MOST);
                self.refused.clear();
                let polish: Vec<Candidate> = self.reached().into_iter().take(POLISHED).collect();
                // What is polished takes the place of what it came from.
                self.candidates.retain(|c| c.look != Look::Surest || polish.iter().all(|p| p.at != c.at));
                let own = self.own(ask);
                self.begin(Stage::Polish, polish.into_iter().chain(own).map(Task::Polish).collect());
            }
            Stage::Polish => {
                let mut tasks = self.propose(PROPOSED, false);
                let counted = self.found.as_is.as_ref().is_none_or(|own| own.chance.is_some());
                tasks.extend((!counted).then_some(Task::AsIs));
                self.begin(Stage::Count, tasks);
            }
            Stage::Count => {
                self.proposals.retain(|p| worth(self.found.as_is.as_ref(), p));
                self.found.proposals = chosen(&self.proposals, MOST);
                if self.found.proposals.is_empty() {
                    self.wider_or_why(ask);
                } else {
                    self.spare = std::mem::take(&mut self.proposals);
                    self.spare.retain(|p| self.found.proposals.iter().all(|shown| shown.design != p.design));
                    let trim = self.found.proposals.iter().cloned().map(|p| Task::Trim(Box::new(p)));
                    self.begin(Stage::Trim, trim.collect());
                }
            }
            Stage::Trim => {
                self.found.proposals = chosen(&self.proposals, MOST);
                // Two that only differed in what helped nothing are one now: another may stand in its place.
                let others = std::mem::take(&mut self.spare);
                let next = if self.found.proposals.len() < MOST { others } else { Vec::new() };
                let trim = next.into_iter().map(|p| Task::Trim(Box::new(p)));
                self.begin(Stage::Trim, trim.collect());
                if self.tasks.is_empty() {
                    self.begin(Stage::Done, Vec::new());
                }
            }
            Stage::Why if !self.seeded => {
                let seeds = self.seeds(ask);
                self.begin(Stage::Seed, seeds);
            }
            Stage::Seed if self.reached().is_empty() => self.begin(Stage::Why, Vec::new()),
            Stage::Seed => {
                let nears = self.nears();
                self.begin(Stage::Near, nears);
            }
            Stage::Why => {
                let mut why = blocked::told(
                    ask,
                    &self.looked,
                    &self.demands,
                    &self.tried,
                    &self.refused,
                    Count { draw: Draw::new(self.wish.seed, 1), ..self.count(pots::likely) },
                    |nearest| self.nearest_trimmed(ask, nearest),
                );
                if self.wish.moves.beyond != Beyond::Far {
                    why.mend.push_str(". Or allow unusual amounts");
                }
                self.found.blocked = Some(why);
                self.begin(Stage::Done, Vec::new());
            }
            Stage::Start | Stage::Without | Stage::Done => self.stage = Stage::Done,
        }
    }
}

/// Whether a proposal is worth a change: where the design does it already, only what is clearly surer.
fn worth(own: Option<&AsIs>, proposal: &Proposal) -> bool {
    let surer = |own: &AsIs| own.chance.as_ref().is_some_and(|chance| proposal.chance.clearly_above(chance));
    proposal.changes() > 0 && own.is_none_or(|own| !own.does() || surer(own))
}

/// The least margin of the best setting of all.
pub(super) fn nearest(looked: &[Looked]) -> Option<(usize, &Setting)> {
    let all = looked.iter().enumerate().filter_map(|(at, l)| Some((at, l.settings.first()?)));
    all.max_by(|a, b| least(&[a.1.least]).total_cmp(&b.1.least))
}
