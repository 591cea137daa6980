//! Files: new, open, save, close, recover; unsaved work is asked about first.

use std::path::PathBuf;

use super::{asked, beside, close_dialog, tell, turned};
use crate::columns::Holds;
use crate::command::{Choice, FileCommand, OnChanged};
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::session::{Outside, Session};
use crate::state::{Dialog, State, Then, View};
use potset_base::Note;
use potset_catalogue::my_pot;
use potset_doc::{Design, assets, format};
use potset_report::beside::changed;
use potset_store::files::{Over, Stamp, Written};
use potset_store::library::file_name;

/// Commands about files.
pub fn file(state: &mut State, command: FileCommand) -> Vec<Effect> {
    match command {
        FileCommand::Open(path) => first_ask(state, Then::Open(path)),
        FileCommand::MyPot(answers) => {
            close_dialog(state);
            first_ask(state, Then::MyPot(answers))
        }
        FileCommand::OpenDemo(name) => first_ask(state, Then::Demo(name)),
        FileCommand::SaveAs(path) => write(state, path, Over::Anything),
        FileCommand::Unsaved(choice) => unsaved(state, choice),
        FileCommand::Opened(path, Ok((design, stamp))) => {
            state.settings.remember(&path.display().to_string());
            let mut effects = show(state, Session::of_file(*design, path, stamp));
            effects.push(DiskEffect::SaveSettings.into());
            effects
        }
        FileCommand::Opened(_, Err(note)) | FileCommand::Saved(_, _, Err(note)) => {
            state.after_save = None;
            tell(state, note)
        }
        FileCommand::Saved(path, revision, Ok(Written::Done(stamp))) => saved(state, path, revision, stamp),
        FileCommand::Saved(path, _, Ok(Written::Changed)) => {
            state.session.outside = Outside::Changed;
            state.dialog = Dialog::Changed;
            state.theirs = None;
            vec![DiskEffect::ReadTheirs(path).into()]
        }
        FileCommand::Theirs(theirs) => {
            let told = theirs.map(|theirs| changed(&theirs, state.design(), &state.pantry));
            state.theirs = Some(told.map_err(|note| note.line()));
            Vec::new()
        }
        FileCommand::CloseAsked => first_ask(state, Then::Quit),
        FileCommand::Recover(place, take) => recover(state, place, take),
        FileCommand::RecoverLater => {
            state.recovery.clear();
            close_dialog(state);
            vec![DiskEffect::LeaveLost.into()]
        }
        FileCommand::Touched => vec![DiskEffect::LookOutside.into()],
        FileCommand::Outside(outside) => changed_outside(state, outside),
        FileCommand::Changed(what) => on_changed(state, what),
        FileCommand::Forget(path) => {
            state.settings.recent.retain(|p| *p != path);
            vec![DiskEffect::SaveSettings.into()]
        }
    }
}

/// Goes on at once if nothing would be lost, or asks first.
pub fn first_ask(state: &mut State, then: Then) -> Vec<Effect> {
    // Asked to close once more while it is asked already, it stays at where it began.
    if then == Then::Quit && state.dialog != Dialog::Unsaved(Then::Quit) {
        state.quit_from = (state.columns.list[state.columns.bench()].id, state.view);
    }
    if state.session.history.unsaved() {
        state.dialog = Dialog::Unsaved(then);
        return Vec::new();
    }
    go_on(state, then)
}

fn unsaved(state: &mut State, choice: Choice) -> Vec<Effect> {
    let Dialog::Unsaved(then) = state.dialog.clone() else { return Vec::new() };
    close_dialog(state);
    match choice {
        Choice::Cancel => match then {
            // The column goes back to its place.
            Then::TakeAway(id) if beside::exchange(state, id) => asked(state),
            Then::Quit => {
                // Nothing is thrown away after all.
                state.session.discarded = false;
                for column in &mut state.columns.list {
                    if let Holds::Kept(session, _) = &mut column.holds {
                        session.discarded = false;
                    }
                }
                // What was on the bench, and in sight, is so again.
                let (home, view) = state.quit_from;
                let brought_back = beside::exchange(state, home);
                state.view = view;
                let mut effects = if brought_back { asked(state) } else { Vec::new() };
                if view == View::Beside {
                    effects.extend(beside::shown(state));
                }
                effects.push(DiskEffect::KeepRecovery.into());
                effects
            }
            _ => Vec::new(),
        },
        Choice::Discard => {
            if then == Then::Quit {
                // Only a quit that comes about throws it away.
                state.session.discarded = true;
                return go_on(state, then);
            }
            let mut effects = vec![DiskEffect::DropRecovery.into()];
            effects.extend(go_on(state, then));
            effects
        }
        Choice::Save => {
            state.after_save = Some(then);
            save(state)
        }
    }
}

