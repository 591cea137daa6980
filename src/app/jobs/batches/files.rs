//! Files that leave the batch book, the record and the table of readings; and batches that are copied into it.

use std::path::PathBuf;
use std::sync::Arc;

use super::super::{At, Job, Key, Step};
use super::broken;
use crate::command::{BatchFile, BatchesCommand, Command};
use potset_base::Note;
use potset_doc::batch::rows::BatchRows;
use potset_doc::{Batch, Pantry};
use potset_export::batches;
use potset_paper::{Form, Size, numbered};
use potset_report::record;
use potset_store::book::Book;
use potset_store::{files, viewer};

/// Writes a file of a batch.
pub struct BatchFileJob {
    pub batch: Arc<Batch>,
    pub pantry: Arc<Pantry>,
    pub size: Size,
    pub path: PathBuf,
    pub what: BatchFile,
    /// The system's viewer opens it then.
    pub open: bool,
}

impl BatchFileJob {
    fn write(&self) -> Result<(), Note> {
        let Self { batch, pantry, size, path, what, open } = self;
        match what {
            BatchFile::Readings => {
                files::write_bytes(path, batches::write(&[BatchRows::of(batch)]).as_bytes())?;
            }
            BatchFile::Record => {
                let all = Form::of(path)?.files(&record::sheet(batch, pantry), *size)?;
                for (i, bytes) in all.iter().enumerate() {
                    files::write_bytes(&numbered(path, i + 1), bytes)?;
                }
            }
        }
        if *open { viewer::open(path) } else { Ok(()) }
    }
}

impl Job for BatchFileJob {
    fn key(&self) -> Key {
        Key::Export(self.path.clone())
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let done = self.write();
        Step::done(BatchesCommand::Exported(self.path, done).into())
    }

    fn fault(&self) -> Command {
        BatchesCommand::Exported(self.path.clone(), Err(broken("Writing the file"))).into()
    }
}

/// Copies batches of a folder into the book.
pub struct CopyBatchesJob {
    pub book: Book,
    pub other: PathBuf,
}

impl Job for CopyBatchesJob {
    fn key(&self) -> Key {
        Key::CopyBatches
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let copied = self.book.import(&self.other);
        Step::done(BatchesCommand::Copied(self.other, copied).into())
    }

    fn fault(&self) -> Command {
        BatchesCommand::Copied(self.other.clone(), Err(broken("Copying the pots"))).into()
    }
}
