//! What the Batches view works on: the batch book as it was listed, the open pot with its forecast ahead, what pots taught,
//! and a logger's file under way.

use std::sync::Arc;

use super::book::BookChange;
use potset_base::clock::{Moment, Zone};
use potset_base::units::Units;
use potset_base::{Note, choices};
use potset_doc::Batch;
use potset_doc::batch::spoken::{Heard, heard};
use potset_doc::learnt::LearntBook;
use potset_learn::{Ahead, Chart, Cloud, Learning, NextReading};
use potset_logger::{Layout, Preview, Rows};
use potset_report::learn::LearntLine;
use potset_store::book::{Book, Listed};
use potset_store::library::Thrown;

choices! {
    /// What the Batches view shows of the book.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum BatchesPage: words {
        #[default]
        Pot => "This pot",
        Taught => "What pots taught",
        Drift => "Drift",
        Import => "Import",
        Bin => "Bin",
    }
}

/// A pot as it was forecast before anything was read of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Frozen {
    /// h.
    pub t: Vec<f64>,
    pub ph: Vec<f64>,
    /// °C.
    pub warmth: Vec<f64>,
}

/// The possible pots of a pot under way.
#[derive(Clone, Debug, PartialEq)]
pub struct CloudTold {
    pub cloud: Cloud,
    /// They use something that pots taught.
    pub uses: bool,
}

/// The forecast ahead of a pot under way.
#[derive(Clone, Debug, PartialEq)]
pub struct AheadTold {
    pub ahead: Ahead,
    pub next: Option<NextReading>,
    /// When it was worked out, hours since the culture went in.
    pub now_h: f64,
}

/// The pot whose page is open.
#[derive(Clone, Debug)]
pub struct OpenBatch {
    pub file: String,
    pub batch: Arc<Batch>,
    /// Nothing until it is worked out.
    pub frozen: Option<Arc<Frozen>>,
    /// The course of warmth of its logger, few enough points to be drawn: hours, °C.
    pub course: Arc<Vec<(f64, f64)>>,
    /// Its possible pots, which stay the same while only readings come.
    pub cloud: Option<Arc<CloudTold>>,
    pub ahead: Option<Arc<AheadTold>>,
    /// Why there is no forecast.
    pub trouble: Option<Note>,
    /// One sigma of each of its readings that has one, by its place.
    pub sigmas: Vec<(usize, f64)>,
}

/// What one pot taught, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PotTold {
    pub file: String,
    pub name: String,
    pub when: String,
    /// What it says, what lies aside, what it cannot tell apart, why nothing is learnt of it.
    pub says: Vec<String>,
    pub aside: Vec<String>,
    pub apart: Vec<String>,
    pub hours: Option<String>,
    pub why_not: Vec<String>,
}

/// A control chart with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartTold {
    pub chart: Chart,
    pub sentence: String,
    /// The names of its pots.
    pub names: Vec<String>,
}

/// What all pots of the book taught.
#[derive(Clone, Debug, PartialEq)]
pub struct Taught {
    pub learning: Learning,
    pub summary: String,
    pub lines: Vec<LearntLine>,
    pub pots: Vec<PotTold>,
    pub charts: Vec<ChartTold>,
}

/// What it hangs on: files with their stamps, and the units of the words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TaughtOf {
    pub files: Vec<(String, u64)>,
    pub units: Units,
}

/// What pots taught, on the screen.
#[derive(Clone, Debug, Default)]
pub struct LearningState {
    /// The newest question; answers to older ones are dropped.
    pub question: u64,
    pub answered: u64,
    /// What the newest question hangs on.
    pub asked: TaughtOf,
    pub told: Option<Arc<Taught>>,
    pub trouble: Option<Note>,
    /// What is kept, and what stood there before.
    pub kept: LearntBook,
}

impl LearningState {
    /// Whether it is worked out now.
    pub const fn busy(&self) -> bool {
        self.answered < self.question
    }

