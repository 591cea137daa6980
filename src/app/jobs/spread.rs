//! The spread of the design on the bench, and what matters for it.

use std::collections::VecDeque;
use std::sync::Arc;

use super::question::Question;
use super::{At, Job, Key, Step, fault};
use crate::command::{BenchCommand, Command};
use potset_base::{Note, Severity};
use potset_doubt::matters::matters;
use potset_doubt::spread::{FIRST, SEED, Spread, Spreader};
use potset_doubt::surer;
use potset_judge::mends::Mend;
use potset_report::spread::none_made;

/// Pots between two looks at whether something newer is asked: some ten milliseconds on two cores.
const CHUNK: usize = 96;

/// What is left to do.
enum Stage {
    First,
    Pots(Box<Spreader>),
    /// What would bring down the number of pots to be thrown away, still to be tried.
    Surer(Box<Spreader>, VecDeque<Mend>),
    Matters(Box<Spreader>),
}

/// A spread under way.
pub struct SpreadJob {
    question: Question,
    pots: usize,
    stage: Stage,
}

impl SpreadJob {
    /// A spread with nothing worked out.
    pub fn new(question: &Question, pots: usize) -> Self {
        Self { question: question.clone(), pots, stage: Stage::First }
    }

    /// Starts the spread: its first, coarse picture.
    fn first(self) -> Step {
        let mut spreader = match Spreader::new(&self.question.scenario.scenario(), SEED, self.pots) {
            Ok(spreader) => spreader,
            Err(notes) => {
                let note = notes.into_iter().find(|n| n.severity == Severity::Error);
                return Step::done(self.none(note.unwrap_or_else(broken)));
            }
        };
        let more = spreader.more(FIRST);
        match none_made(&spreader.spread()) {
            Some(note) => Step::done(self.none(note)),
            None => self.next(spreader, more, true),
        }
    }

    /// What is to be shown of the spread now, and what is left.
    fn next(self, spreader: Spreader, more: bool, picture: bool) -> Step {
        let spread = (picture || !more).then(|| spreader.spread());
        let mends = spread.as_ref().map(|s| surer::candidates(&self.question.scenario.scenario(), s));
        let result = spread.filter(|_| picture).map(|spread| self.spread(spread));
        let spreader = Box::new(spreader);
        let stage = match more {
            true => Stage::Pots(spreader),
            false => Stage::Surer(spreader, mends.unwrap_or_default().into()),
        };
        Step { result, ..Step::more(Self { stage, ..self }) }
    }

    fn spread(&self, spread: Spread) -> Command {
        BenchCommand::Spread(self.question.number, Arc::new(spread)).into()
    }

    /// Tries the next mend; one that helps is shown with the spread.
    fn surer(mut self, spreader: Box<Spreader>, mut mends: VecDeque<Mend>) -> Step {
        let Some(mend) = mends.pop_front() else {
            // Nothing helped: the card says so in the place of a mend.
            let mut told = spreader.spread();
            told.cautions.iter_mut().for_each(|c| c.tried = true);
            let result = (!told.cautions.is_empty()).then(|| self.spread(told));
            return Step { result, ..Step::more(Self { stage: Stage::Matters(spreader), ..self }) };
        };
        if !surer::helps(&self.question.scenario.scenario(), &mend) {
            self.stage = Stage::Surer(spreader, mends);
            return Step::more(self);
        }
        let mut spread = spreader.spread();
        spread.cautions.iter_mut().for_each(|c| (c.mend, c.tried) = (Some(mend.clone()), true));
        let result = Some(self.spread(spread));
        Step { result, ..Step::more(Self { stage: Stage::Matters(spreader), ..self }) }
    }

    fn none(&self, why: Note) -> Command {
        BenchCommand::NoSpread(self.question.number, why).into()
    }
}

impl Job for SpreadJob {
    fn key(&self) -> Key {
        match self.stage {
            Stage::First => Key::FirstSpread,
            Stage::Pots(_) | Stage::Surer(..) => Key::Spread,
            Stage::Matters(_) => Key::Matters,
        }
    }

    fn step(mut self: Box<Self>, _: &mut At<'_>) -> Step {
        match std::mem::replace(&mut self.stage, Stage::First) {
            Stage::First => self.first(),
            Stage::Pots(mut spreader) => {
                let more = spreader.more(CHUNK);
                self.next(*spreader, more, !more)
            }
            Stage::Surer(spreader, mends) => (*self).surer(spreader, mends),
            Stage::Matters(spreader) => {
                let found = matters(&self.question.scenario.scenario(), &spreader);
                Step::done(BenchCommand::Matters(self.question.number, Arc::new(found)).into())
            }
        }
    }

    fn fault(&self) -> Command {
        match self.stage {
            // The spread itself was sound.
            Stage::Surer(..) | Stage::Matters(_) => {
                BenchCommand::Matters(self.question.number, Arc::default()).into()
            }
            Stage::First | Stage::Pots(_) => self.none(broken()),
        }
    }
}

fn broken() -> Note {
    fault("spread", "It", "Undo the last change")
}
