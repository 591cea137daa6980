//! The Beside view: columns come, go, move and change places with the bench.

use std::sync::Arc;

use super::columns::ask_beside;
use super::{asked, close_dialog, sweeps, tell, turned};
use crate::columns::{self, ComparisonResult, Holds};
use crate::command::{BesideCommand, WindowCommand};
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::beside::ExportJob;
use crate::session::Session;
use crate::state::{Dialog, State, Then, View};
use potset_base::Note;
use potset_compare::beside::Causes;
use potset_doc::{Design, assets};

/// Commands of the Beside view.
pub fn beside(state: &mut State, command: BesideCommand) -> Vec<Effect> {
    let moves = turned::moves(&command);
    let effects = carry_out(state, command);
    if moves { turned::remember(state, effects) } else { effects }
}

fn carry_out(state: &mut State, command: BesideCommand) -> Vec<Effect> {
    match command {
        BesideCommand::AskAdd => vec![ScreenEffect::AskAdd.into()],
        BesideCommand::AddFile(path) => vec![DiskEffect::ReadBeside(path).into()],
        BesideCommand::Read(path, read) => match read {
            Ok((design, stamp)) => {
                let place = path.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
                let session = Session::of_file(*design, path, stamp);
                add(state, Holds::Kept(Box::new(session), place))
            }
            Err(note) => tell(state, note),
        },
        BesideCommand::AddDemo(name) => match assets::demo(name) {
            Ok(design) => add(state, kept(design, "demo")),
            Err(note) => tell(state, note),
        },
        BesideCommand::AddCase(key) => match columns::case(&key, &state.pantry) {
            Ok(holds) => add(state, holds),
            Err(note) => tell(state, note),
        },
        BesideCommand::AddCopy => {
            let design = Design::clone(state.design());
            add(state, kept(design, "as it was"))
        }
        BesideCommand::Remove(id) => remove(state, id),
        BesideCommand::Move(id, to) => {
            if let Some(from) = state.columns.place(id) {
                let column = state.columns.list.remove(from);
                let to = to.min(state.columns.list.len());
                state.columns.list.insert(to, column);
            }
            ask_beside(state)
        }
        BesideCommand::Edit(id, edit, gesture) => turned::edit(state, id, &edit, gesture),
        BesideCommand::EndGesture(id) => turned::end_gesture(state, id),
        BesideCommand::Undo(id) => turned::undo(state, id),
        BesideCommand::Levers(shown) => {
            state.columns.levers = shown;
            Vec::new()
        }
        BesideCommand::ComeBack(list) => turned::come_back(state, list),
        BesideCommand::ToBench(id) => to_bench(state, id),
        BesideCommand::Duplicate(id) => duplicate(state, id),
        BesideCommand::Page(page) => {
            state.columns.page = page;
            sweeps::again(state)
        }
        BesideCommand::LaidOver(over) => {
            state.columns.laid_over = over;
            Vec::new()
        }
        BesideCommand::Stop(hours) => {
            if state.columns.common_stop == hours {
                return Vec::new();
            }
            state.columns.common_stop = hours;
            ask_beside(state)
        }
        BesideCommand::Versus(place) => {
            state.columns.versus = place;
            Vec::new()
        }
        BesideCommand::AskExport(picture) => {
            let ending = if picture { "png" } else { "csv" };
            vec![ScreenEffect::AskExport(format!("beside.{ending}")).into()]
        }
        BesideCommand::ExportTo(path) => {
            vec![Effect::work(ExportJob(path, Arc::clone(&state.columns.told)))]
        }
        BesideCommand::Exported(path, Ok(())) => {
            tell(state, Note::done(path.display().to_string(), "The comparison was written"))
        }
        BesideCommand::Exported(_, Err(note)) => tell(state, note),
        BesideCommand::Told(number, told) => answered(state, number, told),
        BesideCommand::Caused(number, i, causes) => {
            caused(state, number, i, causes);
            Vec::new()
        }
    }
}

fn kept(design: Design, place: &str) -> Holds {
    Holds::Kept(Box::new(Session::copy(design)), place.to_owned())
}

/// Puts a column at the end, and shows the view.
fn add(state: &mut State, holds: Holds) -> Vec<Effect> {
    let end = state.columns.list.len();
    if let Err(note) = state.columns.insert(end, holds) {
        return tell(state, note);
    }
    state.view = View::Beside;
    ask_beside(state)
}

/// The view comes into sight: whatever was changed elsewhere meanwhile is put beside the others now.
pub fn shown(state: &mut State) -> Vec<Effect> {
    let mut effects = ask_beside(state);
    effects.extend(sweeps::again(state));
    effects
}

