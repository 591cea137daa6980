//! The search: all combinations in a few points, the best of them walked to their surest setting, ranked by chance; in slices
//! that can be given up between two of them.

use rayon::prelude::*;

use super::blocked::{self, Blocked};
use super::choices::{Choice, Rules};
use super::make::{Made, make};
use super::moves::AimAsk;
use super::pots::{self, Pots};
use super::proposal::{Count, Proposal, Refused, chosen, propose};
use super::spot::{Look, Setting, Spot, least};
use super::stand::{self, Demand};
use super::want::{Quantity, Want};
use crate::study::ask::Ask;

/// Settings that each combination is first looked at in, and combinations put together of the best picks. Source for all these
/// numbers: assumed; set so that a usual question takes less than two seconds on two cores.
const LOOKED: usize = 6;
const TOP_PICKS: usize = 4;
const BEAM: usize = 36;
/// Combinations that are walked from, and how many of them from a second and third setting too.
const WALKED: usize = 10;
/// Combinations that reach all with half a step to spare, so that no more need to be put together.
const PLENTY: usize = 6;
const SPARE: f64 = 0.5;
const AGAIN: usize = 3;
/// Combinations whose nearest and soonest settings are looked for.
const NEAREST: usize = 2;
/// Settings that are brought to a larger chance, and with how many possible pots; and how many pots are counted in the end.
const POLISHED: usize = 3;
const POTS: usize = 32;
const COUNTED: usize = 200;
/// Proposals.
const MOST: usize = 3;
/// Settings that are worked out as proposals.
const PROPOSED: usize = 6;
/// What another entry must bring in margin to be walked from before the design's own. Source: assumed.
const PER_SWAP: f64 = 0.3;

/// What was found so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// The best first; each holds by the precise forecast.
    pub proposals: Vec<Proposal>,
    /// Why there is none.
    pub blocked: Option<Blocked>,
    /// What is being done, and how much of it all is done, 0 to 1.
    pub doing: &'static str,
    pub share: f64,
    pub complete: bool,
}

/// The parts of a search, one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Stage {
    Start,
    Screen,
    Beam,
    Walk,
    Near,
    Sketch,
    Polish,
    Count,
    Why,
    Without,
    Done,
}

impl Stage {
    const fn words(self) -> &'static str {
        match self {
            Self::Start | Self::Screen => "looking at what could be otherwise",
            Self::Beam => "putting the best together",
            Self::Walk | Self::Near => "turning levers",
            Self::Sketch | Self::Polish => "making it surer",
            Self::Count => "counting possible pots",
            Self::Why | Self::Without => "finding what blocks",
            Self::Done => "done",
        }
    }

    /// Share of the whole that is done when a stage begins. Source: measured on the demo designs, roughly.
    const fn begins(self) -> f64 {
        match self {
            Self::Start | Self::Screen => 0.0,
            Self::Beam => 0.15,
            Self::Walk => 0.25,
            Self::Near => 0.45,
            Self::Sketch => 0.55,
            Self::Polish | Self::Why => 0.6,
            Self::Count | Self::Without => 0.85,
            Self::Done => 1.0,
        }
    }
}

/// A combination that was looked at, with its settings, the best first.
#[derive(Clone, Debug)]
pub(super) struct Looked {
    pub combo: Vec<usize>,
    pub made: Made,
    pub settings: Vec<Setting>,
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
    Look(Vec<usize>),
    Walk { at: usize, from: Setting, look: Look },
    Polish(Candidate),
    Propose { candidate: Candidate, sketch: bool },
    Why(blocked::Task),
}

