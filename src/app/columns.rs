//! The columns of the Beside view: which designs stand beside each other, and what was worked out of them.

use std::sync::{Arc, LazyLock};

use super::session::Session;
use potset_base::Note;
use potset_compare::beside::{Comparison, ForecastSource, MOST, Measured, OfCase};
use potset_doc::evidence::{self, Case};
use potset_doc::settings::KeptColumn;
use potset_doc::{Design, Pantry, format};
use potset_judge::answer::Answer;

/// A page of the Beside view.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BesidePage {
    /// The long sheets.
    #[default]
    Curves,
    /// What differs, what it does, because of what.
    Differences,
    /// One lever or two over a range.
    Sweep,
    /// One entry in the place of another.
    Swap,
}

impl BesidePage {
    pub const ALL: [Self; 4] = [Self::Curves, Self::Differences, Self::Sweep, Self::Swap];

    pub const fn words(self) -> &'static str {
        match self {
            Self::Curves => "Curves",
            Self::Differences => "Differences",
            Self::Sweep => "Sweep",
            Self::Swap => "Swap",
        }
    }
}

/// What a column shows.
#[derive(Clone, Debug)]
pub enum Holds {
    /// The design on the bench, as it is changed.
    Bench,
    /// Another open design with its own history, and where it comes from.
    Kept(Box<Session>, String),
    /// A published case.
    Case(Arc<CaseShown>),
}

/// A published case as a column.
#[derive(Clone, Debug)]
pub struct CaseShown {
    pub key: String,
    pub design: Arc<Design>,
    pub measured: Vec<Measured>,
    pub place: String,
}

/// One column.
#[derive(Clone, Debug)]
pub struct Column {
    /// Stays with it wherever it is moved.
    pub id: u64,
    pub holds: Holds,
}

/// What was worked out of the columns; it may be a moment behind.
#[derive(Clone, Debug, Default)]
pub struct ComparisonResult {
    /// Of the columns that it is about, in their order then.
    pub ids: Vec<u64>,
    pub designs: Vec<Arc<Design>>,
    pub answers: Vec<Arc<Answer>>,
    pub beside: Comparison,
}

/// All columns.
#[derive(Clone, Debug)]
pub struct Columns {
    pub list: Vec<Column>,
    next: u64,
    pub page: BesidePage,
    /// Curves of all designs in the same strips.
    pub laid_over: bool,
    /// One stop line for all, h; nothing: each its own.
    pub common_stop: Option<f64>,
    /// The levers of each design stand below its curves.
    pub levers: bool,
    /// Whose difference to the first is shared out, by its place.
    pub versus: usize,
    /// Goes up with every question; answers to older ones are dropped.
    pub question: u64,
    pub answered: u64,
    pub told: Arc<ComparisonResult>,
    /// Goes up with every answer.
    pub told_number: u64,
}

impl Default for Columns {
    fn default() -> Self {
        Self {
            list: vec![Column { id: 0, holds: Holds::Bench }],
            next: 1,
            page: BesidePage::default(),
            laid_over: false,
            common_stop: None,
            levers: false,
            versus: 1,
            question: 0,
            answered: 0,
            told: Arc::default(),
            told_number: 0,
        }
    }
}

impl Columns {
    /// Puts a column at a place.
    ///
    /// # Errors
    /// A note if there are as many as can be.
    pub fn insert(&mut self, at: usize, holds: Holds) -> Result<u64, Note> {
        if let Some(note) = self.full() {
            return Err(note);
        }
        let id = self.next;
        self.next += 1;
        self.list.insert(at.min(self.list.len()), Column { id, holds });
        Ok(id)
    }

    /// Why no more columns can be had.
    pub fn full(&self) -> Option<Note> {
        (self.list.len() >= MOST).then(|| {
            Note::error(
                "Beside",
                format!("At most {MOST} designs stand beside each other"),
                "Remove one first",
            )
        })
    }

    /// Place of a column.
    pub fn place(&self, id: u64) -> Option<usize> {
        self.list.iter().position(|c| c.id == id)
    }

    /// Place of the design on the bench.
    pub fn bench(&self) -> usize {
        self.list.iter().position(|c| matches!(c.holds, Holds::Bench)).unwrap_or(0)
    }

    /// What is remembered of them for the next start; nothing where only the bench stands there.
    pub fn remembered(&self) -> Vec<KeptColumn> {
        let kept = |column: &Column| match &column.holds {
            Holds::Bench => Some(KeptColumn::Bench),
            Holds::Case(case) => Some(KeptColumn::Case(case.key.clone())),
            Holds::Kept(session, from) => match session.path.as_ref().and_then(|path| path.to_str()) {
                Some(path) => Some(KeptColumn::File(path.to_owned())),
                // A design that cannot be written is not remembered.
                None => format::write(&**session.history.design())
                    .ok()
                    .map(|text| KeptColumn::Copy { text, from: from.clone() }),
            },
        };
        if self.list.len() < 2 { Vec::new() } else { self.list.iter().filter_map(kept).collect() }
    }

    /// Columns with changes that are in no file.
    pub fn unsaved(&self) -> impl Iterator<Item = (u64, &Session)> {
        self.list.iter().filter_map(|c| match &c.holds {
            Holds::Kept(session, _) if session.at_stake() => Some((c.id, &**session)),
            _ => None,
        })
    }
}

/// Published cases that have a pot with readings of its hold, to be picked by name.
pub fn cases() -> &'static [Case] {
    static CASES: LazyLock<Vec<Case>> = LazyLock::new(|| {
        // What ships is read by a test; damaged files would only leave the list empty.
        let all = evidence::shipped().unwrap_or_default();
        all.into_iter().filter(|case| OfCase(case).shown()).collect()
    });
    &CASES
}

/// A published case as a column.
///
/// # Errors
/// A note if there is none of that key, or it cannot be a pot.
pub fn case(key: &str, pantry: &Pantry) -> Result<Holds, Note> {
    let case = cases().iter().find(|c| c.key == key).ok_or_else(|| {
        Note::error("Beside", format!("There is no published case {key}"), "Pick one of the list")
    })?;
    let source = OfCase(case);
    Ok(Holds::Case(Arc::new(CaseShown {
        key: case.key.clone(),
        design: Arc::new(source.design(pantry)?),
        measured: source.measured(),
        place: source.place(),
    })))
}