fn answered(state: &mut State, number: u64, told: Result<Box<ComparisonResult>, Note>) -> Vec<Effect> {
    let columns = &mut state.columns;
    if number < columns.answered || number > columns.question {
        return Vec::new();
    }
    columns.answered = number;
    match told {
        Ok(told) => columns.told = Arc::new(*told),
        Err(note) => return tell(state, note),
    }
    columns.told_number += 1;
    columns.versus = columns.versus.clamp(1, columns.list.len().saturating_sub(1).max(1));
    Vec::new()
}

fn caused(state: &mut State, number: u64, i: usize, causes: Causes) {
    let columns = &mut state.columns;
    if number == columns.answered
        && let Some(slot) = Arc::make_mut(&mut columns.told).beside.causes.get_mut(i)
    {
        *slot = Some(causes);
    }
}

/// Lets a kept design and the one on the bench change places; the columns stay where they are.
pub fn exchange(state: &mut State, id: u64) -> bool {
    let bench = state.columns.bench();
    let Some(place) = state.columns.place(id) else { return false };
    let list = &mut state.columns.list;
    let Holds::Kept(session, _) = &mut list[place].holds else { return false };
    std::mem::swap(&mut **session, &mut state.session);
    let Holds::Kept(former, _) = std::mem::replace(&mut list[place].holds, Holds::Bench) else {
        return false;
    };
    let words = place_words(&former);
    list[bench].holds = Holds::Kept(former, words);
    state.ghost = None;
    true
}

fn place_words(session: &Session) -> String {
    session
        .path
        .as_ref()
        .and_then(|p| p.file_name())
        .map_or_else(|| "not in a file yet".to_owned(), |name| name.to_string_lossy().into_owned())
}

/// Opens a column's design on the bench. A published case is copied.
fn to_bench(state: &mut State, id: u64) -> Vec<Effect> {
    let Some(column) = state.columns.list.iter().find(|c| c.id == id) else { return Vec::new() };
    match &column.holds {
        Holds::Bench => super::update(state, WindowCommand::Show(View::Bench)),
        Holds::Case(_) => duplicate(state, id),
        Holds::Kept(..) => {
            exchange(state, id);
            state.view = View::Bench;
            let mut effects = asked(state);
            effects.push(DiskEffect::KeepRecovery.into());
            effects
        }
    }
}

/// A copy of a column goes to the bench to be changed; what was there stays beside it.
fn duplicate(state: &mut State, id: u64) -> Vec<Effect> {
    let Some(place) = state.columns.place(id) else { return Vec::new() };
    if let Some(note) = state.columns.full() {
        return tell(state, note);
    }
    let mut design = Design::clone(&state.column_design(&state.columns.list[place].holds));
    design.name = format!("{}, changed", design.name);
    let former = std::mem::replace(&mut state.session, Session::copy(design));
    let words = place_words(&former);
    let bench = state.columns.bench();
    state.columns.list[bench].holds = Holds::Kept(Box::new(former), words);
    // There is room: it was looked at above.
    let _ = state.columns.insert(place + 1, Holds::Bench);
    state.ghost = None;
    close_dialog(state);
    state.view = View::Bench;
    let mut effects = asked(state);
    effects.push(DiskEffect::KeepRecovery.into());
    effects
}

/// Takes a column away. Unsaved work is asked about first, with the column on the bench.
fn remove(state: &mut State, id: u64) -> Vec<Effect> {
    let Some(place) = state.columns.place(id) else { return Vec::new() };
    match &state.columns.list[place].holds {
        Holds::Bench => {
            let note = Note::error(
                "Beside",
                "This design is on the bench and cannot be removed",
                "Open another design, or remove the others",
            );
            return tell(state, note);
        }
        Holds::Kept(session, _) if session.history.unsaved() => {
            let bench = state.columns.list[state.columns.bench()].id;
            exchange(state, id);
            state.dialog = Dialog::Unsaved(Then::TakeAway(bench));
            return asked(state);
        }
        Holds::Kept(..) | Holds::Case(_) => {}
    }
    state.columns.list.remove(place);
    ask_beside(state)
}

/// After the question about unsaved work: the design on the bench goes, the one that it changed places with comes back.
pub fn take_away(state: &mut State, id: u64) -> Vec<Effect> {
    let going = state.columns.list[state.columns.bench()].id;
    if !exchange(state, id) {
        return Vec::new();
    }
    state.columns.list.retain(|c| c.id != going);
    let mut effects = asked(state);
    effects.push(DiskEffect::KeepRecovery.into());
    effects
}
