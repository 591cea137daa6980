//! Effects: what `update` asks to be done outside.

use std::path::PathBuf;

use super::book::BookChange;
use super::card::CardFile;
use super::class::ClassFile;
use super::command::BatchFile;
use super::jobs::{Job, Key};
use super::recipes::RecipeChange;
use potset_base::either;
use potset_doc::calls::CallLog;
use potset_doc::learnt::LearntBook;
use potset_store::files::Over;

either! {
    /// What must be done outside `update`.
    #[derive(Debug)]
    pub enum Effect {
        /// Works something out, in the place of an older job of its key.
        Work(Box<dyn Job>),
        /// Gives up what is worked out.
        GiveUp(Key),
        Disk(DiskEffect),
        Screen(ScreenEffect),
    }
}

impl Effect {
    /// Something to be worked out.
    pub fn work(job: impl Job + 'static) -> Self {
        Self::Work(Box::new(job))
    }
}

/// What is read and written at once.
#[derive(Clone, Debug, PartialEq)]
pub enum DiskEffect {
    Read(PathBuf),
    ReadBeside(PathBuf),
    /// What others wrote into the file of the open design.
    ReadTheirs(PathBuf),
    ReadShared(PathBuf),
    Write {
        path: PathBuf,
        text: String,
        revision: u64,
        over: Over,
    },
    WriteShared {
        path: PathBuf,
        text: String,
    },
    SaveSettings,
    SaveKitchen,
    SaveOwn,
    KeepRecovery,
    DropRecovery,
    /// The copy at this place was taken up: ours is kept, then it goes.
    Recovered(PathBuf),
    /// The copy at this place is thrown away.
    DropLost(PathBuf),
    /// Copies that were found are let go.
    LeaveLost,
    /// Changes the folder of the house recipes.
    Recipe(RecipeChange),
    /// Makes the folder of the house recipes.
    MakeLibrary,
    /// Changes the batch book.
    Book(BookChange),
    /// Takes a change of the batch book back.
    Unbook(BookChange),
    /// Keeps what pots taught.
    KeepLearnt(Box<LearntBook>),
    /// Saves the call log: as it was read or written last, and as it is now.
    SaveCalls(Box<(CallLog, CallLog)>),
    /// Keeps a lesson of the maker's own.
    KeepLesson {
        file: String,
        text: String,
    },
    DropLesson(String),
    ReadLesson(PathBuf),
    /// Looks what became of the open file.
    LookOutside,
}

/// What only the screen can do; the desk hands it on.
#[derive(Clone, Debug, PartialEq)]
pub enum ScreenEffect {
    AskOpen,
    /// The file name to offer.
    AskSave(String),
    /// A file to put beside the others.
    AskAdd,
    /// The file name to offer for the comparison.
    AskExport(String),
    AskTakeIn,
    /// What goes into the file of the Card view, and the name to offer.
    AskCard(CardFile, String),
    /// What goes into the file of a batch, and the name to offer.
    AskBatchFile(BatchFile, String),
    /// What goes into the file of a lesson, its key, and the name to offer.
    AskLesson(ClassFile, String, String),
    /// A lesson that someone shared.
    AskImportLesson,
    /// A logger's file.
    AskLogger,
    /// The file name to offer for the call log.
    AskCallLog(String),
    /// A folder to copy batches from.
    AskImportBatches,
    /// A folder to copy recipes from.
    AskImport,
    /// A folder to copy recipes into.
    AskExportAll,
    /// The file name to offer.
    AskShare(String),
    Copy(String),
    Quit,
}
