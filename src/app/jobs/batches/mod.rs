//! Jobs of the batch book: its list, one pot of it, the forecast ahead, what pots taught, loggers, and files that leave it.

pub mod ahead;
pub mod begin;
pub mod files;
pub mod learn;
pub mod list;
pub mod logger;
pub mod open;

use super::fault;
use potset_base::Note;

fn broken(what: &str) -> Note {
    fault("Batches", what, "Open Batches again")
}
