//! Class: the lessons at hand, the one that is played, the one that is being made.

use std::sync::Arc;

use potset_base::Note;
pub use potset_class::prepare::MOST_PEOPLE;
use potset_class::{Play, Shown};
use potset_doc::lesson::LessonCurve;
use potset_doc::{Lesson, assets};
use potset_forecast::lever::Lever;

/// A lesson of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct LessonRow {
    /// The name of its file; one of the maker's own begins with [`OWN`].
    pub key: String,
    pub lesson: Arc<Lesson>,
}

/// How the key of a lesson of the maker's own begins.
pub const OWN: &str = "own/";

impl LessonRow {
    /// The name of its file among the maker's own lessons, if it is one.
    pub fn own_file(&self) -> Option<&str> {
        self.key.strip_prefix(OWN)
    }
}

/// A lesson on the wall.
#[derive(Clone, Debug)]
pub struct Playing {
    /// Nothing for a lesson that is being made.
    pub key: Option<String>,
    pub lesson: Arc<Lesson>,
    pub play: Play,
    /// Its pots, or why they cannot be made; nothing while they are worked out.
    pub shown: Option<Result<Arc<Shown>, Note>>,
    /// Its levers on its last pot.
    pub levers: Vec<Lever>,
}

/// Where a design of a new lesson comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DraftFrom {
    Bench,
    /// A design that is kept beside it, by the number of its column.
    Column(u64),
    Demo(&'static str),
}

/// What a new lesson is made from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DraftWish {
    pub first: DraftFrom,
    pub second: Option<DraftFrom>,
    pub of: LessonCurve,
}

/// A lesson that is being made or changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// The lesson that it changes; nothing for a new one.
    pub key: Option<String>,
    pub wish: DraftWish,
    /// Its texts, once they are written.
    pub lesson: Option<Box<Lesson>>,
}

/// What goes into a file of a lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClassFile {
    /// The lesson itself, to share it.
    Lesson,
    HandOut,
    RunSheet,
}

/// All of it.
#[derive(Clone, Debug)]
pub struct ClassState {
    /// In the order in which they are taught.
    pub lessons: Vec<LessonRow>,
    pub playing: Option<Playing>,
    pub draft: Option<Draft>,
    /// Goes up with every question; answers to older ones are dropped.
    pub question: u64,
    /// How many come to the class.
    pub people: u32,
    /// The lesson that was removed last, with its place.
    pub removed: Option<(usize, LessonRow)>,
}

/// People that a run sheet is made for at first. Source: assumed, a small class.
const PEOPLE: u32 = 12;

impl Default for ClassState {
    fn default() -> Self {
        // A test reads all that ship.
        let shipped = assets::LESSONS.iter().filter_map(|(name, _)| {
            let lesson = Arc::new(assets::lesson(name).ok()?);
            Some(LessonRow { key: (*name).to_owned(), lesson })
        });
        Self {
            lessons: shipped.collect(),
            playing: None,
            draft: None,
            question: 0,
            people: PEOPLE,
            removed: None,
        }
    }
}

impl ClassState {
    /// A lesson by its key.
    pub fn lesson(&self, key: &str) -> Option<&LessonRow> {
        self.lessons.iter().find(|row| row.key == key)
    }

    /// Takes the maker's own lessons in, and puts all in the order that was chosen: what it does not name comes last.
    pub fn take_own(&mut self, own: Vec<(String, Lesson)>, order: &[String]) {
        self.lessons.extend(
            own.into_iter()
                .map(|(file, lesson)| LessonRow { key: format!("{OWN}{file}"), lesson: Arc::new(lesson) }),
        );
        let place = |row: &LessonRow| order.iter().position(|key| *key == row.key).unwrap_or(order.len());
        self.lessons.sort_by_key(place);
    }

    /// Whether the wall is all that the window shows.
    pub const fn on_the_wall(&self) -> bool {
        self.playing.is_some()
    }

    /// The name of a file for a lesson of the maker's own that no other has.
    pub fn free_file(&self, title: &str) -> String {
        let stem: String =
            title.to_lowercase().chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
        let stem = stem.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-");
        let stem = if stem.is_empty() { "lesson".to_owned() } else { stem };
        let named = |n: usize| if n == 1 { format!("{stem}.ron") } else { format!("{stem}-{n}.ron") };
        let taken = |file: &String| {
            let removed = self.removed.iter().map(|(_, row)| row);
            self.lessons.iter().chain(removed).any(|row| row.own_file() == Some(file))
        };
        (1..=self.lessons.len() + 2).map(named).find(|file| !taken(file)).unwrap_or_else(|| named(0))
    }
}