/// What comes of one.
enum Answered {
    Looked(Option<Looked>),
    Walked(Candidate),
    Proposed(Result<Proposal, Refused>),
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
    wide: bool,
    tasks: Vec<Task>,
    done: usize,
    looked: Vec<Looked>,
    candidates: Vec<Candidate>,
    proposals: Vec<Proposal>,
    refused: Vec<Refused>,
    tried: Vec<blocked::Tried>,
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
            wide: false,
            tasks: Vec::new(),
            done: 0,
            looked: Vec::new(),
            candidates: Vec::new(),
            proposals: Vec::new(),
            refused: Vec::new(),
            tried: Vec::new(),
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
        #[allow(clippy::cast_precision_loss, reason = "some dozen tasks")]
        let part = if self.tasks.is_empty() { 0.0 } else { self.done as f64 / self.tasks.len() as f64 };
        let from = self.stage.begins();
        let to = match self.stage {
            Stage::Start | Stage::Screen => Stage::Beam,
            Stage::Beam => Stage::Walk,
            Stage::Walk => Stage::Near,
            Stage::Near => Stage::Sketch,
            Stage::Sketch => Stage::Polish,
            Stage::Polish => Stage::Count,
            _ => Stage::Done,
        };
        // Looking wider starts over; what is shown does not go back.
        self.found.share = self.found.share.max(from + part * (to.begins() - from));
    }

    fn spot<'a>(&'a self, ask: &'a Ask<'a>, at: usize) -> Option<Spot<'a>> {
        self.looked.get(at).map(|l| Spot { ask, made: &l.made, demands: &self.demands })
    }

    fn work(&self, ask: &Ask<'_>, task: &Task) -> Answered {
        let missed = Answered::Proposed(Err(Refused::Missed));
        match task {
            Task::Look(combo) => Answered::Looked(self.look(ask, combo)),
            Task::Walk { at, from, look } => {
                let setting = self.spot(ask, *at).map_or_else(|| from.clone(), |s| s.searched(from, *look));
                Answered::Walked(Candidate { at: *at, setting, look: *look })
            }
            Task::Polish(candidate) => {
                let surer = |s: Spot<'_>| s.surer(&candidate.setting, self.pots, (self.wish.seed, POTS));
                let setting = self.spot(ask, candidate.at).map_or_else(|| candidate.setting.clone(), surer);
                Answered::Walked(Candidate { setting, ..candidate.clone() })
            }
            Task::Propose { candidate, sketch } => {
                let Some(spot) = self.spot(ask, candidate.at) else { return missed };
                let pots = if *sketch { pots::likely } else { self.pots };
                let count = Count { pots, seed: self.wish.seed, n: COUNTED };
                let combo = &self.looked[candidate.at].combo;
                Answered::Proposed(propose(&spot, combo, &candidate.setting, count))
            }
            Task::Why(task) => Answered::Why(blocked::work(ask, &self.looked, &self.demands, task)),
        }
    }

    fn look(&self, ask: &Ask<'_>, combo: &[usize]) -> Option<Looked> {
        let made = make(ask, &self.wish, &self.choices, combo, self.wide)?;
        let spot = Spot { ask, made: &made, demands: &self.demands };
        let settings = spot.screened(self.wish.seed, LOOKED);
        Some(Looked { combo: combo.to_vec(), settings, made })
    }

    fn take(&mut self, answer: Answered) {
        match answer {
            Answered::Looked(looked) => self.looked.extend(looked),
            Answered::Walked(candidate) => {
                if let Some(looked) = self.looked.get_mut(candidate.at) {
                    looked.settings.push(candidate.setting.clone());
                    looked.settings.sort_by(|a, b| b.least.total_cmp(&a.least));
                }
                self.candidates.push(candidate);
            }
            Answered::Proposed(Ok(proposal)) => self.proposals.push(proposal),
            Answered::Proposed(Err(refused)) => self.refused.push(refused),
            Answered::Why(tried) => self.tried.push(tried),
        }
    }

    fn begin(&mut self, stage: Stage, tasks: Vec<Task>) {
        (self.stage, self.tasks, self.done) = (stage, tasks, 0);
    }

    /// What can be otherwise: or the rule that leaves nothing.
    fn start(&mut self, ask: &Ask<'_>) {
        if let Some(blocked) = self.costless(ask) {
            self.found.blocked = Some(blocked);
            return self.begin(Stage::Done, Vec::new());
        }
        match Rules::of(ask, &self.wish).choices() {
            Ok(choices) => {
                self.choices = choices;
                let star = self.star();
                self.begin(Stage::Screen, star);
            }
            Err(ruled) => {
                let mut wish = self.wish.clone();
                wish.wants.retain(|w| *w != ruled.rule);
                self.found.blocked = Some(Blocked::by_rule(ruled));
                // Without wants there is nothing to be reached.
                if wish.wants.is_empty() {
                    return self.begin(Stage::Done, Vec::new());
                }
                self.without = Some(Box::new(Self::with_pots(wish, self.pots)));
                self.begin(Stage::Without, Vec::new());
            }
        }
    }

    /// A cost cannot be met where what is in the pot has no price.
    fn costless(&self, ask: &Ask<'_>) -> Option<Blocked> {
        let costs = |w: &Want| matches!(w, Want::Within(Quantity::Cost, _));
        let want = self.wish.wants.iter().find(|w| costs(w))?;
        let run = ask.run_coarse(0.0).ok()?;
        let serving_g = ask.design.pots.serving_g;
        let table =
            crate::study::nutrition::nutrition(&run.facts.content, &run.mix, &run.forecast, serving_g);
        (!table.cost.whole()).then(|| Blocked::no_price(want, &table.cost.missing))
    }

    fn next_without(&mut self, ask: &Ask<'_>, n: usize) {
        let Some(inner) = self.without.as_mut() else { return self.begin(Stage::Done, Vec::new()) };
        if !inner.next(ask, n) {
            let found = inner.found.clone();
            if let Some(blocked) = &mut self.found.blocked {
                blocked.reach_without(found);
            }
            self.without = None;
            self.begin(Stage::Done, Vec::new());
        }
    }

    /// Every pick alone, all else as likely as can be.
    fn star(&self) -> Vec<Task> {
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

    /// The best picks of each choice put together, where single ones do not reach far enough.
    fn beam(&self) -> Vec<Task> {
        let reach = |l: &&Looked| l.settings.first().is_some_and(|s| s.least >= SPARE);
        if self.looked.iter().filter(reach).count() >= PLENTY {
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
    fn ranked(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.looked.len()).collect();
        order.sort_by(|a, b| self.looked[*b].rank().total_cmp(&self.looked[*a].rank()));
        order
    }

    fn walks(&self) -> Vec<Task> {
        let mut all = Vec::new();
        // The design's own entries are always walked from.
        let mut order = self.ranked();
        order.sort_by_key(|at| self.looked[*at].made.swaps > 0);
        for (place, at) in order.into_iter().take(WALKED).enumerate() {
            let starts = if place < AGAIN || self.wide { AGAIN } else { 1 };
            for from in self.looked[at].settings.iter().take(starts) {
                all.push(Task::Walk { at, from: from.clone(), look: Look::Surest });
            }
        }
        all
    }

    /// The best setting found of each combination that reaches all: the design's own first, then the most promising.
    fn reached(&self) -> Vec<Candidate> {
        let mut order = self.ranked();
        order.sort_by_key(|at| self.looked[*at].made.swaps > 0);
        let best = order.into_iter().filter_map(|at| {
            let of = self.candidates.iter().filter(|c| c.at == at && c.look == Look::Surest);
            of.max_by(|a, b| a.setting.least.total_cmp(&b.setting.least)).cloned()
        });
        best.filter(|c| c.setting.least >= 0.0).collect()
    }

    fn nears(&self) -> Vec<Task> {
        let walk = |c: &Candidate, look| Task::Walk { at: c.at, from: c.setting.clone(), look };
        let reached = self.reached();
        let first = reached.iter().take(NEAREST);
        first.flat_map(|c| [walk(c, Look::Nearest), walk(c, Look::Soonest)]).collect()
    }

    /// Settings to be worked out as proposals: each once, the surest first.
    fn proposed(&self, most: usize) -> Vec<Candidate> {
        let mut all: Vec<Candidate> = Vec::new();
        let mut add = |c: &Candidate| {
            let there = all.iter().any(|o| o.at == c.at && o.setting.values == c.setting.values);
            if c.setting.least >= 0.0 && !there {
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

    fn propose(&self, most: usize, sketch: bool) -> Vec<Task> {
        self.proposed(most).into_iter().map(|candidate| Task::Propose { candidate, sketch }).collect()
    }

    /// A stage is over: what comes of it, and what comes next.
    fn advance(&mut self, ask: &Ask<'_>) {
        match self.stage {
            Stage::Screen => {
                let beam = self.beam();
                self.begin(Stage::Beam, beam);
            }
            Stage::Beam => {
                let walks = self.walks();
                self.begin(Stage::Walk, walks);
            }
            Stage::Walk if self.reached().is_empty() => self.wider_or_why(),
            Stage::Walk => {
                let nears = self.nears();
                self.begin(Stage::Near, nears);
            }
            Stage::Near => {
                let sketch = self.propose(MOST, true);
                self.begin(Stage::Sketch, sketch);
            }
            Stage::Sketch => {
                self.found.proposals = chosen(&std::mem::take(&mut self.proposals), MOST);
                self.refused.clear();
                let polish: Vec<Candidate> = self.reached().into_iter().take(POLISHED).collect();
                // What is polished takes the place of what it came from.
                self.candidates.retain(|c| c.look != Look::Surest || polish.iter().all(|p| p.at != c.at));
                self.begin(Stage::Polish, polish.into_iter().map(Task::Polish).collect());
            }
            Stage::Polish => {
                let tasks = self.propose(PROPOSED, false);
                self.begin(Stage::Count, tasks);
            }
            Stage::Count => {
                self.found.proposals = chosen(&self.proposals, MOST);
                if self.found.proposals.is_empty() {
                    self.wider_or_why();
                } else {
                    self.begin(Stage::Done, Vec::new());
                }
            }
            Stage::Why => {
                let why = blocked::told(
                    ask,
                    &self.looked,
                    &self.demands,
                    &self.tried,
                    &self.refused,
                    self.wish.seed,
                );
                self.found.blocked = Some(why);
                self.begin(Stage::Done, Vec::new());
            }
            Stage::Start | Stage::Without | Stage::Done => self.stage = Stage::Done,
        }
    }

    /// Nothing reaches it about what is usual: the same as far as the levers go at all, or else why not.
    fn wider_or_why(&mut self) {
        self.candidates.clear();
        self.proposals.clear();
        if self.wide {
            let order: Vec<usize> = self.ranked();
            let tasks =
                blocked::tasks(&order, &self.looked, &self.demands).into_iter().map(Task::Why).collect();
            self.begin(Stage::Why, tasks);
        } else {
            self.wide = true;
            // Only what came nearest is looked at again.
            let again: Vec<Task> = self
                .ranked()
                .into_iter()
                .take(2 * WALKED)
                .map(|at| Task::Look(self.looked[at].combo.clone()))
                .collect();
            self.looked.clear();
            self.refused.clear();
            self.begin(Stage::Beam, again);
        }
    }
}

/// The least margin of the best setting of all.
pub(super) fn nearest(looked: &[Looked]) -> Option<(usize, &Setting)> {
    let all = looked.iter().enumerate().filter_map(|(at, l)| Some((at, l.settings.first()?)));
    all.max_by(|a, b| least(&[a.1.least]).total_cmp(&b.1.least))
}
