//! Aim: asked about the design on the bench; what is taken becomes one step of undo.

use std::sync::Arc;

use super::bench::change;
use super::columns::ask_beside;
use super::tell;
use crate::aims::Asked;
use crate::columns::Holds;
use crate::command::AimCommand;
use crate::effect::Effect;
use crate::jobs::Key;
use crate::jobs::aim::AimJob;
use crate::session::Session;
use crate::state::{State, View};
use potset_base::Note;
use potset_report::aim::make_so;
use potset_search::aim::{Blocked, Bounds, Moves, Proposal, Want, begins};

/// Commands of the Aim view.
pub fn aims(state: &mut State, command: AimCommand) -> Vec<Effect> {
    match command {
        AimCommand::Wants(wants) => {
            state.aims.wants = wants;
            compare(state)
        }
        AimCommand::Type(text) => typed(state, text),
        AimCommand::Moves(moves) => {
            state.aims.moves = moves;
            state.aims.moves_of = Some(Arc::clone(state.session.history.design()));
            compare(state)
        }
        AimCommand::Start => start(state),
        AimCommand::Stop => {
            if state.aims.busy() {
                state.aims.give_up();
            }
            let mut effects = compare(state);
            effects.push(Effect::GiveUp(Key::Aim));
            effects
        }
        AimCommand::Aimed(number, aimed) => {
            let aims = &mut state.aims;
            if number == aims.question && !aims.over {
                aims.over = aimed.found.complete;
                if aims.over {
                    aims.former = None;
                }
                aims.aimed = Some(aimed);
                aims.number += 1;
            }
            Vec::new()
        }
        AimCommand::Failed(number, note) => {
            if number == state.aims.question {
                let aims = &mut state.aims;
                aims.fault = Some(note);
                aims.aimed = None;
                aims.give_up();
                return compare(state);
            }
            Vec::new()
        }
        AimCommand::OnBench(on) => {
            if on && state.aims.disabled_show().is_some() {
                return Vec::new();
            }
            state.aims.on_bench = on;
            if on {
                state.view = View::Bench;
            }
            Vec::new()
        }
        AimCommand::Take(i) => take(state, i),
        AimCommand::Beside(i) => put_beside(state, i),
    }
}

/// Decides anew whether what was found is of what is asked now; a search for something else is given up.
pub fn compare(state: &mut State) -> Vec<Effect> {
    let State { aims, session, pantry, kitchen, .. } = state;
    let design = session.history.design();
    aims.compare(design, pantry, kitchen);
    if aims.busy() && aims.outdated {
        aims.give_up();
        // Where the answer before came back, it is that which is looked at.
        aims.compare(design, pantry, kitchen);
        return vec![Effect::GiveUp(Key::Aim)];
    }
    Vec::new()
}

/// Takes in typed wants, all of them or none.
fn typed(state: &mut State, text: String) -> Vec<Effect> {
    let pieces = pieces(&text);
    let read: Result<Vec<Want>, Note> =
        pieces.iter().map(|piece| Want::read(piece, state.design(), &state.pantry)).collect();
    let aims = &mut state.aims;
    match read {
        Ok(wants) => {
            for want in wants {
                put(&mut aims.wants, want);
            }
            (aims.typed, aims.typed_fault) = (String::new(), None);
            compare(state)
        }
        Err(note) => {
            // It stays where it was typed, to be mended.
            (aims.typed, aims.typed_fault) = (text, Some(note));
            Vec::new()
        }
    }
}

/// Several wants with commas or *and* between them. Both are also in lists ("only=a,b"), in names and in numbers ("4,3"): they
/// part two wants only where something that is wanted begins after them.
fn pieces(text: &str) -> Vec<String> {
    let starts = |piece: &str| {
        let rule = piece.trim().to_lowercase().replace(' ', "-");
        piece.contains(['<', '>', '=', '≤', '≥'])
            || Want::RULES.iter().any(|want| want.to_string() == rule)
            || begins(piece)
    };
    let mut all: Vec<String> = Vec::new();
    for listed in text.split(',') {
        for (k, piece) in listed.split(" and ").enumerate() {
            match all.last_mut() {
                Some(last) if !starts(piece) => {
                    last.push_str(if k == 0 { "," } else { " and " });
                    last.push_str(piece);
                }
                _ => all.push(piece.to_owned()),
            }
        }
    }
    let bare = all.iter().map(|piece| piece.trim_matches(|c: char| c == ',' || c.is_whitespace()));
    bare.filter(|piece| !piece.is_empty()).map(str::to_owned).collect()
}

