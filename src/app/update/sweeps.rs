//! Sweeps and swaps: asked about the design on the bench; what is taken becomes one step of undo.

use super::bench::change;
use super::columns::ask_beside;
use super::tell;
use crate::columns::{BesidePage, Holds};
use crate::command::SweepCommand;
use crate::effect::Effect;
use crate::jobs::Key;
use crate::jobs::swap::SwapJob;
use crate::jobs::sweep::SweepJob;
use crate::session::Session;
use crate::state::{State, View};
use crate::sweeps::SweepWish;
use potset_doc::{Edit, edit};
use potset_forecast::lever::levers;

/// Commands of the pages that sweep and swap.
pub fn sweeps(state: &mut State, command: SweepCommand) -> Vec<Effect> {
    match command {
        SweepCommand::Wish(wish) => {
            state.sweeps.wish = Some(wish);
            sweep(state)
        }
        SweepCommand::Observable(outcome) => {
            state.sweeps.outcome = outcome;
            Vec::new()
        }
        SweepCommand::Swept(number, swept) => {
            let sweeps = &mut state.sweeps;
            if number == sweeps.question && !sweeps.stopped {
                sweeps.swept = Some(swept);
                sweeps.number += 1;
            }
            Vec::new()
        }
        SweepCommand::Failed(number, note) => {
            if number == state.sweeps.question {
                state.sweeps.fault = Some(note);
                state.sweeps.stopped = true;
            }
            Vec::new()
        }
        SweepCommand::Stop => {
            state.sweeps.stopped = true;
            vec![Effect::GiveUp(Key::Sweep)]
        }
        SweepCommand::Take(ix, iy) => {
            let Some(swept) = state.sweeps.swept.clone() else { return Vec::new() };
            match swept.sweep.edit(&state.scenario(), ix, iy) {
                Ok(edit) => {
                    // A point of the sweep is a design with the same sweep: it need not be worked out again.
                    state.sweeps.stays = swept.sweep.complete();
                    let effects = change(state, &edit, None);
                    state.sweeps.stays = false;
                    effects
                }
                Err(note) => tell(state, note),
            }
        }
        SweepCommand::Swap(wish) => {
            if state.sweeps.swap.wish == wish {
                return Vec::new();
            }
            state.sweeps.swap.wish = wish;
            swap(state)
        }
        SweepCommand::Swapped(number, told) => {
            let desk = &mut state.sweeps.swap;
            if number == desk.question {
                desk.answered = number;
                desk.told = Some(told);
            }
            Vec::new()
        }
        SweepCommand::TakeSwap => match taken(state) {
            Some(edit) => change(state, &edit, None),
            None => Vec::new(),
        },
        SweepCommand::SwapBeside => swapped_beside(state),
    }
}

fn taken(state: &State) -> Option<Edit> {
    let told = state.sweeps.swap.told.as_ref()?;
    told.as_ref().as_ref().ok().map(|swapped| swapped.edit.clone())
}

/// The swapped design in a column of its own; the one on the bench stays as it is.
fn swapped_beside(state: &mut State) -> Vec<Effect> {
    let Some(change) = taken(state) else { return Vec::new() };
    match edit::apply(state.design(), &change, &state.pantry) {
        Ok(mut design) => {
            if let Edit::Together(words, _) = &change {
                design.name = format!("{}, {}", design.name, words.to_lowercase());
            }
            let holds = Holds::Kept(Box::new(Session::copy(design)), "swapped".to_owned());
            let end = state.columns.list.len();
            if let Err(note) = state.columns.insert(end, holds) {
                return tell(state, note);
            }
            state.columns.page = BesidePage::Curves;
            ask_beside(state)
        }
        Err(note) => tell(state, note),
    }
}

/// What the page in sight asks of the design as it is now.
pub fn again(state: &mut State) -> Vec<Effect> {
    if state.view != View::Beside {
        return Vec::new();
    }
    match state.columns.page {
        BesidePage::Sweep => sweep(state),
        BesidePage::Swap => swap(state),
        BesidePage::Curves | BesidePage::Differences => Vec::new(),
    }
}

fn sweep(state: &mut State) -> Vec<Effect> {
    if state.sweeps.stays {
        return Vec::new();
    }
    let all = levers(state.design(), &state.pantry);
    let known = |wish: &SweepWish| wish.ask(&all).is_ok();
    let first = SweepWish::first(&all);
    let sweeps = &mut state.sweeps;
    // Levers that the design has lost are not held on to.
    let gone = sweeps.wish.as_ref().is_some_and(|wish| {
        !all.iter().any(|l| l.lever_id == wish.x.lever_id)
            || wish.y.as_ref().is_some_and(|y| !all.iter().any(|l| l.lever_id == y.lever_id))
    });
    if gone || sweeps.wish.is_none() {
        sweeps.wish = first.filter(known);
    }
    let Some(wish) = sweeps.wish else { return Vec::new() };
    sweeps.question += 1;
    sweeps.stopped = false;
    let number = sweeps.question;
    match wish.ask(&all) {
        Ok(ask) => {
            sweeps.fault = None;
            vec![Effect::work(SweepJob::new(number, state.owned_scenario(), ask))]
        }
        Err(note) => {
            // A map of another span than the one that stands above it would mislead.
            sweeps.swept = None;
            sweeps.number += 1;
            sweeps.fault = Some(note);
            vec![Effect::GiveUp(Key::Sweep)]
        }
    }
}

fn swap(state: &mut State) -> Vec<Effect> {
    let desk = &mut state.sweeps.swap;
    desk.question += 1;
    if desk.wish.entry.is_empty() {
        desk.told = None;
        desk.answered = desk.question;
        return Vec::new();
    }
    let (number, wish) = (desk.question, desk.wish.clone());
    vec![Effect::work(SwapJob { number, scenario: state.owned_scenario(), wish })]
}
