//! The batch book as the window knows it: pots under way, and changes that it asks for.

use std::sync::Arc;

use potset_doc::Batch;
use potset_doc::batch::change::BatchChange;

/// A pot under way.
#[derive(Clone, Debug, PartialEq)]
pub struct UnderWay {
    /// Its file in the book.
    pub file: String,
    pub batch: Arc<Batch>,
}

/// A change of the book.
#[derive(Clone, Debug, PartialEq)]
pub enum BookChange {
    Begin(Box<Batch>),
    /// Changes of the batch in a file, all at once.
    Change(String, Vec<BatchChange>),
    ThrowAway(String),
    /// From the bin.
    PutBack(u32),
    /// From the bin, for good.
    Delete(u32),
}

impl BookChange {
    /// The change made to pots that live as long as the window, where nothing is remembered.
    pub fn apply(&self, all: &mut Vec<UnderWay>) {
        match self {
            Self::Begin(batch) => {
                let file = format!("pot {}", all.len() + 1);
                all.push(UnderWay { file, batch: Arc::new((**batch).clone()) });
            }
            Self::Change(file, changes) => {
                for pot in all.iter_mut().filter(|pot| pot.file == *file) {
                    let batch = Arc::make_mut(&mut pot.batch);
                    changes.iter().for_each(|change| change.apply(batch));
                }
                all.retain(|pot| pot.batch.running());
            }
            Self::ThrowAway(file) => all.retain(|pot| pot.file != *file),
            Self::PutBack(_) | Self::Delete(_) => {}
        }
    }
}
