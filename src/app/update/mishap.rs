//! The Mishap view: what was said of a pot, what came of it, the answer, and the call log.

use std::path::PathBuf;
use std::sync::Arc;

use super::bench::change;
use super::columns::ask_beside;
use super::tell;
use crate::columns::Holds;
use crate::command::MishapCommand;
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::mishap::MishapJob;
use crate::mishap::{Asked, MishapTold, words_of};
use crate::session::Session;
use crate::state::{State, View};
use potset_base::Note;
use potset_base::clock::Moment;
use potset_doc::calls::CallLog;
use potset_export::calls;
use potset_forecast::scenario::OwnedScenario;
use potset_report::{mends, mishap as say};

/// Commands of the Mishap view.
pub fn mishap(state: &mut State, command: MishapCommand) -> Vec<Effect> {
    let own = &mut state.mishap;
    match command {
        MishapCommand::Page(page) => own.page = page,
        MishapCommand::OfBench => {
            let asked = Asked { scenario: state.owned_scenario(), on_bench: true };
            state.mishap.begin(Some(asked));
            state.said = None;
        }
        MishapCommand::OfBatch => return of_batch(state),
        MishapCommand::Saw(symptom) => {
            let before = own.saw.len();
            own.saw.retain(|said| *said != symptom);
            if own.saw.len() == before {
                own.saw.push(symptom);
            }
            return ask(state);
        }
        MishapCommand::Know(fact) => {
            own.skipped.retain(|kind| *kind != fact.kind);
            own.known.retain(|known| known.kind != fact.kind);
            own.known.push(fact);
            return ask(state);
        }
        MishapCommand::Forget(kind) => {
            own.known.retain(|known| known.kind != kind);
            own.skipped.retain(|skipped| *skipped != kind);
            return ask(state);
        }
        MishapCommand::Skip(kind) => {
            own.known.retain(|known| known.kind != kind);
            if !own.skipped.contains(&kind) {
                own.skipped.push(kind);
            }
            return ask(state);
        }
        MishapCommand::Told(number, told) => told_of(state, number, told),
        MishapCommand::Choose(place) => (own.chosen, own.logged) = (place, false),
        MishapCommand::Form(form) => (own.form, own.text) = (form, None),
        MishapCommand::Text(text) => own.text = text,
        MishapCommand::Copy => {
            let Some(text) = own.answer() else { return Vec::new() };
            state.said = Some("The answer is copied".to_owned());
            return vec![ScreenEffect::Copy(text).into()];
        }
        MishapCommand::NextTime => return next_time(state),
        MishapCommand::PutBeside => return put_beside(state),
        MishapCommand::Lot(lot) => own.lot = lot,
        MishapCommand::Age(age) => own.age = age,
        MishapCommand::Log => return log(state),
        MishapCommand::Remove(place) => {
            if place < own.log.calls.len() {
                let call = own.log.calls.remove(place);
                own.removed.push((place, call));
                return save(state);
            }
        }
        MishapCommand::PutBack => {
            if let Some((place, call)) = own.removed.pop() {
                own.log.calls.insert(place.min(own.log.calls.len()), call);
                return save(state);
            }
        }
        MishapCommand::LogSaved(Ok(log)) => {
            own.log_base.clone_from(&log);
            own.log = *log;
        }
        MishapCommand::LogSaved(Err(note)) => return tell(state, note),
        MishapCommand::AskExport => return vec![ScreenEffect::AskCallLog("call-log.csv".to_owned()).into()],
        MishapCommand::ExportTo(path) => return export(state, path),
    }
    Vec::new()
}

/// What the view needs as it is shown: the design on the bench is asked about, unless a call is under way.
pub fn shown(state: &mut State) {
    if state.mishap.saw.is_empty() && state.mishap.known.is_empty() {
        let asked = Asked { scenario: state.owned_scenario(), on_bench: true };
        let page = state.mishap.page;
        state.mishap.begin(Some(asked));
        state.mishap.page = page;
    }
}

/// Asks about the open batch.
fn of_batch(state: &mut State) -> Vec<Effect> {
    let Some(open) = &state.batches.open else { return Vec::new() };
    let scenario = OwnedScenario {
        design: Arc::new(open.batch.design.clone()),
        pantry: state.pantry.clone(),
        kitchen: open.batch.kitchen.clone(),
        learnt: state.learnt.clone(),
    };
    let lot = open.batch.lots.first().map(|lot| lot.lot.clone()).unwrap_or_default();
    state.mishap.begin(Some(Asked { scenario, on_bench: false }));
    state.mishap.lot = lot;
    state.view = View::Mishap;
    Vec::new()
}