fn go_on(state: &mut State, then: Then) -> Vec<Effect> {
    match then {
        Then::New => {
            let fresh = my_pot::empty(&state.kitchen);
            demo(state, fresh)
        }
        Then::MyPot(answers) => {
            let made = my_pot::design(&answers, &state.pantry, &state.kitchen);
            state.tour = (made.is_ok() && !state.settings.toured).then_some(0);
            match made {
                Ok(made) => show(state, Session::made(made)),
                Err(note) => tell(state, note),
            }
        }
        Then::Demo(name) => demo(state, assets::demo(name)),
        Then::Ask => vec![ScreenEffect::AskOpen.into()],
        Then::Open(path) => vec![DiskEffect::Read(path).into()],
        Then::TakeAway(id) => beside::take_away(state, id),
        Then::Quit => {
            // Designs that stand beside this one may have changes of their own.
            let unsaved = state.columns.unsaved().next().map(|(id, _)| id);
            if let Some(id) = unsaved {
                beside::exchange(state, id);
                state.view = View::Bench;
                state.dialog = Dialog::Unsaved(Then::Quit);
                return asked(state);
            }
            // A copy may be in a file by now.
            turned::remember(state, vec![DiskEffect::DropRecovery.into(), ScreenEffect::Quit.into()])
        }
    }
}

fn demo(state: &mut State, design: Result<Design, Note>) -> Vec<Effect> {
    match design {
        Ok(design) => show(state, Session::copy(design)),
        Err(note) => tell(state, note),
    }
}

fn show(state: &mut State, session: Session) -> Vec<Effect> {
    state.session = session;
    state.said = None;
    state.ghost = None;
    // What was found out is of another pot.
    state.doubt.clear();
    close_dialog(state);
    asked(state)
}

/// Asks for a file to save the design in.
pub fn ask_save(state: &State) -> Vec<Effect> {
    vec![ScreenEffect::AskSave(file_name(&state.design().name)).into()]
}

/// Saves to the file that the design came from, or asks for one. What others wrote there is not written over.
pub fn save(state: &mut State) -> Vec<Effect> {
    let known = Over::Same(state.session.stamp);
    match state.session.path.clone() {
        Some(path) => write(state, path, known),
        None => ask_save(state),
    }
}

fn write(state: &mut State, path: PathBuf, over: Over) -> Vec<Effect> {
    match format::write(state.design()) {
        Ok(text) => {
            vec![DiskEffect::Write { path, text, revision: state.session.history.revision(), over }.into()]
        }
        Err(note) => {
            state.after_save = None;
            tell(state, note)
        }
    }
}

fn saved(state: &mut State, path: PathBuf, revision: u64, stamp: Option<Stamp>) -> Vec<Effect> {
    state.settings.remember(&path.display().to_string());
    state.said = Some(format!("Saved to {}", path.display()));
    state.session.path = Some(path);
    state.session.stamp = stamp;
    state.session.outside = Outside::Untouched;
    let mut effects = vec![DiskEffect::SaveSettings.into()];
    if state.view == View::Recipes {
        effects.extend(super::listing::list(state));
    }
    // Edits made while the file was written stay unsaved.
    if state.session.history.revision() == revision {
        state.session.history.mark_saved();
        effects.push(DiskEffect::DropRecovery.into());
        if let Some(then) = state.after_save.take() {
            effects.extend(go_on(state, then));
        }
    }
    effects
}

/// Tells what became of the file, once.
fn changed_outside(state: &mut State, outside: Outside) -> Vec<Effect> {
    state.session.outside = outside;
    let file = state.session.path.as_ref().map_or_else(String::new, |path| path.display().to_string());
    let note = match outside {
        Outside::Untouched => return Vec::new(),
        Outside::Changed => Note {
            sentence: "Another window or program changed the file".to_owned(),
            ..Note::error(
                file,
                "The file changed on the disk",
                "Open it again, or save this design under another name",
            )
        },
        Outside::Gone => {
            state.said = None;
            state.session.history.mark_unsaved();
            Note::error(
                file,
                "The file or its folder is gone",
                "Save the design there again, or under another name",
            )
        }
    };
    tell(state, note);
    vec![DiskEffect::KeepRecovery.into()]
}

fn on_changed(state: &mut State, what: OnChanged) -> Vec<Effect> {
    close_dialog(state);
    match (what, state.session.path.clone()) {
        (OnChanged::Elsewhere, _) => ask_save(state),
        (OnChanged::Replace, Some(path)) => write(state, path, Over::Anything),
        _ => {
            state.after_save = None;
            Vec::new()
        }
    }
}

/// Takes up unsaved work of a window that is gone, or throws it away.
fn recover(state: &mut State, place: usize, take: bool) -> Vec<Effect> {
    if place >= state.recovery.len() {
        return Vec::new();
    }
    if !take {
        let lost = state.recovery.remove(place);
        close_dialog(state);
        return vec![DiskEffect::DropLost(lost.copy).into()];
    }
    let bench = &state.session;
    let unsaved = &state.recovery[place].unsaved;
    // The bench is free, or holds the file as it was before this work.
    let free = !bench.history.unsaved() && (bench.path.is_none() || bench.path == unsaved.path);
    let session = Session::recovered(unsaved.clone());
    let mut effects = Vec::new();
    if free {
        let lost = state.recovery.remove(place);
        effects.extend(show(state, session));
        effects.push(DiskEffect::Recovered(lost.copy).into());
    } else {
        let end = state.columns.list.len();
        match state.columns.insert(end, Holds::Kept(Box::new(session), "recovered".to_owned())) {
            Ok(_) => effects.push(DiskEffect::Recovered(state.recovery.remove(place).copy).into()),
            Err(note) => effects.extend(tell(state, note)),
        }
        close_dialog(state);
        if state.view == View::Beside {
            effects.extend(beside::shown(state));
        }
    }
    effects
}
