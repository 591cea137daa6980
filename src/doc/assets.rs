//! What ships with the program: the pantry, and the demo designs.

use super::design::Design;
use super::format;
use super::pantry::Pantry;
use crate::base::Note;

/// The text of the shipped pantry.
pub const PANTRY: &str = include_str!("../../assets/pantry.ron");

/// A demo design: file name and text. The first one is shown when the program starts.
pub const DEMOS: &[(&str, &str)] = &[("coconut-pot.ron", include_str!("../../demo-data/coconut-pot.ron"))];

/// The shipped pantry.
///
/// # Errors
/// A note if the file in the program was damaged when it was built; a test keeps this from happening.
pub fn pantry() -> Result<Pantry, Note> {
    format::asset(PANTRY)
}

/// A demo design by file name.
///
/// # Errors
/// A note if there is none of that name.
pub fn demo(name: &str) -> Result<Design, Note> {
    let (_, text) = DEMOS.iter().find(|(file, _)| *file == name).ok_or_else(|| {
        Note::error("demo", format!("There is no demo design {name}"), "Pick one of the list")
    })?;
    format::read_design(text.as_bytes())
}