    /// Why what pots taught cannot be kept now; nothing if it can.
    pub fn disabled_keep(&self) -> Option<&'static str> {
        let Some(told) = &self.told else { return Some("It is not worked out yet") };
        let same = told.learning.learnt.figures == self.kept.now.figures;
        match (told.learning.learnt.is_empty(), same) {
            (true, _) => Some("No pot has readings to learn from yet"),
            (false, true) => Some("It is kept already"),
            (false, false) => None,
        }
    }
}

/// A logger's file as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct LoggerTold {
    pub bytes: Arc<Vec<u8>>,
    pub layout: Layout,
    pub preview: Preview,
    /// Why no row can be read.
    pub rows: Result<Rows, Note>,
    /// Its course of warmth, hours since the culture went in and °C, and what of it is drawn.
    pub course: Vec<(f64, f64)>,
    pub drawn: Vec<(f64, f64)>,
    /// Its course of pH.
    pub ph: Vec<(f64, f64)>,
    /// Points that a batch cannot hold: too far from when its culture went in.
    pub beyond: usize,
}

/// How a logger's file is to be read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoggerWish {
    /// Nothing: as guessed.
    pub layout: Option<Layout>,
    pub keep_spikes: bool,
    /// When the file begins, hours after the culture went in; nothing: by its own clock.
    pub begins_h: Option<f64>,
}

/// A logger's file under way.
#[derive(Clone, Debug)]
pub struct LoggerState {
    pub path: std::path::PathBuf,
    /// The newest question; answers to older ones are dropped.
    pub question: u64,
    pub wish: LoggerWish,
    pub told: Option<Arc<LoggerTold>>,
    /// Why it cannot be read.
    pub trouble: Option<Note>,
}

/// The line in which readings are typed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReadingLine {
    pub text: String,
    /// It was handed on, and is not in the file yet.
    pub saving: bool,
    /// Why the last one was not taken.
    pub refused: Option<Note>,
    /// The reading whose place it takes.
    pub replaces: Option<usize>,
    /// Goes up when the line wants the keyboard.
    pub focus: u64,
}

/// What takes the last change of the book back.
#[derive(Clone, Debug, PartialEq)]
pub struct BookUndo {
    /// What is taken back: "Changed the readings of Six jars".
    pub words: String,
    pub change: BookChange,
}

/// The Batches view.
#[derive(Clone, Debug, Default)]
pub struct BatchesState {
    pub page: BatchesPage,
    /// Nothing where nothing is remembered.
    pub book: Option<Book>,
    pub listed: Listed,
    /// Goes up with every new list, so that views know when to renew what they keep.
    pub number: u64,
    /// The newest question for a list; answers to older ones are dropped.
    pub question: u64,
    /// Whether a whole list came.
    pub known: bool,
    /// Why the folder cannot be read.
    pub trouble: Option<Note>,
    pub find: String,
    /// The file that is to be open, and what is known of it.
    pub opening: Option<String>,
    pub open: Option<OpenBatch>,
    /// Goes up with every change of the open pot.
    pub open_number: u64,
    pub line: ReadingLine,
    pub learning: LearningState,
    pub logger: Option<LoggerState>,
    pub undo: Vec<BookUndo>,
    pub bin: Vec<Thrown>,
    /// A pot was begun to be followed here.
    pub arriving: bool,
    /// Until when reminders were said.
    pub reminded: Option<Moment>,
}

impl BatchesState {
    /// The open pot, if it is of this file.
    pub fn open_as(&self, file: &str) -> Option<&OpenBatch> {
        self.open.as_ref().filter(|open| open.file == file)
    }

    /// How the typed line is understood; nothing while it is empty or no pot is open.
    pub fn understood(&self, now: Option<Moment>, zone: &Zone) -> Option<Result<Heard, Note>> {
        let text = self.line.text.trim();
        let open = self.open.as_ref().filter(|_| !text.is_empty())?;
        Some(heard(text, &open.batch, now?, zone))
    }
}
