//! The designs beside each other, changed where they stand; and which of them come back at the next start.

use super::bench::{change, edited};
use super::columns::ask_beside;
use super::tell;
use crate::columns::Holds;
use crate::command::{BenchCommand, BesideCommand};
use crate::effect::{DiskEffect, Effect};
use crate::session::Session;
use crate::state::State;
use potset_base::Note;
use potset_doc::Edit;

/// The session of a column that has one of its own.
fn session(state: &mut State, id: u64) -> Option<&mut Session> {
    state.columns.list.iter_mut().find(|c| c.id == id).and_then(|column| match &mut column.holds {
        Holds::Kept(session, _) => Some(&mut **session),
        Holds::Bench | Holds::Case(_) => None,
    })
}

fn on_bench(state: &State, id: u64) -> bool {
    state.columns.place(id) == Some(state.columns.bench())
}

/// Makes an edit of a column's design.
pub fn edit(state: &mut State, id: u64, edit: &Edit, gesture: Option<u64>) -> Vec<Effect> {
    if on_bench(state, id) {
        return change(state, edit, gesture);
    }
    let pantry = state.pantry.clone();
    match session(state, id).map(|session| edited(session, &pantry, edit, gesture)) {
        None => {
            let title = "A published pot stays as it was measured";
            tell(state, Note::error("Beside", title, "Duplicate it, then change the copy"))
        }
        Some(Err(note)) => tell(state, note),
        Some(Ok(false)) => Vec::new(),
        Some(Ok(true)) => {
            state.refused = None;
            let mut effects = ask_beside(state);
            if gesture.is_none() {
                effects.push(DiskEffect::KeepRecovery.into());
            }
            effects
        }
    }
}

/// The drag of a column's lever is over.
pub fn end_gesture(state: &mut State, id: u64) -> Vec<Effect> {
    if on_bench(state, id) {
        return super::update(state, BenchCommand::EndGesture);
    }
    let Some(session) = session(state, id) else { return Vec::new() };
    session.history.end_gesture();
    if session.history.unsaved() { vec![DiskEffect::KeepRecovery.into()] } else { Vec::new() }
}

/// Takes back the last change of a column's design.
pub fn undo(state: &mut State, id: u64) -> Vec<Effect> {
    if on_bench(state, id) {
        return super::update(state, crate::action::Action::Undo);
    }
    let Some(session) = session(state, id) else { return Vec::new() };
    session.history.undo();
    let mut effects = ask_beside(state);
    effects.push(DiskEffect::KeepRecovery.into());
    effects
}

/// Puts the columns of the last session back, in their order; nothing in the list is the bench.
pub fn come_back(state: &mut State, list: Vec<Option<Holds>>) -> Vec<Effect> {
    let bench = list.iter().position(Option::is_none).unwrap_or(0);
    for (place, holds) in list.into_iter().enumerate() {
        let Some(holds) = holds else { continue };
        // What stood left of the bench comes back left of it.
        let at = if place < bench { state.columns.bench() } else { state.columns.list.len() };
        if let Err(note) = state.columns.insert(at, holds) {
            return tell(state, note);
        }
    }
    ask_beside(state)
}

/// Remembers which designs stand beside each other, where that changed.
pub fn remember(state: &mut State, mut effects: Vec<Effect>) -> Vec<Effect> {
    let now = state.columns.remembered();
    if now != state.settings.beside {
        state.settings.beside = now;
        effects.push(DiskEffect::SaveSettings.into());
    }
    effects
}

/// Whether a command can change which designs stand beside each other.
pub const fn moves(command: &BesideCommand) -> bool {
    matches!(
        command,
        BesideCommand::Read(..)
            | BesideCommand::AddDemo(_)
            | BesideCommand::AddCase(_)
            | BesideCommand::AddCopy
            | BesideCommand::Remove(_)
            | BesideCommand::Move(..)
            | BesideCommand::ToBench(_)
            | BesideCommand::Duplicate(_)
    )
}
