//! Command and state to new state and effects. Dispatch only; each list of commands has its file.

mod actions;
mod aims;
mod batches;
mod bench;
mod beside;
mod card;
mod class;
mod columns;
mod files;
mod listing;
mod mishap;
mod pantry;
mod recipes;
mod sweeps;
mod turned;
mod window;

use super::command::Command;
use super::effect::Effect;
use super::jobs::forecast::ForecastJob;
use super::jobs::question::Question;
use super::state::{Dialog, State, View};
use potset_base::Note;

pub use self::window::ZOOM;

/// Carries out a command on the state and says what must be done outside.
pub fn update(state: &mut State, command: impl Into<Command>) -> Vec<Effect> {
    match command.into() {
        Command::Do(action) => actions::act(state, action),
        Command::Bench(command) => bench::bench(state, command),
        Command::Beside(command) => beside::beside(state, command),
        Command::Sweep(command) => sweeps::sweeps(state, command),
        Command::Aim(command) => aims::aims(state, command),
        Command::Pantry(command) => pantry::pantry(state, command),
        Command::Card(command) => card::card(state, command),
        Command::Recipes(command) => recipes::recipes(state, command),
        Command::Batches(command) => batches::batches(state, command),
        Command::Mishap(command) => mishap::mishap(state, command),
        Command::Class(command) => class::class(state, command),
        Command::File(command) => files::file(state, command),
        Command::Window(command) => window::window(state, command),
    }
}

/// The design is another one: a new question.
fn asked(state: &mut State) -> Vec<Effect> {
    state.refused = None;
    state.question += 1;
    state.doubt.trouble = None;
    let mut effects = vec![Effect::work(ForecastJob(Question::of(state)))];
    effects.extend(aims::compare(state));
    match state.view {
        View::Beside => effects.extend(beside::shown(state)),
        View::Card => effects.extend(card::shown(state)),
        View::Bench
        | View::Aim
        | View::Recipes
        | View::Pantry
        | View::Batches
        | View::Mishap
        | View::Class => {}
    }
    effects
}

/// Shows a notice, once; nothing else follows.
fn tell(state: &mut State, note: Note) -> Vec<Effect> {
    if !state.notices.contains(&note) {
        state.notices.push(note);
    }
    if state.notices.len() > 5 {
        state.notices.remove(0);
    }
    Vec::new()
}

/// Closes whatever window is open. What was lost is asked about until it is answered.
fn close_dialog(state: &mut State) {
    state.dialog = if state.recovery.is_empty() { Dialog::None } else { Dialog::Recovery };
}
