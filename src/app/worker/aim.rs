//! Work for Aim: a search in slices, a picture of it now and then.

use std::panic::{self, AssertUnwindSafe};
use std::sync::Arc;

use super::aside::AsideQuestion;
use super::outcome::Outcome;
use crate::aims::Aimed;
use potset_base::Note;
use potset_forecast::scenario::Ask;
use potset_science::Forecast;
use potset_search::aim::{AimAsk, Aimer, Gives, Want};

/// Pieces of work between two looks at whether something else is asked: one for each of two cores.
const SLICE: usize = 2;

/// Share of the whole between two pictures.
const PICTURE: f64 = 0.04;

/// A question to Aim.
#[derive(Clone, Debug)]
pub struct AimQuestion {
    pub of: AsideQuestion,
    pub ask: AimAsk,
}

/// A search under way.
pub struct Aiming {
    of: AsideQuestion,
    aimer: Aimer,
    wants: Vec<Want>,
    now: Option<Gives>,
    pictured: f64,
    shown: usize,
}

impl Aiming {
    /// A search with nothing worked out.
    #[must_use]
    pub fn new(question: AimQuestion) -> Self {
        let AimQuestion { of, ask } = question;
        Self { of, wants: ask.wants.clone(), aimer: Aimer::new(ask), now: None, pictured: -1.0, shown: 0 }
    }

    /// Does some more: what there is to be shown now, and whether there is more. A panic ends it and is told.
    pub fn more(&mut self) -> (Option<Outcome>, bool) {
        let number = self.of.number;
        match panic::catch_unwind(AssertUnwindSafe(|| self.step())) {
            Ok(done) => done,
            Err(_) => (Some(Outcome::AimFailed(number, fault())), false),
        }
    }

    fn step(&mut self) -> (Option<Outcome>, bool) {
        let ask = self.of.ask();
        if self.now.is_none() {
            match ask.run() {
                Ok(run) => self.now = Some(Gives::of_wants(&ask, &run, &self.wants)),
                Err(notes) => {
                    let note = notes.into_iter().next().unwrap_or_else(fault);
                    return (Some(Outcome::AimFailed(self.of.number, note)), false);
                }
            }
        }
        let more = self.aimer.next(&ask, SLICE);
        let found = self.aimer.found();
        let due = !more || found.share >= self.pictured + PICTURE || found.proposals.len() != self.shown;
        if !due {
            return (None, more);
        }
        self.pictured = found.share;
        self.shown = found.proposals.len();
        let forecast =
            |design| -> Forecast { Ask { design, ..ask }.run().map(|run| run.forecast).unwrap_or_default() };
        let nearest = found.blocked.as_ref().and_then(|b| b.nearest.as_ref());
        let forecasts = found.proposals.iter().chain(nearest).map(|p| forecast(&p.design)).collect();
        let aimed = Aimed { found: found.clone(), now: self.now.unwrap_or_default(), forecasts };
        (Some(Outcome::Aimed(self.of.number, Arc::new(aimed))), more)
    }
}

fn fault() -> Note {
    Note::error(
        "Aim",
        "Finding a setting failed: this is a bug in Potset",
        "Ask for something else, and send the design to the makers of the program",
    )
}

/// A whole search here and now: what is to be shown at the end.
#[must_use]
pub fn aim_whole(question: AimQuestion) -> Option<Outcome> {
    let mut aiming = Aiming::new(question);
    let mut last = None;
    loop {
        let (outcome, more) = aiming.more();
        last = outcome.or(last);
        if !more {
            return last;
        }
    }
}
