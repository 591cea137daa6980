//! The house recipes: read some at a time, the first screen first; then what comes of each.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::command::{BatchesCommand, Command, RecipesCommand, WindowCommand};
use crate::recipes::{Listed, VersionTold};
use potset_base::Note;
use potset_base::clock::{Moment, Zone};
use potset_catalogue::recipes::{Recipe, answered};
use potset_doc::recipe::{KnownRecipe, RecipeRecord, RecipeSummary, read_known, write_known};
use potset_forecast::scenario::OwnedScenario;
use potset_report::beside::changed;
use potset_report::card::code;
use potset_store::book::Book;
use potset_store::files;
use potset_store::library::{Library, read_known as known_text};

/// Files that are read between two looks at whether something newer is asked; more than a screen shows.
const CHUNK: usize = 64;
/// Recipes that are forecast between two looks: some ten milliseconds.
const ANSWERS: usize = 8;

/// What all of them hang on.
#[derive(Clone, Debug)]
pub struct Kept {
    pub library: Library,
    pub scenario: OwnedScenario,
    /// The list of before, and what its answers hang on.
    pub list: Option<PathBuf>,
    pub of: String,
}

/// Lists the folder.
pub struct RecipesJob {
    pub number: u64,
    pub kept: Kept,
    /// What is on the screen.
    pub shown: Vec<Arc<Recipe>>,
    reading: Option<Reading>,
}

/// The files under way.
struct Reading {
    files: Vec<(String, u64)>,
    records: HashMap<String, RecipeRecord>,
    /// In the place of its file, once it is read.
    read: Vec<Option<Arc<Recipe>>>,
    bad: Vec<Note>,
    next: usize,
}

impl RecipesJob {
    /// With nothing read.
    pub const fn new(number: u64, kept: Kept, shown: Vec<Arc<Recipe>>) -> Self {
        Self { number, kept, shown, reading: None }
    }

    /// Names and stamps of the files, and what is known of those that are the same as before.
    fn begin(&self) -> Result<Reading, Note> {
        let files = self.kept.library.files()?;
        let records: HashMap<String, RecipeRecord> = self.kept.library.records().into_iter().collect();
        let known = self.known();
        let record = |file: &str| records.get(file).cloned().unwrap_or_default();
        let read = files.iter().map(|(file, stamp)| {
            let KnownRecipe { summary, answer, .. } = known.get(file).filter(|k| k.stamp == *stamp)?.clone();
            Some(Arc::new(Recipe::new((file.clone(), *stamp), summary, answer, record(file))))
        });
        let read = read.collect();
        Ok(Reading { files, read, records, bad: Vec::new(), next: 0 })
    }

    fn known(&self) -> HashMap<String, KnownRecipe> {
        let by_file = |known: KnownRecipe| (known.file.clone(), known);
        if self.shown.is_empty() {
            let text = self.kept.list.as_ref().map(|path| known_text(path)).unwrap_or_default();
            return read_known(&self.kept.of, &text).into_iter().map(by_file).collect();
        }
        self.shown.iter().map(|one| by_file(one.known())).collect()
    }

    fn read(&self, reading: &mut Reading) {
        let mut done = 0;
        while done < CHUNK && reading.next < reading.files.len() {
            let at = reading.next;
            reading.next += 1;
            if reading.read[at].is_some() {
                continue;
            }
            done += 1;
            let (file, stamp) = &reading.files[at];
            match self.kept.library.read(file) {
                Ok(design) => {
                    let summary = RecipeSummary::of(&design, &self.kept.scenario.pantry);
                    let record = reading.records.get(file).cloned().unwrap_or_default();
                    reading.read[at] =
                        Some(Arc::new(Recipe::new((file.clone(), *stamp), summary, None, record)));
                }
                Err(note) => reading.bad.push(note),
            }
        }
    }
}

impl Job for RecipesJob {
    fn key(&self) -> Key {
        Key::Recipes
    }

    fn step(mut self: Box<Self>, _: &mut At<'_>) -> Step {
        let mut reading = match self.reading.take().map_or_else(|| self.begin(), Ok) {
            Ok(reading) => reading,
            Err(note) => return Step::done(RecipesCommand::NotListed(self.number, note).into()),
        };
        self.read(&mut reading);
        let listed = Listed {
            list: reading.read.iter().flatten().cloned().collect(),
            stamps: reading.files.clone(),
            left: reading.files.len() - reading.next,
            bad: reading.bad.clone(),
        };
        let more = listed.left > 0;
        let done = Step::done(RecipesCommand::Listed(self.number, Box::new(listed)).into());
        if more { done.and(Self { reading: Some(reading), ..*self }) } else { done }
    }

