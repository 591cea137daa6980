//! Settings of the program: theme, zoom, folded strips, recent files. Never in a design; old files always open.

use serde::{Deserialize, Serialize};

/// Light, dark, or as the system says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    #[default]
    System,
    Light,
    Dark,
}

impl Theme {
    pub const ALL: [Self; 3] = [Self::System, Self::Light, Self::Dark];

    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::System => "As the system",
            Self::Light => "Light",
            Self::Dark => "Dark",
        }
    }
}

/// What is remembered between sessions.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    pub theme: Theme,
    /// Zoom of the whole window, 1 = 100 %.
    pub zoom: f32,
    /// Paths of files opened or saved, newest first.
    pub recent: Vec<String>,
    /// Keys of the folded strips of the long sheet.
    pub folded: Vec<String>,
    /// What most pots do is drawn around the likely line.
    pub spread: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self { theme: Theme::System, zoom: 1.0, recent: Vec::new(), folded: Vec::new(), spread: true }
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
