//! What the worker is asked, and what comes of it.

use std::path::PathBuf;
use std::sync::Arc;

use crate::aims::Aimed;
use crate::columns::Told;
use crate::shelves::Seen;
use crate::sweeps::Swept;
use potset_base::Note;
use potset_catalogue::label::LabelStudy;
use potset_compare::beside::Causes;
use potset_doc::label::LabelReading;
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_doubt::influence::Influence;
use potset_doubt::matters::Matters;
use potset_doubt::spread::Spread;
use potset_judge::answer::Answer;
use potset_judge::next_pots::LineAsk;
use potset_search::swap::Swapped;

/// One question, with all that the answer hangs on.
#[derive(Clone, Debug)]
pub struct Question {
    pub number: u64,
    pub design: Arc<Design>,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
    pub learnt: Learnt,
    /// The line of pots to follow, if the screen shows one.
    pub line: Option<LineAsk>,
    /// Pots of the spread, if it is shown.
    pub pots: Option<usize>,
}

/// A label to be read.
#[derive(Clone, Debug)]
pub struct LabelQuestion {
    pub number: u64,
    pub text: String,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
    pub learnt: Learnt,
}

/// What came of a question.
pub enum Outcome {
    /// An answer, or why there is none.
    Answer(u64, Result<Box<Answer>, Note>),
    /// Which figures move it most.
    Rests(u64, Vec<Influence>),
    /// The spread of the design of a question, as far as it is.
    Spread(u64, Arc<Spread>),
    /// Why there is no spread of the design of a question.
    NoSpread(u64, Note),
    /// What matters for it.
    Matters(u64, Arc<Matters>),
    /// A label that was read.
    Label(u64, Arc<(LabelReading, LabelStudy)>),
    /// Designs that were looked through.
    Seen(Vec<Seen>),
    /// The file that is looked after is another one by now.
    Outside,
    /// Designs beside each other, without the causes.
    Beside(u64, Result<Box<Told>, Note>),
    Exported(PathBuf, Result<(), Note>),
    /// A sweep as far as it is worked out.
    Swept(u64, Arc<Swept>),
    Swapped(u64, Arc<Result<Swapped, Note>>),
    /// What Aim found so far, or why it cannot be asked.
    Aimed(u64, Arc<Aimed>),
    AimFailed(u64, Note),
    /// What the difference of the design after this one to the first comes from.
    Causes(u64, usize, Causes),
}
