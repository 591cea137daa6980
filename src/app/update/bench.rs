//! The design on the bench: edits, drags, and what is found out about it.

use std::sync::Arc;

use super::{asked, tell};
use crate::command::BenchCommand;
use crate::effect::{DiskEffect, Effect};
use crate::session::Session;
use crate::state::State;
use potset_base::Note;
use potset_base::units::Amounts;
use potset_doc::check::faults;
use potset_doc::{Edit, Pantry, edit};
use potset_judge::answer::Answer;

/// Commands about the design on the bench. What was found out of an older question is of another pot.
pub fn bench(state: &mut State, command: BenchCommand) -> Vec<Effect> {
    match command {
        BenchCommand::Edit(edit, gesture) => return change(state, &edit, gesture),
        BenchCommand::Began(_) => {
            state.ghost = Some(state.answer.clone());
            state.ghost_number += 1;
        }
        BenchCommand::EndGesture => {
            state.session.history.end_gesture();
            if state.session.history.unsaved() {
                return vec![DiskEffect::KeepRecovery.into()];
            }
        }
        BenchCommand::TakeBackDrag => {
            state.ghost = None;
            state.refused = None;
            if state.session.history.take_back() {
                return asked(state);
            }
        }
        BenchCommand::Line(line) => {
            if line != state.line {
                state.line = line;
                return asked(state);
            }
        }
        BenchCommand::Answered(question, answer) => answered(state, question, answer),
        BenchCommand::Numbers(question, numbers) => {
            // The very list that is shown is not read anew by the windows that show it.
            if question == state.question && !Arc::ptr_eq(&numbers, &state.numbers) {
                state.numbers = numbers;
                state.numbers_number += 1;
            }
        }
        // A list that was given up is empty; the one on the screen stays until a whole one comes.
        BenchCommand::Sensitivities(question, list) => {
            if question == state.question && !list.is_empty() {
                state.sensitivities = list;
                state.sensitivities_number += 1;
            }
        }
        BenchCommand::Spread(question, spread) => {
            if question == state.question {
                state.doubt.spread = Some(spread);
                state.doubt.number += 1;
                state.doubt.of.0 = question;
                state.doubt.trouble = None;
            }
        }
        // What is on the screen has no successor, so it cannot stay.
        BenchCommand::NoSpread(question, why) => {
            if question == state.question {
                state.doubt.clear();
                state.doubt.of = (question, question);
                state.doubt.trouble = Some(why);
            }
        }
        BenchCommand::Matters(question, matters) => {
            if question == state.question {
                state.doubt.matters = Some(matters);
                state.doubt.of.1 = question;
            }
        }
    }
    Vec::new()
}

/// Makes an edit: a new step of history, a new question.
pub fn change(state: &mut State, edit: &Edit, gesture: Option<u64>) -> Vec<Effect> {
    let spooned = spooned(state, edit);
    match edited(&mut state.session, &state.pantry, spooned.as_ref().unwrap_or(edit), gesture) {
        Ok(false) => Vec::new(),
        Ok(true) => {
            state.said = None;
            let mut effects = asked(state);
            if gesture.is_none() {
                effects.push(DiskEffect::KeepRecovery.into());
            }
            effects
        }
        Err(note) => tell(state, note),
    }
}

/// In a kitchen with US amounts: what adds a line, with the cup or spoon that it is measured in.
fn spooned(state: &State, edit: &Edit) -> Option<Edit> {
    let Edit::Add(shelf, ..) = edit else { return None };
    if state.kitchen.amounts != Amounts::UsCustomary {
        return None;
    }
    let (design, pantry) = (state.design(), &state.pantry);
    let place = design.lines(*shelf).len();
    let by = edit::apply(design, edit, pantry).ok()?.us_measure(*shelf, place, pantry)?;
    Some(Edit::Together(edit::label(design, edit), vec![edit.clone(), Edit::Measure(*shelf, place, by)]))
}

/// Makes an edit of a session's design; whether it changed anything.
///
/// # Errors
/// A note if the edit cannot be made, or brings a fault that the design did not have.
pub fn edited(
    session: &mut Session,
    pantry: &Pantry,
    edit: &Edit,
    gesture: Option<u64>,
) -> Result<bool, Note> {
    let before = session.history.design().clone();
    let new = edit::apply(&before, edit, pantry)?;
    let known = faults(&before);
    if let Some(fault) = faults(&new).into_iter().find(|f| !known.contains(f)) {
        return Err(fault);
    }
    if new == *before {
        return Ok(false);
    }
    session.history.push(new, &edit::label(&before, edit), gesture);
    Ok(true)
}

fn answered(state: &mut State, question: u64, answer: Result<Box<Answer>, Note>) {
    // An answer to an older question would show a pot that is no longer asked for; a drag waits for its newest.
    if question < state.answered || question > state.question {
        return;
    }
    state.answered = question;
    match answer {
        Ok(answer) => {
            state.answer_number += 1;
            state.answer = *answer;
            if !state.answer.errors.is_empty() {
                state.doubt.clear();
            }
        }
        Err(note) => {
            tell(state, note);
        }
    }
}
