//! The batch book, listed: only files that were written since the last time are read.

use std::sync::Arc;

use super::super::{At, Job, Key, Step};
use super::broken;
use crate::book::UnderWay;
use crate::command::{BatchesCommand, Command};
use potset_store::book::Book;

/// Lists the book, with the pots under way.
pub struct ListJob {
    pub number: u64,
    pub book: Book,
}

impl Job for ListJob {
    fn key(&self) -> Key {
        Key::Batches
    }

    fn step(self: Box<Self>, at: &mut At<'_>) -> Step {
        Step::done(match self.book.list_while(&mut || at.go_on()) {
            // Something was asked meanwhile: it goes on with the files that are left.
            Ok(None) => return Step::more(*self),
            Ok(Some(mut listed)) => {
                let mut running = Vec::new();
                for known in listed.all.iter().filter(|known| !known.summary.ended) {
                    match self.book.read(&known.file) {
                        Ok(batch) => {
                            running.push(UnderWay { file: known.file.clone(), batch: Arc::new(batch) });
                        }
                        Err(note) => listed.bad.push(note),
                    }
                }
                BatchesCommand::Listed(self.number, Box::new(listed), running).into()
            }
            Err(note) => BatchesCommand::NotListed(self.number, note).into(),
        })
    }

    fn fault(&self) -> Command {
        BatchesCommand::NotListed(self.number, broken("Listing the batches")).into()
    }
}
