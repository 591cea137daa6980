//! What comes of a pot, to be put beside that of another: outcomes by what is wanted, what the texture is called, and the table.

use super::pots::Chance;
use super::proposal::Proposal;
use super::stand::{self, Demand};
use super::want::{Bounds, Quantity, Want};
use potset_base::words::TextureWord;
use potset_doc::Design;
use potset_doc::goals::Goals;
use potset_forecast::outcome::Outcome;
use potset_forecast::scenario::{Ask, Run};
use potset_judge::outcomes::{Outcomes, differ_among};
use potset_judge::readiness::release_ph_of;

/// What comes of a pot.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Gives {
    /// Ready is when all that is wanted holds, not when the design's own goals do: those may say the opposite.
    pub outcomes: Outcomes,
    pub texture: Option<TextureWord>,
}

impl Gives {
    /// Reads it off a run.
    #[must_use]
    pub fn of(ask: &Ask<'_>, run: &Run, demands: &[Demand]) -> Self {
        let goals = wanted(&ask.design.goals, demands, release_ph_of(ask, run));
        let design = Design { goals, ..ask.design.clone() };
        let outcomes = Outcomes::of(&Ask { design: &design, ..*ask }, run);
        Self { outcomes, texture: stand::texture_word(run) }
    }

    /// The same of the wants of a question, for the design that it is asked about.
    #[must_use]
    pub fn of_wants(ask: &Ask<'_>, run: &Run, wants: &[Want]) -> Self {
        Self::of(ask, run, &wants.iter().cloned().map(Demand::Want).collect::<Vec<_>>())
    }
}

/// What is wanted as goals of a design: nothing of what the design's own goals say of other measures, since none of that is asked for
/// here. No pot is ready above `release_ph`.
fn wanted(own: &Goals, demands: &[Demand], release_ph: f64) -> Goals {
    let mut goals = Goals {
        texture: None,
        tang: None,
        sugar_left_at_most: None,
        whey_at_most: None,
        thin_layer_at_most: None,
        ..own.clone()
    };
    let mut ph = release_ph;
    for demand in demands {
        match demand {
            Demand::Want(Want::Texture(low, high)) => goals.texture = Some((*low, *high)),
            Demand::Want(Want::Tang(low, high)) => goals.tang = Some((*low, *high)),
            Demand::Want(Want::Within(q, Bounds { high: Some(high), .. })) => match q {
                Quantity::Ph => ph = ph.min(*high),
                Quantity::Sugar => goals.sugar_left_at_most = Some(*high),
                Quantity::Whey => goals.whey_at_most = Some(*high),
                Quantity::ThinLayer => goals.thin_layer_at_most = Some(*high),
                _ => {}
            },
            Demand::DoneAsNow(now) => ph = ph.min(*now),
            Demand::Want(_) | Demand::Done | Demand::InTime | Demand::TextureAsNow(_) => {}
        }
    }
    goals.ph_at_most = Some(ph);
    goals
}

/// A row of the table of trade-offs: an outcome of the design as it is and of each proposal.
#[derive(Clone, Debug, PartialEq)]
pub struct TradeOff {
    pub outcome: Outcome,
    pub now: Option<f64>,
    pub then: Vec<Option<f64>>,
    /// Whether a person would notice the difference to the design as it is.
    pub noticed: Vec<bool>,
    /// What the texture is called in each of these, in the row of it; empty in all others.
    called: Vec<Option<TextureWord>>,
}

impl TradeOff {
    /// The outcome by its name; readiness by what is wanted here, which need not be the goals of the design.
    #[must_use]
    pub fn name(&self) -> String {
        match self.outcome {
            Outcome::ReadyFrom => "what is asked for first holds, likely line".to_owned(),
            other => other.name().to_owned(),
        }
    }

    /// How a proposal stands to the design, on the scale of the outcome, where that is worth telling.
    #[must_use]
    pub fn difference(&self, i: usize) -> Option<f64> {
        let difference = self.outcome.scaled(self.then.get(i).copied()??) - self.outcome.scaled(self.now?);
        let read = self.outcome.on_paper().is_some() && self.outcome.steps(difference).abs() >= 1.0;
        (self.noticed[i] || read).then_some(difference)
    }

    /// The cell of the design as it is.
    #[must_use]
    pub fn now_words(&self) -> String {
        self.words(self.now, 0)
    }

    /// The cell of a proposal.
    #[must_use]
    pub fn then_words(&self, i: usize) -> String {
        self.words(self.then.get(i).copied().flatten(), i + 1)
    }

    fn words(&self, value: Option<f64>, place: usize) -> String {
        let number = self.outcome.words_of(value);
        match self.called.get(place).copied().flatten() {
            Some(word) => format!("{}, {number}", word.word()),
            None => number,
        }
    }
}

/// A chance in a cell of the table: as a count, so that two of them can be compared; or none.
#[must_use]
pub fn chance_words(chance: Option<&Chance>) -> String {
    let words = |c: &Chance| format!("{} of {}", c.pots.of, c.pots.among);
    chance.filter(|c| c.spread()).map_or_else(|| "–".to_owned(), words)
}

/// What the proposals give against each other and against the design: outcomes in which any two of them differ to a person
/// or, of what is only read, by a step, and the texture where it is called otherwise.
#[must_use]
pub fn trade_offs(now: &Gives, proposals: &[Proposal]) -> Vec<TradeOff> {
    let gives: Vec<&Gives> = std::iter::once(now).chain(proposals.iter().map(|p| &p.gives)).collect();
    let all: Vec<&Outcomes> = gives.iter().map(|g| &g.outcomes).collect();
    let renamed = gives.iter().any(|g| g.texture != now.texture);
    Outcome::ALL
        .into_iter()
        .filter_map(|outcome| {
            let of_texture = outcome == Outcome::Texture;
            let others = || proposals.iter().map(|p| &p.gives.outcomes);
            let called = if of_texture { gives.iter().map(|g| g.texture).collect() } else { Vec::new() };
            (differ_among(&all, outcome) || (of_texture && renamed)).then(|| TradeOff {
                outcome,
                now: now.outcomes.get(outcome),
                then: others().map(|o| o.get(outcome)).collect(),
                noticed: others().map(|o| now.outcomes.notices(o, outcome)).collect(),
                called,
            })
        })
        .collect()
}
