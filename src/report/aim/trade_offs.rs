//! What proposals give against each other and against the design: the table of trade-offs.

use potset_base::words::TextureWord;
use potset_forecast::observable::Observable;
use potset_judge::outcomes::{Outcomes, differ_among};
use potset_search::aim::{Gives, Proposal};

/// A row of the table of trade-offs: an outcome of the design as it is and of each proposal.
#[derive(Clone, Debug, PartialEq)]
pub struct TradeOff {
    pub outcome: Observable,
    pub now: Option<f64>,
    pub then: Vec<Option<f64>>,
    /// Whether a person would notice the difference to the design as it is.
    pub noticed: Vec<bool>,
    /// What the texture is called in each of these, in the row of it; empty in all others.
    called: Vec<Option<TextureWord>>,
}

impl TradeOff {
    /// The outcome by its name; readiness by what is wanted here, which need not be the goals of the design.
    pub fn name(&self) -> String {
        match self.outcome {
            Observable::ReadyFrom => "ready, by these goals".to_owned(),
            other => other.name().to_owned(),
        }
    }

    /// Whether it is told in a laboratory's numbers alone.
    pub fn is_laboratory(&self) -> bool {
        self.outcome.in_words() && self.called.is_empty()
    }

    /// What the texture is called in the design (0) or in a proposal (from 1).
    pub fn word(&self, place: usize) -> Option<&'static str> {
        self.called.get(place).copied().flatten().map(TextureWord::word)
    }

    /// How a proposal stands to the design, on the scale of the outcome, where that is worth telling.
    pub fn difference(&self, i: usize) -> Option<f64> {
        let difference = self.outcome.scaled(self.then.get(i).copied()??) - self.outcome.scaled(self.now?);
        let read = self.outcome.on_paper().is_some() && self.outcome.steps(difference).abs() >= 1.0;
        (self.noticed[i] || read).then_some(difference)
    }

    /// The cell of the design as it is.
    pub fn now_words(&self) -> String {
        self.words(self.now, 0)
    }

    /// The cell of a proposal.
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

/// What the proposals give against each other and against the design: outcomes in which any two of them differ to a person
/// or, of what is only read, by a step, and the texture where it is called otherwise.
pub fn trade_offs(now: &Gives, proposals: &[Proposal]) -> Vec<TradeOff> {
    let gives: Vec<&Gives> = std::iter::once(now).chain(proposals.iter().map(|p| &p.gives)).collect();
    let all: Vec<&Outcomes> = gives.iter().map(|g| &g.outcomes).collect();
    let renamed = gives.iter().any(|g| g.texture != now.texture);
    Observable::ALL
        .into_iter()
        .filter_map(|outcome| {
            let of_texture = outcome == Observable::Texture;
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
