//! What the Mishap view asks for.

use std::path::PathBuf;
use std::sync::Arc;

use crate::mishap::{AnswerForm, MishapPage, MishapTold};
use potset_base::Note;
use potset_doc::calls::CallLog;
use potset_mishap::{Fact, FactKind, Symptom};

/// What the Mishap view asks for.
#[derive(Clone, Debug)]
pub enum MishapCommand {
    Page(MishapPage),
    /// Asks about the design on the bench as it is now; nothing is said of it yet.
    OfBench,
    /// The same of the open batch.
    OfBatch,
    /// A symptom was tapped: said, or not any more.
    Saw(Symptom),
    Know(Fact),
    /// An answer is taken back, or a question that was passed over is asked again.
    Forget(FactKind),
    /// The caller does not know.
    Skip(FactKind),
    Told(u64, Result<Arc<MishapTold>, Note>),
    /// Shows the curves of the cause at this place, and logs that one.
    Choose(usize),
    Form(AnswerForm),
    /// The answer as it is typed; nothing: as the program has it.
    Text(Option<String>),
    Copy,
    /// Changes the design on the bench for next time.
    NextTime,
    /// Puts the pot as the chosen cause has it beside the design.
    PutBeside,
    /// What is typed of the packet.
    Lot(String),
    Age(String),
    /// The call goes into the log.
    Log,
    /// Removes the call at this place of the log, or puts the last one back.
    Remove(usize),
    PutBack,
    LogSaved(Result<Box<CallLog>, Note>),
    /// Asks for a file to write the log to.
    AskExport,
    ExportTo(PathBuf),
}
