//! Settings of the program: theme, zoom, folded strips, recent files. Never in a design; old files always open.

use potset_base::choices;
use serde::{Deserialize, Serialize};

choices! {
    /// Light, dark, or as the system says.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Theme: words {
        #[default]
        System => "As the system",
        Light => "Light",
        Dark => "Dark",
    }
}

choices! {
    /// How much the bench shows. Both depths say the same of a pot.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Depth: words {
        /// What a maker acts on.
        #[default]
        Plain => "Plain",
        /// All there is.
        Details => "Details",
    }
}

/// What stands in a column of Beside, so that it comes back at the next start.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum KeptColumn {
    /// The design on the bench, whichever it is then.
    Bench,
    /// A design in a file, by its path.
    File(String),
    /// A design in no file: its text as a file would hold it, and where it came from.
    Copy { text: String, from: String },
    /// A published case by its key.
    Case(String),
}

/// What is remembered between sessions.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    pub theme: Theme,
    /// Zoom of the whole window, 1 = 100 %.
    pub zoom: f32,
    pub depth: Depth,
    /// The tour was seen or skipped.
    pub toured: bool,
    /// Paths of files opened or saved, newest first.
    pub recent: Vec<String>,
    /// Keys of the folded strips of the long sheet.
    pub folded: Vec<String>,
    /// What most pots do is drawn around the likely line.
    pub spread: bool,
    /// What stands beside each other, in its order; empty where only the bench does.
    pub beside: Vec<KeptColumn>,
    /// The folder of the house recipes, once the maker chose it.
    pub recipes: Option<String>,
    /// Keys of the lessons in the order in which they are taught; those that it does not name come last.
    pub lessons: Vec<String>,
    /// Reduced motion: nothing moves by itself.
    pub still: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: Theme::System,
            zoom: 1.0,
            depth: Depth::Plain,
            toured: false,
            recent: Vec::new(),
            folded: Vec::new(),
            spread: true,
            beside: Vec::new(),
            recipes: None,
            lessons: Vec::new(),
            still: false,
        }
    }
}

impl Settings {
    /// How many recent files are kept.
    pub const RECENT: usize = 10;

    /// Puts a path at the head of the recent files.
    pub fn remember(&mut self, path: &str) {
        self.recent.retain(|p| p != path);
        self.recent.insert(0, path.to_owned());
        self.recent.truncate(Self::RECENT);
    }
}
