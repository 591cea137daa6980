//! `potset beside`: what differs between designs, what that does, and because of what.

use super::args::Args;
use super::{Exit, design, kitchen, pantry, printed};
use crate::base::Note;
use crate::doc::Learnt;
use crate::export;
use crate::study;

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    printed(report(arguments))
}

fn report(arguments: &[String]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &[], &[])?;
    let [first, others @ ..] = args.files() else { return Err(few()) };
    if others.is_empty() {
        return Err(few());
    }
    let (pantry, kitchen, learnt) = (pantry()?, kitchen(), Learnt::default());
    let first = design(first)?;
    let mut out = Vec::new();
    for file in others {
        match study::beside::beside(&first, &design(file)?, (&pantry, &kitchen, &learnt)) {
            Ok(told) => out.push(export::beside::words(&told)),
            Err(notes) => {
                let why: Vec<String> = notes.iter().map(Note::line).collect();
                return Ok((format!("No forecast: {}\n", why.join("; ")), Exit::NoAnswer));
            }
        }
    }
    Ok((out.join("\n"), Exit::Done))
}

fn few() -> Note {
    Note::error("FILE", "One design has nothing beside it", "Give two or more design files")
}
