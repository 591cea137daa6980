//! The folders that the runner remembers things in.

use crate::session::Session;
use crate::state::{Dialog, State};
use potset_base::Note;
use potset_doc::Settings;
use potset_store::book::Book;
use potset_store::folders::Folders;
use potset_store::lessons::Lessons;
use potset_store::recovery::Recovery;
use potset_store::{files, memory};

/// What is remembered, and where.
pub(super) struct Disk {
    pub(super) folders: Folders,
    /// `None`: no folder could be made for them.
    pub(super) recovery: Option<Recovery>,
    /// Stamp of the maker's pantry as it was read or written last.
    pub(super) own_stamp: Option<files::Stamp>,
}

impl Disk {
    /// Opens the folders; work that other windows lost is asked about.
    pub fn open(folders: Folders, state: &mut State) -> Self {
        let recovery = match Recovery::open(&folders) {
            Ok(recovery) => {
                let (lost, notes) = recovery.lost();
                state.notices.extend(notes);
                state.recovery = lost;
                Some(recovery)
            }
            Err(note) => {
                state.notices.push(note);
                None
            }
        };
        if !state.recovery.is_empty() {
            state.dialog = Dialog::Recovery;
        }
        let (kept, bad) = memory::learnt(&folders);
        state.take_learnt(kept);
        state.notices.extend(bad);
        let (calls, bad) = memory::calls(&folders);
        state.mishap.log_base.clone_from(&calls);
        state.mishap.log = calls;
        state.notices.extend(bad);
        let (own, bad) = Lessons::of(&folders).all();
        let order = state.settings.lessons.clone();
        state.class.take_own(own, &order);
        state.notices.extend(bad);
        let own_stamp = memory::own_stamp(&folders);
        Self { folders, recovery, own_stamp }
    }

    /// The batch book.
    pub(super) fn book(&self, settings: &Settings) -> Book {
        Book::of(settings, &self.folders)
    }

    /// Brings batches that were begun before there was a folder of recipes beside these.
    pub(super) fn gather(&self, settings: &Settings) {
        self.book(settings).take_over(&self.book(&Settings::default()));
    }

    pub(super) fn keep(&self, sessions: &[&Session]) -> Result<(), Note> {
        let copies: Vec<_> = sessions.iter().map(|session| (session.number, session.unsaved())).collect();
        self.recovery.as_ref().map_or(Ok(()), |recovery| recovery.keep(&copies))
    }
}
