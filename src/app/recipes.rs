//! What the Recipes view works on: the folder of the house recipes as it was read, what is looked for, what is open.

use std::sync::Arc;

use potset_base::{Note, choices};
use potset_catalogue::recipes::{Find, Recipe};
pub use potset_store::library::Thrown;

choices! {
    /// What the Recipes view shows.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum RecipesPage: words {
        #[default]
        Kept => "House recipes",
        Bin => "Bin",
    }
}

/// A version of the open recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct VersionTold {
    pub number: u32,
    /// When it was kept: "26 Nov 2026, 18:30".
    pub when: String,
    /// What is otherwise in the recipe now, a line each; why it cannot be read.
    pub since: Result<Vec<String>, String>,
}

/// A change of the folder.
#[derive(Clone, Debug, PartialEq)]
pub enum RecipeChange {
    Rename(String, String),
    Tags(String, Vec<String>),
    Stars(String, u8),
    /// The days on which it was made.
    Made(String, Vec<String>),
    Duplicate(String),
    ThrowAway(String),
    PutBack(u32),
    /// From the bin, for good.
    Delete(u32),
    /// A version in the place of what the file holds.
    Restore(String, u32),
}

/// Files of the folder as far as they were read.
#[derive(Clone, Debug, Default)]
pub struct Listed {
    pub list: Vec<Arc<Recipe>>,
    /// All files with their stamps, what cannot be read too.
    pub stamps: Vec<(String, u64)>,
    /// Files that are still to be read.
    pub left: usize,
    /// What cannot be read, and why.
    pub bad: Vec<Note>,
}

/// The house recipes on the screen.
#[derive(Clone, Debug, Default)]
pub struct RecipesState {
    pub page: RecipesPage,
    pub listed: Listed,
    /// Goes up with every change of the list, so that views know when to renew what they keep.
    pub number: u64,
    /// The newest question; answers to older ones are dropped.
    pub question: u64,
    /// Recipes of which it is not known yet what comes of them.
    pub unanswered: usize,
    pub find: Find,
    /// The file whose page is open.
    pub open: Option<String>,
    /// Versions of a file, the newest first.
    pub versions: Option<(String, Vec<VersionTold>)>,
    pub bin: Vec<Thrown>,
    /// What takes the last change back, and what that is called.
    pub undo: Option<(String, RecipeChange)>,
    /// Why the folder cannot be read.
    pub trouble: Option<Note>,
}

impl RecipesState {
    /// A recipe by its file.
    pub fn recipe(&self, file: &str) -> Option<&Arc<Recipe>> {
        self.listed.list.iter().find(|one| one.file == file)
    }

    /// The recipe whose page is open.
    pub fn opened(&self) -> Option<&Arc<Recipe>> {
        self.recipe(self.open.as_deref()?)
    }
}