    fn fault(&self) -> Command {
        RecipesCommand::NotListed(self.number, broken()).into()
    }
}

/// Finds out what comes of recipes, then keeps the list for the next start.
pub struct RecipeAnswersJob {
    pub number: u64,
    pub kept: Kept,
    /// The last is worked out first.
    pub left: Vec<Arc<Recipe>>,
    pub done: Vec<KnownRecipe>,
}

impl Job for RecipeAnswersJob {
    fn key(&self) -> Key {
        Key::RecipeAnswers
    }

    fn step(mut self: Box<Self>, _: &mut At<'_>) -> Step {
        if self.left.is_empty() {
            // Without the list the next start only takes longer.
            if let Some(path) = &self.kept.list {
                let _ = files::write_bytes(path, write_known(&self.kept.of, &self.done).as_bytes());
            }
            return Step::default();
        }
        let from = self.left.len().saturating_sub(ANSWERS);
        let mut all = Vec::new();
        for one in self.left.split_off(from).into_iter().rev() {
            // A file that cannot be read any more is told by the list.
            let Ok(design) = self.kept.library.read(&one.file) else { continue };
            let answer = answered(&self.kept.scenario.of(&design), code(&design));
            let one = Arc::new(one.answered(answer));
            self.done.push(one.known());
            all.push(one);
        }
        Step::done(RecipesCommand::Answered(self.number, all).into()).and(*self)
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(broken()).into()
    }
}

/// The versions of a recipe, and what changed since each.
pub struct VersionsJob {
    pub file: String,
    pub kept: Kept,
    pub zone: Zone,
}

impl Job for VersionsJob {
    fn key(&self) -> Key {
        Key::Versions
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let now = self.kept.library.read(&self.file);
        let mut all: Vec<VersionTold> = Vec::new();
        for version in self.kept.library.versions(&self.file) {
            let since = match (&version.read(), &now) {
                (Ok(then), Ok(now)) => Ok(changed(then, now, &self.kept.scenario.pantry)),
                (Err(note), _) | (_, Err(note)) => Err(note.line()),
            };
            let when = Moment::of_instant(version.at_s, &self.zone).date_and_time();
            all.push(VersionTold { number: version.number, when, since });
        }
        all.reverse();
        Step::done(RecipesCommand::Versions(self.file, all).into())
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(broken()).into()
    }
}

/// Looks through a bin: each design or batch in it is read for its name.
pub enum BinJob {
    Recipes(Library),
    Batches(Book),
}

impl Job for BinJob {
    fn key(&self) -> Key {
        match *self {
            Self::Recipes(_) => Key::Bin,
            Self::Batches(_) => Key::BatchBin,
        }
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        Step::done(match *self {
            Self::Recipes(library) => RecipesCommand::Bin(library.bin()).into(),
            Self::Batches(book) => BatchesCommand::Bin(book.bin()).into(),
        })
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(broken()).into()
    }
}

/// Copies recipes from another folder, or into one.
pub struct CopyRecipesJob {
    pub library: Library,
    pub other: PathBuf,
    /// Into the other folder.
    pub out: bool,
}

impl Job for CopyRecipesJob {
    fn key(&self) -> Key {
        Key::CopyRecipes
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let copied =
            if self.out { self.library.export(&self.other) } else { self.library.import(&self.other) };
        Step::done(RecipesCommand::Copied(self.other, self.out, copied).into())
    }

    fn fault(&self) -> Command {
        RecipesCommand::Copied(self.other.clone(), self.out, Err(broken())).into()
    }
}

/// Looks after the folder while nothing else is to be done.
pub struct WatchRecipes {
    pub library: Library,
    pub known: Vec<(String, u64)>,
}

impl Job for WatchRecipes {
    fn key(&self) -> Key {
        Key::WatchRecipes
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        match self.library.files() {
            Ok(now) if now == self.known => Step::more(*self),
            // A folder that is away, on a stick that was pulled out, is told when something is asked of it.
            Ok(_) | Err(_) => Step::done(RecipesCommand::Touched.into()),
        }
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(broken()).into()
    }
}

fn broken() -> Note {
    fault("Recipes", "Reading the recipes", "Open Recipes again")
}