/// A want takes the place of the one that it says anew: two words for one texture would leave nothing to be found.
fn put(wants: &mut Vec<Want>, want: Want) {
    let anew = |old: &Want| match (old, &want) {
        (Want::Called(a, ..), Want::Called(b, ..)) => a == b,
        (Want::Only(_), Want::Only(_)) => true,
        (Want::Within(a, old), Want::Within(b, new)) => {
            let ends = |x: &Bounds| (x.low.is_some(), x.high.is_some());
            a == b && ends(old) == ends(new)
        }
        (old, new) => old == new,
    };
    match wants.iter().position(anew) {
        Some(i) => wants[i] = want,
        None => wants.push(want),
    }
}

/// Makes a setting the design on the bench.
fn take(state: &mut State, i: usize) -> Vec<Effect> {
    let Some(edit) = proposal(state, i).map(make_so) else { return Vec::new() };
    let before = state.session.history.revision();
    let mut effects = change(state, &edit, None);
    if state.session.history.revision() != before {
        state.aims.took = Some((i, Arc::clone(state.session.history.design())));
        effects.extend(compare(state));
    }
    effects
}

/// A proposal by its number, while it can be taken; the nearest setting is the first where nothing reaches it.
fn proposal(state: &State, i: usize) -> Option<&Proposal> {
    let aims = &state.aims;
    let found = &aims.aimed.as_ref().filter(|_| aims.disabled_take(i).is_none())?.found;
    let nearest = found.blocked.as_ref().and_then(Blocked::to_take);
    found.proposals.get(i).or_else(|| nearest.filter(|_| i == 0))
}

fn start(state: &mut State) -> Vec<Effect> {
    let State { aims, session, pantry, kitchen, .. } = state;
    if aims.busy() {
        // One that is given up for the next one: what was there before it is still the last whole answer.
        aims.give_up();
    }
    aims.question += 1;
    aims.on_bench = false;
    aims.took = None;
    aims.former = aims.aimed.take().filter(|a| a.something()).zip(aims.asked.take());
    match aims.ask(session.history.design()) {
        Ok(ask) => {
            aims.fault = None;
            aims.over = false;
            aims.aimed = Some(Arc::default());
            aims.asked = Some(Asked {
                design: Arc::clone(session.history.design()),
                pantry: Arc::clone(pantry),
                kitchen: kitchen.clone(),
                ask: ask.clone(),
            });
            (aims.outdated, aims.taken) = (false, None);
            aims.number += 1;
            let number = aims.question;
            vec![Effect::work(AimJob::new(number, state.owned_scenario(), ask))]
        }
        Err(note) => {
            aims.fault = Some(note);
            aims.give_up();
            let mut effects = compare(state);
            effects.push(Effect::GiveUp(Key::Aim));
            effects
        }
    }
}

/// The setting in a column of its own; the design on the bench stays as it is.
fn put_beside(state: &mut State, i: usize) -> Vec<Effect> {
    let Some(proposal) = proposal(state, i) else { return Vec::new() };
    let mut design = proposal.design.clone();
    design.name = format!("Aim {}: {}", i + 1, state.design().name);
    let holds = Holds::Kept(Box::new(Session::copy(design)), "aimed at".to_owned());
    let end = state.columns.list.len();
    if let Err(note) = state.columns.insert(end, holds) {
        return tell(state, note);
    }
    state.view = View::Beside;
    ask_beside(state)
}

/// The view comes into sight: wants to begin with, where none were ever given.
pub fn arrive(state: &mut State) {
    let aims = &mut state.aims;
    if aims.wants.is_empty() && aims.question == 0 && aims.moves == Moves::default() {
        aims.wants = Want::of_goals(&state.session.history.design().goals);
    }
}
