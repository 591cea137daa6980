//! Command and state to new state and effects. Dispatch only; each area has its file.

mod actions;
mod aims;
mod beside;
mod files;
mod pantry;
mod sweeps;

use super::command::{Command, Effect};
use super::state::{Dialog, State, View};
use potset_base::Note;
use potset_doc::{Edit, edit};

/// Largest and smallest zoom.
pub const ZOOM: std::ops::RangeInclusive<f32> = 0.75..=2.5;

/// Carries out a command on the state and says what must be done outside.
pub fn update(state: &mut State, command: Command) -> Vec<Effect> {
    match command {
        Command::Do(action) => actions::act(state, action),
        Command::Edit(edit, gesture) => change(state, &edit, gesture),
        Command::Began(_) => {
            state.ghost = Some(state.answer.clone());
            state.ghost_number += 1;
            Vec::new()
        }
        Command::EndGesture => {
            state.session.history.end_gesture();
            if state.session.history.unsaved() { vec![Effect::KeepRecovery] } else { Vec::new() }
        }
        Command::TakeBackDrag => {
            state.ghost = None;
            state.refused = None;
            if state.session.history.take_back() { asked(state) } else { Vec::new() }
        }
        Command::Answered(..)
        | Command::Rested(..)
        | Command::Spread(..)
        | Command::NoSpread(..)
        | Command::Matters(..) => {
            told(state, command);
            Vec::new()
        }
        Command::Failed(note) => {
            // Whatever failed, nothing is waited for any more.
            state.answered = state.question;
            tell(state, note);
            Vec::new()
        }
        Command::Tell(note) => {
            state.refused = Some(note);
            Vec::new()
        }
        Command::Forgo => {
            state.refused = None;
            Vec::new()
        }
        Command::Dismiss(i) => {
            if i < state.notices.len() {
                state.notices.remove(i);
            }
            Vec::new()
        }
        Command::Theme(theme) => {
            state.settings.theme = theme;
            vec![Effect::SaveSettings]
        }
        Command::Zoom(zoom) => {
            state.settings.zoom = zoom.clamp(*ZOOM.start(), *ZOOM.end());
            vec![Effect::SaveSettings]
        }
        Command::Fold(key) => fold(state, key),
        Command::Kitchen(kitchen) => {
            if kitchen == state.kitchen {
                return Vec::new();
            }
            state.kitchen = kitchen;
            let mut effects = asked(state);
            effects.push(Effect::SaveKitchen);
            effects
        }
        Command::Line(line) => {
            if line == state.line {
                return Vec::new();
            }
            state.line = line;
            asked(state)
        }
        Command::Explain(reading, t_h) => {
            state.dialog = Dialog::Explain(reading, t_h);
            Vec::new()
        }
        Command::CloseDialog => {
            close_dialog(state);
            Vec::new()
        }
        Command::Copy(text) => vec![Effect::Copy(text)],
        Command::Show(_)
        | Command::Page(_)
        | Command::OpenEntry(_)
        | Command::Own(_)
        | Command::OwnSaved(_)
        | Command::Seen(_)
        | Command::LabelText(_)
        | Command::LabelRead(..)
        | Command::Making(_)
        | Command::UseBase(_)
        | Command::AskTakeIn
        | Command::AskShare(..)
        | Command::TakeIn(_)
        | Command::TakenIn(..)
        | Command::ShareTo(_) => pantry::pantry(state, command),
        Command::Beside(command) => beside::beside(state, command),
        Command::Sweep(command) => sweeps::sweeps(state, command),
        Command::Aim(command) => aims::aims(state, command),
        other => files::file(state, other),
    }
}

/// Takes in what the worker found out about the design on the bench. What is of an older question is of another pot.
fn told(state: &mut State, command: Command) {
    match command {
        Command::Answered(question, answer) => answered(state, question, *answer),
        // A list that was given up is empty; the one on the screen stays until a whole one comes.
        Command::Rested(question, list) if question == state.question && !list.is_empty() => {
            state.rests = list;
            state.rests_number += 1;
        }
        Command::Spread(question, spread) if question == state.question => {
            state.doubt.spread = Some(spread);
            state.doubt.number += 1;
            state.doubt.of.0 = question;
            state.doubt.trouble = None;
        }
        // What is on the screen has no successor, so it cannot stay.
        Command::NoSpread(question, why) if question == state.question => {
            state.doubt.clear();
            state.doubt.of = (question, question);
            state.doubt.trouble = Some(why);
        }
        Command::Matters(question, matters) if question == state.question => {
            state.doubt.matters = Some(matters);
            state.doubt.of.1 = question;
        }
        _ => {}
    }
}

/// Folds a strip, or unfolds it.
fn fold(state: &mut State, key: &str) -> Vec<Effect> {
    let folded = &mut state.settings.folded;
    if folded.iter().any(|k| k == key) {
        folded.retain(|k| k != key);
    } else {
        folded.push(key.to_owned());
    }
    vec![Effect::SaveSettings]
}

/// Makes an edit: a new step of history, a new question.
fn change(state: &mut State, edit: &Edit, gesture: Option<u64>) -> Vec<Effect> {
    let before = state.session.history.design().clone();
    match edit::apply(&before, edit, &state.pantry) {
        Ok(new) => {
            let faults = potset_doc::check::faults(&new);
            if let Some(fault) = faults.into_iter().find(|f| !potset_doc::check::faults(&before).contains(f))
            {
                tell(state, fault);
                return Vec::new();
            }
            if new == *before {
                return Vec::new();
            }
            let label = edit::label(&before, edit);
            state.session.history.push(new, &label, gesture);
            state.said = None;
            let mut effects = asked(state);
            if gesture.is_none() {
                effects.push(Effect::KeepRecovery);
            }
            effects
        }
        Err(note) => {
            tell(state, note);
            Vec::new()
        }
    }
}

/// The design is another one: a new question.
fn asked(state: &mut State) -> Vec<Effect> {
    state.refused = None;
    state.question += 1;
    state.doubt.trouble = None;
    let mut effects = vec![Effect::Forecast];
    effects.extend(aims::compare(state));
    if state.view == View::Beside {
        effects.extend(ask_beside(state));
        effects.extend(sweeps::again(state));
    }
    effects
}

fn answered(state: &mut State, question: u64, answer: potset_judge::answer::Answer) {
    // An answer to an older question would show a pot that is no longer asked for; a drag waits for its newest.
    if question < state.answered || question > state.question {
        return;
    }
    state.answered = question;
    state.answer_number += 1;
    state.answer = answer;
    if !state.answer.errors.is_empty() {
        state.doubt.clear();
    }
}

/// Shows a notice, once.
fn tell(state: &mut State, note: Note) {
    if !state.notices.contains(&note) {
        state.notices.push(note);
    }
    if state.notices.len() > 5 {
        state.notices.remove(0);
    }
}

/// Closes whatever window is open. What was lost is asked about until it is answered.
fn close_dialog(state: &mut State) {
    state.dialog = if state.recovery.is_empty() { Dialog::None } else { Dialog::Recovery };
}

/// A new question about the columns.
fn ask_beside(state: &mut State) -> Vec<Effect> {
    state.columns.question += 1;
    vec![Effect::Beside]
}
