//! `potset lesson` and `potset runsheet`: a lesson's page to hand out, and a class prepared.

use std::ffi::OsString;
use std::path::Path;

use super::args::Args;
use super::card::written;
use super::{Exit, kitchen, pantry};
use potset_base::Note;
use potset_base::clock::{Moment, Zone};
use potset_class::prepare::{ClassAsk, MOST_PEOPLE, prepare};
use potset_class::show;
use potset_doc::{Lesson, assets};
use potset_report::class::{RunSheetAsk, handout, run_sheet};
use potset_store::{files, lessons, zone};

/// Runs `potset lesson`.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["out", "size"], &[])?;
    let (lesson, file) = lesson(&args)?;
    let (pantry, (_, _speaking)) = (pantry()?, kitchen());
    written(&args, file, || Ok(handout(&lesson, &show(&lesson, &pantry)?)))
}

/// Runs `potset runsheet`.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn runsheet(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["out", "size", "people", "at"], &[])?;
    let (lesson, file) = lesson(&args)?;
    let people = args.whole("people", 1, MOST_PEOPLE as usize)?.ok_or_else(|| {
        Note::error("--people", "How many people come is not said", "Give --people 12, for example")
    })?;
    let begins = args.text("at").map(begins).transpose()?;
    let zone = zone::name().and_then(|name| Zone::named(&name));
    let (pantry, (kitchen, _speaking)) = (pantry()?, kitchen());
    written(&args, file, || {
        let ask = ClassAsk {
            lesson: &lesson,
            people: u32::try_from(people).unwrap_or(MOST_PEOPLE),
            begins,
            zone: zone.as_ref(),
            pantry: &pantry,
            kitchen: &kitchen,
        };
        let plan = prepare(&ask)?;
        Ok(run_sheet(&RunSheetAsk {
            lesson: &lesson,
            plan: &plan,
            begins,
            pantry: &pantry,
            kitchen: &kitchen,
        }))
    })
}

/// The lesson that is named: a file, or a shipped one by its name, with the file if it is one.
fn lesson(args: &Args) -> Result<(Lesson, Option<&Path>), Note> {
    let file = args.file().map_err(|note| match note.field.as_str() {
        "FILE" => {
            let mend = format!("Give a lesson file, or the name of one that ships: {}", assets::LESSONS[0].0);
            Note::error("FILE", "No lesson was named", mend)
        }
        _ => note,
    })?;
    let shipped = assets::LESSONS.iter().map(|(name, _)| *name).find(|name| *name == file);
    match shipped.filter(|_| !files::is_there(Path::new(file))) {
        Some(name) => Ok((assets::lesson(name)?, None)),
        None => Ok((lessons::read(Path::new(file))?, Some(Path::new(file)))),
    }
}

/// When the class begins.
fn begins(text: &str) -> Result<Moment, Note> {
    Moment::parse(text).ok_or_else(|| {
        Note::error("--at", format!("“{text}” is no day and time"), "Give it as \"2026-12-08 18:30\"")
    })
}
