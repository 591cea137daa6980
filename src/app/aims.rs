//! Aim: what is wanted of the design on the bench, what may move, and what was found.

use std::sync::Arc;

use crate::base::Note;
use crate::doc::goals::Goals;
use crate::science::Forecast;
use crate::study::aim::{AimAsk, Bounds, Found, Moves, Quantity, Want};
use crate::study::outcome::Outcomes;
use crate::study::spread::SEED;

/// What was found, with what the screen needs beside it.
#[derive(Clone, Debug, Default)]
pub struct Aimed {
    pub found: Found,
    /// Of the design that was asked about.
    pub now: Outcomes,
    /// Of each proposal; of the nearest setting where nothing reaches it.
    pub forecasts: Vec<Forecast>,
}

/// Wants, moves and answer.
#[derive(Clone, Debug, Default)]
pub struct Aims {
    pub wants: Vec<Want>,
    pub moves: Moves,
    /// Goes up with every question; answers to older ones are dropped.
    pub question: u64,
    pub aimed: Option<Arc<Aimed>>,
    /// Goes up with everything that came of it.
    pub number: u64,
    /// Why it cannot be asked.
    pub fault: Option<Note>,
    /// It was stopped by hand, or the design has changed since.
    pub over: bool,
    /// The design, the wants or the moves have changed since it was asked.
    pub outdated: bool,
    /// Proposals are drawn on the bench.
    pub on_bench: bool,
}

impl Aims {
    /// What the goals of a design say, as wants to begin with.
    #[must_use]
    pub fn of_goals(goals: &Goals) -> Vec<Want> {
        let at_most = |q: Quantity, high: f64| Want::Within(q, Bounds { low: None, high: Some(high) });
        let mut wants = Vec::new();
        wants.extend(goals.texture.map(|(low, high)| Want::Texture(low, high)));
        wants.extend(goals.tang.map(|(low, high)| Want::Tang(low, high)));
        wants.extend(goals.ph_at_most.map(|v| at_most(Quantity::Ph, v)));
        wants.extend(goals.sugar_left_at_most.map(|v| at_most(Quantity::Sugar, v)));
        wants.extend(goals.whey_at_most.map(|v| at_most(Quantity::Whey, v)));
        wants
    }

    /// As a question.
    ///
    /// # Errors
    /// A note where nothing is wanted.
    pub fn ask(&self) -> Result<AimAsk, Note> {
        AimAsk::new(self.wants.clone(), self.moves.clone(), SEED)
    }

    /// Whether a search is under way.
    #[must_use]
    pub fn busy(&self) -> bool {
        !self.over && self.aimed.as_ref().is_some_and(|a| !a.found.complete)
    }

    /// Forecasts of the proposals to be drawn on the bench.
    #[must_use]
    pub fn ghosts(&self) -> Vec<&Forecast> {
        match &self.aimed {
            Some(aimed) if self.on_bench && !self.outdated => {
                aimed.forecasts.iter().take(aimed.found.proposals.len()).collect()
            }
            _ => Vec::new(),
        }
    }

    /// The design is another one: what was found is of the old one.
    pub fn outdate(&mut self) {
        self.outdated = self.aimed.is_some();
        self.over = true;
        self.on_bench = false;
    }
}
