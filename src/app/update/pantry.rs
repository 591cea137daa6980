//! The Pantry view: the maker's own entries, shared files, labels, bases made from starting ingredients.

use std::path::PathBuf;
use std::sync::Arc;

use super::bench::change;
use super::window::show;
use super::{asked, tell};
use crate::command::PantryCommand;
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::label::LabelJob;
use crate::shelves::PantryPage;
use crate::state::{State, View};
use potset_base::Note;
use potset_catalogue::making::Making;
use potset_doc::own::OwnEdit;
use potset_doc::pantry::{EntryKind, Pantry};
use potset_doc::{Edit, format, label};

/// Commands of the Pantry view.
pub fn pantry(state: &mut State, command: PantryCommand) -> Vec<Effect> {
    match command {
        PantryCommand::Page(page) => {
            turn_to(state, page);
            Vec::new()
        }
        PantryCommand::OpenEntry(entry) => {
            state.shelves.open = entry;
            state.shelves.page = PantryPage::Entries;
            show(state, View::Pantry)
        }
        PantryCommand::Own(edit) => own(state, &edit),
        PantryCommand::OwnSaved(merged) => {
            let new = state.shelves.settle(&merged);
            for note in merged.told {
                tell(state, note);
            }
            if !new {
                return Vec::new();
            }
            state.pantry = Arc::new(state.shelves.all());
            asked(state)
        }
        PantryCommand::Seen(list) => {
            state.shelves.seen = Arc::new(list);
            Vec::new()
        }
        PantryCommand::LabelText(text) => label_text(state, text),
        PantryCommand::LabelRead(question, read) => {
            let desk = &mut state.shelves.label;
            if question != desk.question {
                return Vec::new();
            }
            desk.answered = question;
            match read {
                Ok(read) => desk.read = Some(read),
                Err(note) => return tell(state, note),
            }
            Vec::new()
        }
        PantryCommand::Making(making) => {
            state.shelves.making = making;
            Vec::new()
        }
        PantryCommand::UseBase(key) => use_base(state, &key),
        PantryCommand::AskTakeIn => vec![ScreenEffect::AskTakeIn.into()],
        PantryCommand::AskShare(kind, key) => share(state, kind, &key),
        PantryCommand::TakeIn(path) => vec![DiskEffect::ReadShared(path).into()],
        PantryCommand::TakenIn(_, Ok(entries)) => {
            let mut effects = own(state, &OwnEdit::Add(entries));
            effects.extend(show(state, View::Pantry));
            state.shelves.page = PantryPage::Entries;
            effects
        }
        PantryCommand::TakenIn(_, Err(note)) => tell(state, note),
        PantryCommand::ShareTo(path) => write(state, path),
    }
}

/// Opens a page. A base is made in the usual way of the first starting ingredient until another one is picked.
pub fn turn_to(state: &mut State, page: PantryPage) {
    state.shelves.page = page;
    let making = &mut state.shelves.making;
    if page == PantryPage::Making
        && making.raw.is_empty()
        && let Some(raw) = making.raw(&state.pantry)
    {
        *making = Making::usual(raw, making.grams);
    }
}

fn own(state: &mut State, edit: &OwnEdit) -> Vec<Effect> {
    match state.shelves.change(edit) {
        Ok(()) => renewed(state),
        Err(note) => tell(state, note),
    }
}

/// The entries are others: a new question, and the maker's pantry is kept.
pub fn renewed(state: &mut State) -> Vec<Effect> {
    state.pantry = Arc::new(state.shelves.all());
    let mut effects = asked(state);
    effects.push(DiskEffect::SaveOwn.into());
    effects
}

fn label_text(state: &mut State, text: String) -> Vec<Effect> {
    let desk = &mut state.shelves.label;
    if text == desk.text {
        return Vec::new();
    }
    desk.text = text;
    desk.question += 1;
    if desk.text.len() > label::MOST_BYTES {
        let note = Note::error("Label", "This is too long for a label", "Paste the words of one label");
        return tell(state, note);
    }
    if state.shelves.label.text.trim().is_empty() {
        state.shelves.label.read = None;
        state.shelves.label.answered = state.shelves.label.question;
        return Vec::new();
    }
    let label = &state.shelves.label;
    let job = LabelJob { number: label.question, text: label.text.clone(), scenario: state.owned_scenario() };
    vec![Effect::work(job)]
}

/// Puts a base in the place of the design's first one.
fn use_base(state: &mut State, key: &str) -> Vec<Effect> {
    let swap = Edit::Swap(potset_doc::edit::LineKind::Bases, 0, key.to_owned());
    let mut effects = change(state, &swap, None);
    effects.extend(show(state, View::Bench));
    effects
}

fn share(state: &mut State, kind: EntryKind, key: &str) -> Vec<Effect> {
    state.shelves.open = Some((kind, key.to_owned()));
    vec![ScreenEffect::AskShare(format!("{key}.ron")).into()]
}

/// Writes the open entry with all that it needs.
fn write(state: &mut State, path: PathBuf) -> Vec<Effect> {
    let Some((kind, key)) = state.shelves.open.clone() else { return Vec::new() };
    let mut one = Pantry::default();
    one.put(&state.pantry, kind, &key);
    one.put_needs(&state.pantry, kind, &key);
    match format::write(&one) {
        Ok(text) => vec![DiskEffect::WriteShared { path, text }.into()],
        Err(note) => tell(state, note),
    }
}
