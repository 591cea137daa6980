//! The search: all combinations in a few settings, the best of them walked to their surest setting, ranked by chance; in slices
//! that can be given up between two of them.
//!
//! Source: published in its parts. Few settings that fill the space evenly: McKay, Beckman and Conover 1979; pattern search with
//! neighbours among what can only be one thing or another: Audet and Dennis 2001, "Pattern search algorithms for mixed variable
//! programming"; only the most promising are walked from.

mod advance;
mod jobs;
mod plan;
mod trim;
mod why;

use rayon::prelude::*;

use super::choices::Choice;
use super::discard::Discard;
use super::found::Found;
use super::make::CandidateDesign;
use super::moves::{AimAsk, Beyond};
use super::problem::{Objective, rank};
use super::proposal::Proposal;
use super::stage::Stage;
use super::stand::Demand;
use potset_doubt::kept::{self, Chance, Pots};
use potset_forecast::scenario::Scenario;
use potset_numerics::pattern::Setting;

/// A combination that was looked at, with its settings, the best first.
#[derive(Clone, Debug)]
struct Looked {
    combo: Vec<usize>,
    made: CandidateDesign,
    settings: Vec<Setting>,
    /// It was walked from.
    walked: bool,
}

/// A setting that was walked to.
#[derive(Clone, Debug)]
struct Walked {
    at: usize,
    setting: Setting,
    objective: Objective,
}

/// One piece of work.
#[derive(Clone, Debug)]
enum Job {
    AsIs,
    Look(Vec<usize>),
    /// From a setting to another one.
    Walk(Walked),
    Propose(Walked),
    Trim(Box<Proposal>),
}

/// What comes of one.
enum Answer {
    AsIs(Option<Chance>),
    Looked(Option<Box<Looked>>),
    Walked(Walked),
    Proposed(Box<Result<Proposal, Option<Discard>>>),
}

/// A search that is being worked out.
#[derive(Clone, Debug)]
pub struct TargetSearch {
    wish: AimAsk,
    pots: Pots,
    demands: Vec<Demand>,
    choices: Vec<Choice>,
    stage: Stage,
    /// How often what is one change off the best was looked at.
    rounds: usize,
    /// How far levers may be turned now.
    beyond: Beyond,
    jobs: Vec<Job>,
    done: usize,
    looked: Vec<Looked>,
    walked: Vec<Walked>,
    proposals: Vec<Proposal>,
    /// Proposals that were counted, but were not among the best.
    spare: Vec<Proposal>,
    /// Why settings would have to be thrown away.
    refused: Vec<Discard>,
    /// What was tried for single demands was walked from.
    seeded: bool,
    /// The same question without the rule that blocks it.
    without: Option<Box<Self>>,
    found: Found,
}

impl TargetSearch {
    /// A search with nothing worked out yet.
    pub fn new(wish: AimAsk) -> Self {
        Self::with_pots(wish, kept::possible)
    }

    /// The same with possible pots of the caller's.
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
            jobs: Vec::new(),
            done: 0,
            looked: Vec::new(),
            walked: Vec::new(),
            proposals: Vec::new(),
            spare: Vec::new(),
            refused: Vec::new(),
            seeded: false,
            without: None,
            found: Found::default(),
        }
    }

    /// What was found so far.
    pub const fn found(&self) -> &Found {
        &self.found
    }

    /// What was found, to keep.
    pub fn into_found(self) -> Found {
        self.found
    }

    /// Does the next `n` pieces of work; whether there are more. The same in slices of any size, on any number of threads.
    ///
    /// - `ask` — the design that is asked about, the same at each call.
    pub fn next(&mut self, ask: &Scenario<'_>, n: usize) -> bool {
        match self.stage {
            Stage::Done => return false,
            Stage::Start => self.start(ask),
            Stage::Without => self.next_without(ask, n),
            _ => {
                let end = self.jobs.len().min(self.done + n.max(1));
                let this = &*self;
                let now = &this.jobs[this.done..end];
                let answers: Vec<Answer> = now.par_iter().map(|job| this.work(ask, job)).collect();
                for answer in answers {
                    self.take(answer);
                }
                self.done = end;
                // A stage may have nothing to do.
                while self.done == self.jobs.len() && !matches!(self.stage, Stage::Done | Stage::Without) {
                    self.advance(ask);
                }
            }
        }
        self.tell();
        self.stage != Stage::Done
    }

    fn tell(&mut self) {
        let (from, to) = self.stage.shares();
        self.found.stage = self.stage;
        self.found.complete = self.stage == Stage::Done;
        if self.looked.iter().any(|l| l.made.turns.iter().any(|t| t.widened)) {
            self.found.beyond = Some(self.beyond);
        }
        let part = if self.jobs.is_empty() { 0.0 } else { self.done as f64 / self.jobs.len() as f64 };
        // Looking wider starts over; what is shown does not go back.
        self.found.share = self.found.share.max(from + part * (to - from));
    }

    fn take(&mut self, answer: Answer) {
        match answer {
            Answer::AsIs(chance) => {
                if let Some(own) = &mut self.found.as_is {
                    own.take(chance, &self.demands);
                }
            }
            Answer::Looked(looked) => self.looked.extend(looked.map(|l| *l)),
            Answer::Walked(walked) => {
                let there = &mut self.looked[walked.at];
                there.walked = true;
                there.settings.push(walked.setting.clone());
                there.settings.sort_by(|a, b| rank(b).total_cmp(&rank(a)));
                self.walked.push(walked);
            }
            Answer::Proposed(proposed) => match *proposed {
                Ok(proposal) => self.proposals.push(proposal),
                Err(discard) => self.refused.extend(discard),
            },
        }
    }

    fn begin(&mut self, stage: Stage, jobs: Vec<Job>) {
        (self.stage, self.jobs, self.done) = (stage, jobs, 0);
    }
}
