//! Files: new, open, save, close, recover; unsaved work is asked about first.

use std::path::PathBuf;

use super::{asked, beside, close_dialog, tell};
use crate::app::columns::Holds;
use crate::app::command::{Choice, Command, Effect};
use crate::app::session::Session;
use crate::app::state::{Dialog, State, Then, View};
use crate::base::Note;
use crate::doc::{Design, assets, format};

/// Commands about files.
pub fn file(state: &mut State, command: Command) -> Vec<Effect> {
    match command {
        Command::Open(path) => first_ask(state, Then::Open(path)),
        Command::OpenDemo(name) => first_ask(state, Then::Demo(name)),
        Command::SaveAs(path) => write(state, path),
        Command::Unsaved(choice) => unsaved(state, choice),
        Command::Opened(path, Ok((design, stamp))) => {
            state.settings.remember(&path.display().to_string());
            let mut effects = show(state, Session::of_file(*design, path, stamp));
            effects.push(Effect::SaveSettings);
            effects
        }
        Command::Opened(_, Err(note)) | Command::Saved(_, _, Err(note)) => {
            state.after_save = None;
            tell(state, note);
            Vec::new()
        }
        Command::Saved(path, revision, Ok(stamp)) => saved(state, path, revision, stamp),
        Command::CloseAsked => first_ask(state, Then::Quit),
        Command::Recover(take) => recover(state, take),
        Command::ChangedOutside => {
            // Told once; the next save would overwrite what another window wrote.
            state.session.stamp = None;
            tell(
                state,
                Note {
                    sentence: "Another window or program wrote it".to_owned(),
                    ..Note::error(
                        state.file_words(),
                        "The file changed on the disk",
                        "Save under another name, or open it again",
                    )
                },
            );
            Vec::new()
        }
        Command::Forget(path) => {
            state.settings.recent.retain(|p| *p != path);
            vec![Effect::SaveSettings]
        }
        _ => Vec::new(),
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
    let Dialog::Unsaved(then) = std::mem::take(&mut state.dialog) else { return Vec::new() };
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
                effects.push(Effect::KeepRecovery);
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
            let mut effects = vec![Effect::DropRecovery];
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
            let fresh = assets::demo("coconut-pot.ron").map(|d| Design {
                name: "New design".to_owned(),
                spoons: state.kitchen.spoons,
                ..d
            });
            demo(state, fresh)
        }
        Then::Demo(name) => demo(state, assets::demo(name)),
        Then::Ask => vec![Effect::AskOpen],
        Then::Open(path) => vec![Effect::Read(path)],
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
            vec![Effect::DropRecovery, Effect::Quit]
        }
    }
}

fn demo(state: &mut State, design: Result<Design, Note>) -> Vec<Effect> {
    match design {
        Ok(design) => show(state, Session::copy(design)),
        Err(note) => {
            tell(state, note);
            Vec::new()
        }
    }
}

fn show(state: &mut State, session: Session) -> Vec<Effect> {
    state.session = session;
    state.ghost = None;
    // What was found out is of another pot.
    state.doubt.clear();
    close_dialog(state);
    asked(state)
}

/// Saves to the file that the design came from, or asks for one.
pub fn save(state: &mut State) -> Vec<Effect> {
    state.session.path.clone().map_or_else(|| vec![Effect::AskSave], |path| write(state, path))
}

fn write(state: &mut State, path: PathBuf) -> Vec<Effect> {
    match format::write(state.design()) {
        Ok(text) => vec![Effect::Write { path, text, revision: state.session.history.revision() }],
        Err(note) => {
            state.after_save = None;
            tell(state, note);
            Vec::new()
        }
    }
}

fn saved(state: &mut State, path: PathBuf, revision: u64, stamp: Option<u128>) -> Vec<Effect> {
    state.settings.remember(&path.display().to_string());
    state.session.path = Some(path);
    state.session.stamp = stamp;
    let mut effects = vec![Effect::SaveSettings];
    // Edits made while the file was written stay unsaved.
    if state.session.history.revision() == revision {
        state.session.history.mark_saved();
        effects.push(Effect::DropRecovery);
        if let Some(then) = state.after_save.take() {
            effects.extend(go_on(state, then));
        }
    }
    effects
}

fn recover(state: &mut State, take: bool) -> Vec<Effect> {
    close_dialog(state);
    let mut found = std::mem::take(&mut state.recovery).into_iter();
    match found.next() {
        Some(design) if take => {
            for design in found {
                let session = Box::new(Session::recovered(design));
                let end = state.columns.list.len();
                if let Err(note) = state.columns.insert(end, Holds::Kept(session, "recovered".to_owned())) {
                    tell(state, note);
                }
            }
            show(state, Session::recovered(design))
        }
        _ => vec![Effect::DropRecovery],
    }
}
