//! `potset mishap`: why a pot went wrong, what to ask next, what to do.

use std::ffi::OsString;
use std::path::Path;
use std::sync::Arc;

use super::args::Args;
use super::{CliContext, Exit, learnt, pantry};
use potset_base::units::{self, Speaking};
use potset_base::{Note, Severity};
use potset_forecast::scenario::OwnedScenario;
use potset_mishap::{Fact, Mishap, MishapCase, Symptom};
use potset_report::mishap as say;
use potset_store::book;

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["saw", "know"], &[])?;
    let option = |note: Note| Note { field: format!("--{}", note.field), ..note };
    let saw = args.texts("saw").map(Symptom::read).collect::<Result<Vec<_>, _>>().map_err(option)?;
    let known = args.texts("know").map(Fact::read).collect::<Result<Vec<_>, _>>().map_err(option)?;
    if saw.is_empty() {
        let mend = "Say at least one thing that was seen, as --saw thin";
        return Err(Note::error("--saw", "Nothing was said of the pot", mend));
    }
    let (scenario, _speaking, placed) = of(&args)?;
    let mishap = Mishap::open(MishapCase { scenario, saw, known }).map_err(|notes| {
        let fault = notes.into_iter().find(|note| note.severity == Severity::Error);
        placed(fault.unwrap_or_else(|| Note::error("design", "There is no forecast", "Check the design")))
    })?;
    Ok((say::text(&mishap), Exit::Done))
}

/// Puts file and line to a note.
type Placed = Box<dyn Fn(Note) -> Note>;

/// The pot of a design or of a batch.
fn of(args: &Args) -> Result<(OwnedScenario, Speaking, Placed), Note> {
    let file = args.file()?;
    if let Ok(batch) = book::read(Path::new(file)) {
        let speaking = units::speak(batch.kitchen.units());
        let design = Arc::new(batch.design);
        let scenario =
            OwnedScenario { design, pantry: Arc::new(pantry()?), kitchen: batch.kitchen, learnt: learnt() };
        return Ok((scenario, speaking, Box::new(|note| note)));
    }
    let CliContext { opened, pantry, kitchen, learnt, _speaking } = CliContext::open(args)?;
    let design = Arc::new(opened.design.clone());
    let scenario = OwnedScenario { design, pantry: Arc::new(pantry), kitchen, learnt };
    Ok((scenario, _speaking, Box::new(move |note| opened.placed(note))))
}
