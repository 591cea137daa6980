//! What the Batches view asks for.

use std::path::PathBuf;
use std::sync::Arc;

use crate::batches::{AheadTold, BatchesPage, CloudTold, LoggerTold, LoggerWish, OpenBatch, Taught};
use crate::book::{BookChange, BookDone, UnderWay};
use potset_base::Note;
use potset_doc::Batch;
use potset_doc::batch::change::BatchChange;
use potset_doc::learnt::LearntBook;
use potset_store::book::Listed;
use potset_store::library::{Copied, Thrown};
use potset_store::memory::LearntKept;

/// What the Batches view asks for.
#[derive(Clone, Debug)]
pub enum BatchesCommand {
    Page(BatchesPage),
    Find(String),
    /// Opens the page of a batch by its file, or closes it.
    Open(Option<String>),
    Opened(String, Result<Box<OpenBatch>, Note>),
    /// Begins a pot and shows it: from a house recipe by its file, else from the design on the bench.
    Begin(Option<String>),
    /// The pot as it is begun, or why it cannot be.
    Begun(Result<Box<Batch>, Note>),
    /// The book, with the pots under way.
    Listed(u64, Box<Listed>, Vec<UnderWay>),
    NotListed(u64, Note),
    /// The book is another one by now.
    Touched,
    /// The reading line as it is typed.
    Type(String),
    /// Puts words into the reading line; what it saves stands in the place of this reading, if one is named.
    Put(String, Option<usize>),
    /// Saves what the reading line says.
    Save,
    /// Changes the pot of a file.
    Change(String, Vec<BatchChange>),
    /// Moves the open pot to the bin.
    ThrowAway,
    /// What is in the bin of the book.
    Bin(Vec<Thrown>),
    /// A change of the book that is asked for as it is.
    Book(BookChange),
    /// The book was changed, or could not be.
    Changed(BookChange, Result<BookDone, Note>),
    /// Takes the last change of the book back.
    Undo,
    /// It was taken back, or could not be.
    Unbooked(BookChange, Result<BookDone, Note>),
    /// The possible pots of the open pot, by its number.
    Cloud(u64, Result<Arc<CloudTold>, Note>),
    Ahead(u64, Arc<AheadTold>),
    /// A minute went by.
    Minute,
    /// Works out what all pots taught.
    Learn,
    Learnt(u64, Result<Arc<Taught>, Note>),
    /// Forecasts use what pots taught from now on; what stood there before, again; nothing of it.
    Keep,
    UndoKept,
    Forget,
    /// What was to be kept, and what became of that.
    Kept(Box<LearntBook>, Result<LearntKept, Note>),
    AskLogger,
    /// Reads a logger's file.
    Logger(PathBuf),
    LoggerWish(LoggerWish),
    LoggerRead(u64, Result<Box<LoggerTold>, Note>),
    /// Takes the logger's warmth into the open pot, and its pH as readings if so.
    UseLogger(bool),
    CloseLogger,
    /// Copies the demo pots into the book.
    ImportDemos,
    AskImport,
    Import(PathBuf),
    Copied(PathBuf, Result<Copied, Note>),
    /// Asks for a file to write.
    AskExport(BatchFile),
    ExportTo(BatchFile, PathBuf),
    /// Makes the record and has the system's viewer open it, which prints.
    Print,
    Exported(PathBuf, Result<(), Note>),
}

/// A file of a batch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BatchFile {
    /// What was done and read, for those who sell.
    Record,
    /// The readings as a table.
    Readings,
}

impl BatchFile {
    /// The ending that is offered.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Record => "pdf",
            Self::Readings => "csv",
        }
    }
}
