//! `potset aim`: settings that reach what is wanted, or what blocks.

use std::path::Path;

use super::args::Args;
use super::{Desk, Exit, printed};
use crate::base::Note;
use crate::export;
use crate::store::files;
use crate::study::aim::{AimAsk, Aimer, Moves, Want};
use crate::study::outcome::Outcomes;
use crate::study::spread::SEED;

/// Pieces of work at a time.
const SLICE: usize = 16;

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    printed(report(arguments))
}

fn report(arguments: &[String]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["want", "move", "hold", "seed", "out"], &[])?;
    let desk = Desk::open(&args)?;
    let (ask, design) = (desk.ask(), &desk.design);
    let wants = args
        .texts("want")
        .map(|text| Want::read(text, design, ask.pantry).map_err(|note| at("want", note)))
        .collect::<Result<Vec<_>, Note>>()?;
    let (moves, holds): (Vec<&str>, Vec<&str>) = (args.texts("move").collect(), args.texts("hold").collect());
    let moves = Moves::read(&moves, &holds, design, ask.pantry).map_err(|note| at("move, --hold", note))?;
    let seed = args.whole("seed", 0, usize::MAX)?.and_then(|s| u64::try_from(s).ok()).unwrap_or(SEED);
    let wish = AimAsk::new(wants, moves, seed).map_err(|note| at("want", note))?;
    let now = match ask.run() {
        Ok(run) => Outcomes::of(&ask, &run),
        Err(notes) => {
            let none = || Note::error("design", "There is no forecast", "Check the design");
            return Err(notes.into_iter().next().unwrap_or_else(none));
        }
    };
    let mut aimer = Aimer::new(wish.clone());
    while aimer.next(&ask, SLICE) {}
    let found = aimer.into_found();
    let text = export::aim::text(&design.name, &wish, &now, &found);
    let Some(best) = found.proposals.first() else { return Ok((text, Exit::NoAnswer)) };
    if let Some(path) = args.text("out") {
        files::save_design(Path::new(path), &best.design)?;
    }
    Ok((text, Exit::Done))
}

/// A note whose field names the option it came by.
fn at(option: &str, note: Note) -> Note {
    Note { field: format!("--{option} {}", note.field), ..note }
}
