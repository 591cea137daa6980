//! Work for the spread of the design on the bench, and for what matters.

use std::panic::{self, AssertUnwindSafe};
use std::sync::Arc;

use super::outcome::{Outcome, Question};
use potset_base::{Note, Severity};
use potset_doubt::matters::matters;
use potset_doubt::spread::{FIRST, SEED, Spreader};
use potset_forecast::scenario::Ask;

/// Pots between two looks at whether something newer is asked: some ten milliseconds on two cores.
const CHUNK: usize = 96;

/// What is left to do.
enum Stage {
    Start,
    Pots(Box<Spreader>),
    Matters(Box<Spreader>),
}

/// A spread under way. It is dropped as soon as the design is another one.
pub struct Spreading {
    question: Question,
    pots: usize,
    stage: Stage,
}

impl Spreading {
    /// A spread with nothing worked out, if the question asks for one.
    #[must_use]
    pub fn of(question: &Question) -> Option<Self> {
        Some(Self { question: question.clone(), pots: question.pots?, stage: Stage::Start })
    }

    /// Whether there is nothing of it to be shown yet.
    #[must_use]
    pub const fn fresh(&self) -> bool {
        matches!(self.stage, Stage::Start)
    }

    /// Does the next piece: what there is to be shown now, and what is left. A panic ends it, and that is told.
    #[must_use]
    pub fn more(self) -> (Option<Outcome>, Option<Self>) {
        let number = self.question.number;
        let none = match self.stage {
            // The spread itself was sound.
            Stage::Matters(_) => (Some(Outcome::Matters(number, Arc::default())), None),
            Stage::Start | Stage::Pots(_) => (Some(Outcome::NoSpread(number, fault())), None),
        };
        panic::catch_unwind(AssertUnwindSafe(|| self.step())).unwrap_or(none)
    }

    fn step(self) -> (Option<Outcome>, Option<Self>) {
        let Self { question, pots, stage } = self;
        let number = question.number;
        let told = |spreader: &Spreader| Some(Outcome::Spread(number, Arc::new(spreader.spread())));
        match stage {
            Stage::Start => {
                let made = Spreader::new(&asked(&question), SEED, pots);
                let mut spreader = match made {
                    Ok(spreader) => spreader,
                    Err(notes) => {
                        let note = notes.into_iter().find(|n| n.severity == Severity::Error);
                        return (Some(Outcome::NoSpread(number, note.unwrap_or_else(fault))), None);
                    }
                };
                let more = spreader.more(FIRST);
                let first = spreader.spread();
                if let Some(note) = first.none_made() {
                    return (Some(Outcome::NoSpread(number, note)), None);
                }
                let outcome = Some(Outcome::Spread(number, Arc::new(first)));
                let stage = stage_of(spreader, more);
                (outcome, Some(Self { question, pots, stage }))
            }
            Stage::Pots(mut spreader) => {
                let more = spreader.more(CHUNK);
                let outcome = if more { None } else { told(&spreader) };
                let stage = stage_of(*spreader, more);
                (outcome, Some(Self { question, pots, stage }))
            }
            Stage::Matters(spreader) => {
                let found = matters(&asked(&question), &spreader);
                (Some(Outcome::Matters(number, Arc::new(found))), None)
            }
        }
    }
}

fn fault() -> Note {
    Note::error(
        "spread",
        "It ended in a fault of the program",
        "Undo the last change, and send the design to the makers of the program",
    )
}

fn stage_of(spreader: Spreader, more: bool) -> Stage {
    if more { Stage::Pots(Box::new(spreader)) } else { Stage::Matters(Box::new(spreader)) }
}

fn asked(q: &Question) -> Ask<'_> {
    Ask { design: &q.design, pantry: &q.pantry, kitchen: &q.kitchen, learnt: &q.learnt }
}

/// A whole spread here and now, and what matters if asked: for pictures and tests.
#[must_use]
pub fn whole(question: &Question, with_matters: bool) -> Vec<Outcome> {
    let mut out = Vec::new();
    let mut left = Spreading::of(question);
    while let Some(spreading) = left {
        if matches!(spreading.stage, Stage::Matters(_)) && !with_matters {
            break;
        }
        let (outcome, more) = spreading.more();
        out.extend(outcome);
        left = more;
    }
    out
}
