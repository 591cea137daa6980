//! What ships with the program: the pantry, and the demo designs.

use std::sync::LazyLock;

pub use super::demos::DEMOS;
use super::design::Design;
use super::format;
use super::lesson::Lesson;
use super::pantry::Pantry;
use potset_base::Note;

/// The text of the shipped pantry.
pub const PANTRY: &str = include_str!("../../assets/pantry.ron");

/// How far the model is off published readings: a table in Markdown, shown in *Numbers*. A test holds it to the evidence.
pub const EVIDENCE_HEADLINE: &str = include_str!("../../assets/evidence/headline.md");

/// The shipped lessons, all of the invented Weir House Kitchen, in the order in which they are taught: file name and text.
pub const LESSONS: &[(&str, &str)] = &[
    ("01-what-the-sugar-is-for.ron", include_str!("../../assets/lessons/01-what-the-sugar-is-for.ron")),
    ("02-nothing-to-eat.ron", include_str!("../../assets/lessons/02-nothing-to-eat.ron")),
    ("03-stop-early-or-late.ron", include_str!("../../assets/lessons/03-stop-early-or-late.ron")),
    ("04-milk-beside-coconut.ron", include_str!("../../assets/lessons/04-milk-beside-coconut.ron")),
    ("05-a-diluted-base.ron", include_str!("../../assets/lessons/05-a-diluted-base.ron")),
    ("06-starch-raw-and-cooked.ron", include_str!("../../assets/lessons/06-starch-raw-and-cooked.ron")),
    (
        "07-what-a-gelling-agent-needs.ron",
        include_str!("../../assets/lessons/07-what-a-gelling-agent-needs.ron"),
    ),
    ("08-too-hot-too-cold.ron", include_str!("../../assets/lessons/08-too-hot-too-cold.ron")),
    ("09-guessed-or-weighed.ron", include_str!("../../assets/lessons/09-guessed-or-weighed.ron")),
    ("10-does-all-the-sugar-go.ron", include_str!("../../assets/lessons/10-does-all-the-sugar-go.ron")),
    ("11-lactose-before-and-after.ron", include_str!("../../assets/lessons/11-lactose-before-and-after.ron")),
    ("12-thicker-tomorrow.ron", include_str!("../../assets/lessons/12-thicker-tomorrow.ron")),
    ("13-why-it-splits.ron", include_str!("../../assets/lessons/13-why-it-splits.ron")),
    ("14-what-hygiene-sees.ron", include_str!("../../assets/lessons/14-what-hygiene-sees.ron")),
];

/// Demo batches, invented: two pots that ended and one under way, whose times count from the day on which they are copied.
pub const DEMO_BATCHES: &[(&str, &str)] = &[
    ("first-six-jars.ron", include_str!("../../demo-data/batches/first-six-jars.ron")),
    ("second-six-jars.ron", include_str!("../../demo-data/batches/second-six-jars.ron")),
    ("third-six-jars.ron", include_str!("../../demo-data/batches/third-six-jars.ron")),
];

/// The demo designs by file name and the name that each bears.
pub fn demo_names() -> &'static [(&'static str, String)] {
    static NAMES: LazyLock<Vec<(&str, String)>> = LazyLock::new(|| {
        // A test reads all that ship.
        let named = |(file, _): &(&'static str, &str)| {
            (*file, demo(file).map_or_else(|_| (*file).to_owned(), |d| d.name))
        };
        DEMOS.iter().map(named).collect()
    });
    &NAMES
}

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

/// A shipped lesson by file name.
///
/// # Errors
/// A note if there is none of that name.
pub fn lesson(name: &str) -> Result<Lesson, Note> {
    let (_, text) = LESSONS.iter().find(|(file, _)| *file == name).ok_or_else(|| {
        Note::error("lesson", format!("There is no shipped lesson {name}"), "Pick one of the list")
    })?;
    format::read_lesson(text.as_bytes())
}
