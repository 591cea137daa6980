//! How a run stands to each demand: what there is, and how far that is inside.

use super::{Demand, Late, MOST, Observed, least, sides, span, texture_words};
use crate::aim::want::{Bounds, Want};
use potset_base::chance::Chance;
use potset_base::words::TextureWord;
use potset_doc::edit::LineKind;
use potset_forecast::lever::lines::keys;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::mends::cooks;

/// How one demand stands: its least margin and what there is.
#[derive(Clone, Debug, PartialEq)]
pub struct GoalResult {
    /// Entries by their names.
    pub demand: Demand,
    /// Steps that a person notices; 0 or more: it holds.
    pub margin: f64,
    pub is: Is,
    /// The pH at which the pot is to be ready, where that is the demand, and why.
    pub ready: Option<(f64, Why)>,
    /// In how many possible pots it holds, where they were counted and that is not all of them.
    pub often: Option<Chance>,
}

/// What there is of what a demand asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Is {
    /// Nothing that is a number.
    Untold,
    NotKnown,
    Observable(Observable, f64, Bounds),
    Late(Late),
    /// Not thickness decides, but whether the pot is cut: its stiffness and what it takes to be cut, Pa.
    Cut {
        cuts: bool,
        stiffness: f64,
        needs: f64,
    },
}

/// Why a pot is ready at this pH and no higher: see `readiness::release_ph`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// As the design that was asked about, which does it already.
    AsNow,
    OwnGoal,
    SourEnough,
    /// A lower one is needed: with starch in it, for frail eaters, or else with a fresh base.
    Needed {
        starch: bool,
        frail: bool,
    },
}

impl GoalResult {
    /// Whether it holds.
    pub fn holds(&self) -> bool {
        self.margin >= 0.0
    }
}

/// How a run stands to each demand, rules included.
pub fn standings(scenario: &Scenario<'_>, run: &Run, demands: &[Demand]) -> Vec<GoalResult> {
    let seen = Observed::of(scenario, run, demands);
    demands.iter().map(|demand| standing(scenario, run, demand, &seen)).collect()
}

fn standing(scenario: &Scenario<'_>, run: &Run, demand: &Demand, seen: &Observed) -> GoalResult {
    let laws = &run.mix.laws;
    let (mut margin, mut named) = (least(&sides(demand, seen, laws)).min(MOST), demand.clone());
    if let Demand::Want(want) = demand {
        margin = if kept(scenario, run, want) { margin } else { -1.0 };
        named = Demand::Want(want.named(scenario.design, scenario.pantry));
    }
    let cuts = seen.outcomes.cuts();
    // Whether it is cut, where it is not to be or the other way round.
    let by_cut = |(low, high)| if cuts { high != TextureWord::Cuts } else { low == TextureWord::Cuts };
    let number = span(demand, seen, &laws.words)
        .and_then(|(o, bounds)| Some(Is::Observable(o, seen.value(o)?, bounds)));
    let is = match (demand, seen.late) {
        (Demand::InTime, Some(late)) => Is::Late(late),
        _ if margin < 0.0 && texture_words(demand).is_some_and(by_cut) => {
            let stiffness = seen.value(Observable::Stiffness).unwrap_or(f64::NAN);
            Is::Cut { cuts, stiffness, needs: laws.words.cuts_above_pa }
        }
        (Demand::Want(Want::Within(..)), _) => number.unwrap_or(Is::NotKnown),
        _ => number.unwrap_or(Is::Untold),
    };
    let ready = match demand {
        Demand::DoneAsNow(now) if *now < seen.release_ph => Some((*now, Why::AsNow)),
        Demand::Done | Demand::DoneAsNow(_) => Some((seen.release_ph, why(scenario, run, seen.release_ph))),
        _ => None,
    };
    GoalResult { demand: named, margin, is, ready, often: None }
}

fn why(scenario: &Scenario<'_>, run: &Run, release_ph: f64) -> Why {
    let (goals, ready) = (&scenario.design.goals, &run.mix.laws.ready);
    if goals.ph_at_most.is_some() {
        Why::OwnGoal
    } else if release_ph > 0.5 * (ready.release_ph + ready.release_ph_strict) {
        Why::SourEnough
    } else {
        Why::Needed { starch: run.facts.starchy, frail: goals.frail_eaters }
    }
}

/// Whether a pot keeps a rule.
fn kept(scenario: &Scenario<'_>, run: &Run, rule: &Want) -> bool {
    let going_in = &run.facts.content.ingoing;
    match rule {
        Want::Vegan => going_in.iter().all(|i| i.vegan),
        Want::GlutenFree => going_in.iter().all(|i| i.gluten_free),
        Want::NoCooking => !scenario.design.steps.iter().any(cooks),
        Want::Only(only) => {
            let listed = |shelf| keys(scenario.design, shelf).all(|key| only.iter().any(|k| k == key));
            LineKind::ALL.into_iter().all(listed)
        }
        Want::Called(..) | Want::Within(..) => true,
    }
}
