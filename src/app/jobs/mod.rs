//! What is worked out away from the screen: one queue of jobs, of which the newest of a key stands.
//!
//! A view that needs something worked out writes a [`Job`] and hands it on as [`crate::effect::Effect::Work`]. On the screen a
//! thread works the queue ([`worker`]); tests and pictures work the same queue at once, on their own thread.

pub mod aim;
pub mod batches;
pub mod beside;
pub mod card;
pub mod card_file;
pub mod class;
pub mod forecast;
pub mod label;
pub mod mishap;
pub mod numbers;
pub mod question;
pub mod queue;
pub mod recipes;
pub mod spread;
pub mod swap;
pub mod sweep;
pub mod used;
pub mod watch;
pub mod worker;

use std::fmt;
use std::path::PathBuf;
use std::time::Duration;

use crate::command::Command;
use numbers::Listed;
use potset_base::Note;
use potset_base::units::Units;
use potset_doubt::ready_times::Known;

/// What a job is, and its turn: of those that wait, the first in this list is worked first.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    Forecast,
    Beside,
    /// What the Card view shows.
    Card,
    /// The pots of a lesson, and one with its levers turned.
    Lesson,
    FreePlay,
    Label,
    LookThrough,
    Swap,
    /// Writes the comparison to this file.
    Export(PathBuf),
    /// The first picture of the spread: it stands for the design on the screen, and is soon there.
    FirstSpread,
    /// Some ten milliseconds where an ingredient changed, and seldom looked at: a drag does not wait for it.
    Numbers,
    Sweep,
    Aim,
    /// Why a pot went wrong: a third of a second at first.
    Mishap,
    /// One pot of the batch book, as it is shown or begun.
    OpenBatch,
    BeginBatch,
    Logger,
    /// The possible pots of a pot under way: about a second.
    Cloud,
    /// The same weighed by its readings.
    Ahead,
    /// The batch book.
    Batches,
    CopyBatches,
    /// The files of the house recipes.
    Recipes,
    CopyRecipes,
    Versions,
    /// What was thrown away.
    Bin,
    /// The same of the batch book.
    BatchBin,
    Spread,
    Matters,
    /// What the differences of the columns come from.
    Causes,
    Sensitivities,
    /// What comes of each house recipe: seconds, where there are thousands.
    RecipeAnswers,
    /// What all pots taught: tenths of a second each.
    Learn,
    WatchRecipes,
    Watch,
}

impl Key {
    /// Jobs that are about what a newer job of this key replaces.
    pub const fn outdates(&self) -> &'static [Self] {
        match self {
            Self::Forecast => {
                &[Self::Numbers, Self::FirstSpread, Self::Spread, Self::Matters, Self::Sensitivities]
            }
            Self::Beside => &[Self::Causes],
            Self::OpenBatch | Self::Cloud => &[Self::Cloud, Self::Ahead],
            _ => &[],
        }
    }

    /// How long nothing else may come in before it is begun.
    pub const fn pause(&self) -> Duration {
        match self {
            Self::Sensitivities => Duration::from_millis(400),
            Self::Watch | Self::WatchRecipes => Duration::from_secs(2),
            _ => Duration::ZERO,
        }
    }

    /// Whether nobody asked for it: it follows from another job, and the screen does without it meanwhile.
    pub const fn at_leisure(&self) -> bool {
        matches!(
            self,
            Self::FirstSpread
                | Self::Spread
                | Self::Matters
                | Self::Sensitivities
                | Self::WatchRecipes
                | Self::Watch
        )
    }
}

/// Something to be worked out, with all that it hangs on.
pub trait Job: Send {
    /// What it is now; a job of several stages may change it from one to the next.
    fn key(&self) -> Key;

    /// Does the next piece: some ten milliseconds, or as long as [`At::go_on`] says.
    fn step(self: Box<Self>, at: &mut At<'_>) -> Step;

    /// What is said where a piece ends in a fault of the program.
    fn fault(&self) -> Command;
}

impl fmt::Debug for dyn Job {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.key().fmt(f)
    }
}

/// What a piece of work has at hand.
pub struct At<'a> {
    /// Ready times of what stood beside each other.
    pub known: &'a mut Known,
    /// The list of numbers that was made last.
    pub listed: &'a mut Listed,
    go_on: &'a mut dyn FnMut() -> bool,
}

impl At<'_> {
    /// Whether nothing comes first that was asked for meanwhile. A long piece that hears no gives up, and is put back.
    pub fn go_on(&mut self) -> bool {
        (self.go_on)()
    }
}

/// What came of a piece of work.
#[derive(Debug, Default)]
pub struct Step {
    pub result: Option<Command>,
    /// What is left to do, and what follows from it.
    pub then: Vec<Box<dyn Job>>,
}

impl Step {
    /// A result, and nothing left to do.
    pub fn done(result: Command) -> Self {
        Self { result: Some(result), then: Vec::new() }
    }

    /// No result yet.
    pub fn more(left: impl Job + 'static) -> Self {
        Self::default().and(left)
    }

    /// The same with another job to follow.
    pub fn and(mut self, job: impl Job + 'static) -> Self {
        self.then.push(Box::new(job));
        self
    }
}

/// An order to the queue.
#[derive(Debug)]
pub enum Order {
    /// In the place of an older job of the same key. From now on the queue says things as this kitchen does.
    Work(Box<dyn Job>, Units),
    /// The job of this key is given up.
    GiveUp(Key),
    /// All are given up: nobody is there to be told any more.
    End,
}

/// The note about a fault of the program.
///
/// - `what` — "Looking at the swap"
/// - `mend` — what to try before the design is sent to the makers of the program
pub fn fault(field: &str, what: &str, mend: &str) -> Note {
    Note::error(
        field,
        format!("{what} failed: this is a bug in Potset"),
        format!("{mend}, and send the design to the makers of the program"),
    )
}