/// Has it weighed; where nothing was said there is nothing to weigh.
fn ask(state: &mut State) -> Vec<Effect> {
    let own = &mut state.mishap;
    own.question += 1;
    (own.trouble, own.logged) = (None, false);
    let Some(asked) = own.asked.as_ref().filter(|_| !own.saw.is_empty()) else {
        (own.told, own.answered, own.text) = (None, own.question, None);
        return Vec::new();
    };
    let before = own.told.as_ref().map(|told| Arc::clone(&told.mishap));
    vec![Effect::work(MishapJob {
        number: own.question,
        scenario: asked.scenario.clone(),
        saw: own.saw.clone(),
        known: own.known.clone(),
        skipped: own.skipped.clone(),
        before,
    })]
}

fn told_of(state: &mut State, number: u64, told: Result<Arc<MishapTold>, Note>) {
    let own = &mut state.mishap;
    if number != own.question {
        return;
    }
    own.answered = number;
    (own.chosen, own.text) = (0, None);
    match told {
        Ok(told) => own.told = Some(told),
        Err(note) => (own.told, own.trouble) = (None, Some(note)),
    }
}

/// The plan is changed for next time, in one step of undo.
fn next_time(state: &mut State) -> Vec<Effect> {
    let told = state.mishap.told.clone();
    let mend = told.as_ref().and_then(|told| told.what.next_time.as_ref()?.1.as_ref());
    // Another design may have been opened meanwhile.
    let same =
        state.mishap.asked.as_ref().is_some_and(|asked| asked.scenario.design.name == state.design().name);
    let Some(mend) = mend.filter(|_| same) else { return Vec::new() };
    let edit = mends::edit(mend);
    let effects = change(state, &edit, None);
    if !effects.is_empty() {
        state.said = Some("The design on the bench is changed for next time; Undo takes it back".to_owned());
    }
    effects
}

/// Where a column of a pot that went wrong comes from.
const WENT_WRONG: &str = "went wrong";

/// Puts the pot that went wrong beside the design.
fn put_beside(state: &mut State) -> Vec<Effect> {
    let Some(told) = state.mishap.told.clone() else { return Vec::new() };
    let Some(cause) = told.ranking.causes.get(state.mishap.chosen) else { return Vec::new() };
    let mut design = told.mishap.design_of(cause);
    design.name = format!("{}: {}", say::title(cause), state.design().name);
    let holds = Holds::Kept(Box::new(Session::copy(design)), WENT_WRONG.to_owned());
    // The pot of an earlier call makes room.
    let earlier = |holds: &Holds| matches!(holds, Holds::Kept(_, from) if from == WENT_WRONG);
    state.columns.list.retain(|column| !earlier(&column.holds));
    let end = state.columns.list.len();
    if let Err(note) = state.columns.insert(end, holds) {
        return tell(state, note);
    }
    state.view = View::Beside;
    ask_beside(state)
}

/// The call goes into the log, once.
fn log(state: &mut State) -> Vec<Effect> {
    if state.mishap.logged {
        return Vec::new();
    }
    let day = state.now.map_or_else(String::new, Moment::day);
    match state.mishap.call(day) {
        Ok(Some(call)) => {
            state.mishap.log.calls.push(call);
            state.mishap.logged = true;
            state.said = Some("The call is in the log".to_owned());
            save(state)
        }
        Ok(None) => Vec::new(),
        Err(note) => {
            state.refused = Some(note);
            Vec::new()
        }
    }
}

fn save(state: &State) -> Vec<Effect> {
    let (base, log) = (state.mishap.log_base.clone(), state.mishap.log.clone());
    vec![DiskEffect::SaveCalls(Box::new((base, log))).into()]
}

/// Writes the calls as a table, and beside them how often each cause came with each lot.
fn export(state: &State, path: PathBuf) -> Vec<Effect> {
    let log: &CallLog = &state.mishap.log;
    let stem = path.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    let counts = path.with_file_name(format!("{stem}-counts.csv"));
    let write = |path, text| Effect::from(DiskEffect::WriteShared { path, text });
    vec![write(counts, calls::counts(log, words_of)), write(path, calls::calls(log, words_of))]
}
