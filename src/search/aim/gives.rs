//! What comes of a pot, to be put beside that of another: outcomes by what is wanted, and what the texture is called.

use super::stand::{self, Demand};
use super::want::{Bounds, Want};
use potset_base::words::{TangWord, TextureWord};
use potset_doc::Design;
use potset_doc::goals::Goals;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::outcomes::Outcomes;
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
    pub fn of(scenario: &Scenario<'_>, run: &Run, demands: &[Demand]) -> Self {
        let goals = wanted(&scenario.design.goals, demands, release_ph_of(scenario, run));
        let design = Design { goals, ..scenario.design.clone() };
        let outcomes = Outcomes::of(&Scenario { design: &design, ..*scenario }, run);
        Self { outcomes, texture: stand::texture_word(run) }
    }

    /// The same of the wants of a question, for the design that it is asked about.
    pub fn of_wants(scenario: &Scenario<'_>, run: &Run, wants: &[Want]) -> Self {
        Self::of(scenario, run, &wants.iter().cloned().map(Demand::Want).collect::<Vec<_>>())
    }
}

/// What is wanted as goals of a design: nothing of what the design's own goals say of other measures, since none of that is asked for
/// here. No pot is ready above `release_ph`.
fn wanted(own: &Goals, demands: &[Demand], release_ph: f64) -> Goals {
    let mut goals = Goals { texture: None, tang: None, ph_at_most: Some(release_ph), ..own.clone() };
    for (outcome, _) in Observable::KEPT_UNDER {
        outcome.goal(&mut goals).map(Option::take);
    }
    for demand in demands {
        match demand {
            Demand::Want(Want::Called(Observable::Tang, low, high)) => {
                goals.tang = Some((TangWord::ALL[*low], TangWord::ALL[*high]));
            }
            Demand::Want(Want::Called(_, low, high)) => {
                goals.texture = Some((TextureWord::ALL[*low], TextureWord::ALL[*high]));
            }
            Demand::Want(Want::Within(outcome, Bounds { high: Some(high), .. })) => {
                // Of several bounds the tightest counts; the pH has one from the start.
                let under = |goal: &mut Option<f64>| *goal = Some(goal.map_or(*high, |most| most.min(*high)));
                outcome.goal(&mut goals).map(under);
            }
            Demand::DoneAsNow(now) => goals.ph_at_most = goals.ph_at_most.map(|most| most.min(*now)),
            Demand::Want(_) | Demand::Done | Demand::InTime | Demand::AsNow(_) => {}
        }
    }
    goals
}
