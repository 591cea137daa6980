//! Aim: asked about the design on the bench; what is taken becomes one step of undo.

use super::{beside, change, tell};
use crate::app::aims::Aims;
use crate::app::columns::Holds;
use crate::app::command::{AimCommand, Effect};
use crate::app::session::Session;
use crate::app::state::{State, View};
use crate::study::aim::{Moves, Proposal, Want};

/// Commands of the Aim view.
pub fn aims(state: &mut State, command: AimCommand) -> Vec<Effect> {
    match command {
        AimCommand::Wants(wants) => {
            state.aims.wants = wants;
            state.aims.outdate();
            vec![Effect::StopAim]
        }
        AimCommand::Type(text) => {
            match Want::read(&text, state.design(), &state.pantry) {
                Ok(want) => {
                    state.refused = None;
                    state.aims.wants.push(want);
                    state.aims.outdate();
                    return vec![Effect::StopAim];
                }
                Err(note) => state.refused = Some(note),
            }
            Vec::new()
        }
        AimCommand::Moves(moves) => {
            state.aims.moves = moves;
            state.aims.outdate();
            vec![Effect::StopAim]
        }
        AimCommand::Start => start(state),
        AimCommand::Stop => {
            state.aims.over = true;
            vec![Effect::StopAim]
        }
        AimCommand::Aimed(number, aimed) => {
            let aims = &mut state.aims;
            if number == aims.question && !aims.over {
                aims.over = aimed.found.complete;
                aims.aimed = Some(aimed);
                aims.number += 1;
            }
            Vec::new()
        }
        AimCommand::Failed(number, note) => {
            if number == state.aims.question {
                state.aims.fault = Some(note);
                state.aims.aimed = None;
                state.aims.over = true;
            }
            Vec::new()
        }
        AimCommand::OnBench(on) => {
            state.aims.on_bench = on;
            if on {
                state.view = View::Bench;
            }
            Vec::new()
        }
        AimCommand::Take(i) => match proposal(state, i).map(|p| p.edit.clone()) {
            Some(edit) => change(state, &edit, None),
            None => Vec::new(),
        },
        AimCommand::Beside(i) => put_beside(state, i),
    }
}

/// A proposal by its number; the nearest setting is the first where nothing reaches it.
fn proposal(state: &State, i: usize) -> Option<&Proposal> {
    let aims = &state.aims;
    let found = &aims.aimed.as_ref().filter(|_| !aims.outdated)?.found;
    let nearest = found.blocked.as_ref().and_then(|b| b.nearest.as_ref());
    found.proposals.get(i).or_else(|| nearest.filter(|_| i == 0))
}

fn start(state: &mut State) -> Vec<Effect> {
    // Levers that the design has lost are not held on to.
    let levers = crate::study::lever::levers(state.design(), &state.pantry);
    if let Some(reaches) = &mut state.aims.moves.levers {
        reaches.retain(|r| levers.iter().any(|l| l.knob == r.knob));
    }
    let aims = &mut state.aims;
    aims.question += 1;
    aims.outdated = false;
    aims.on_bench = false;
    match aims.ask() {
        Ok(ask) => {
            aims.fault = None;
            aims.over = false;
            aims.aimed = Some(std::sync::Arc::default());
            aims.number += 1;
            vec![Effect::Aim(Box::new(ask))]
        }
        Err(note) => {
            aims.fault = Some(note);
            aims.aimed = None;
            vec![Effect::StopAim]
        }
    }
}

/// The setting in a column of its own; the design on the bench stays as it is.
fn put_beside(state: &mut State, i: usize) -> Vec<Effect> {
    let Some(proposal) = proposal(state, i) else { return Vec::new() };
    let mut design = proposal.design.clone();
    design.name = format!("{}, aim {}", design.name, i + 1);
    let holds = Holds::Kept(Box::new(Session::copy(design)), "aimed at".to_owned());
    let end = state.columns.list.len();
    if let Err(note) = state.columns.insert(end, holds) {
        tell(state, note);
        return Vec::new();
    }
    state.view = View::Beside;
    beside::ask(state)
}

/// The view comes into sight: wants to begin with, where none were ever given.
pub fn arrive(state: &mut State) {
    let aims = &mut state.aims;
    if aims.wants.is_empty() && aims.question == 0 && aims.moves == Moves::default() {
        aims.wants = Aims::of_goals(&state.session.history.design().goals);
    }
}
