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

/// What a change of the book led to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BookDone {
    /// The file that was made or changed, and the batch in it then.
    pub file: String,
    pub batch: Option<Arc<Batch>>,
    /// Its place in the bin.
    pub bin: Option<u32>,
}

impl BookChange {
    /// The change made to pots that live as long as the window, where nothing is remembered.
    pub fn apply(&self, all: &[UnderWay]) -> BookDone {
        match self {
            Self::Begin(batch) => BookDone {
                file: format!("pot {}", all.len() + 1),
                batch: Some(Arc::new((**batch).clone())),
                bin: None,
            },
            Self::Change(file, changes) => {
                let pot = all.iter().find(|pot| pot.file == *file);
                let batch = pot.map(|pot| {
                    let mut batch = (*pot.batch).clone();
                    changes.iter().for_each(|change| change.apply(&mut batch));
                    Arc::new(batch)
                });
                BookDone { file: file.clone(), batch, bin: None }
            }
            Self::ThrowAway(file) => BookDone { file: file.clone(), ..BookDone::default() },
            Self::PutBack(_) | Self::Delete(_) => BookDone::default(),
        }
    }
}
