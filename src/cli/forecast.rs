//! `potset forecast`: the curves as CSV.

use std::path::Path;

use super::args::Args;
use super::{Desk, Exit, bad};
use crate::base::Note;
use crate::export::csv;
use crate::store::files;
use crate::study::spread::{POTS, SEED, Spread, Spreader};

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    match forecast(arguments) {
        Ok(()) => Exit::Done,
        Err(note) => bad(&note),
    }
}

fn forecast(arguments: &[String]) -> Result<(), Note> {
    let args =
        Args::read_with(arguments, &["every", "hours", "out", "spread", "seed"], &[], ("spread", POTS))?;
    let every_min = args.number("every", 1.0, 1440.0)?.unwrap_or(30.0);
    let hours = args.number("hours", 0.5, 96.0)?;
    let desk = Desk::open(&args)?;
    let run = desk.ask().run().map_err(first)?;
    let pots = args.whole("spread", 20, 20_000)?;
    let seed = args.whole("seed", 0, usize::MAX)?;
    if let (None, Some(_)) = (pots, seed) {
        return Err(Note::error("--seed", "A seed alone draws nothing", "Give --spread with it"));
    }
    let to_h = hours.unwrap_or(run.mix.stop_h);
    // A longer look than the sheet's horizon: as far as was asked, with the same stop.
    let ask = desk.ask();
    let forecast =
        if to_h > run.mix.horizon_h { ask.run_to(to_h).map_err(first)?.forecast } else { run.forecast };
    let spread = match pots {
        Some(pots) => {
            let seed = seed.and_then(|s| u64::try_from(s).ok()).unwrap_or(SEED);
            let mut spreader = Spreader::looking_to(&ask, seed, pots, to_h).map_err(first)?;
            while spreader.more(pots) {}
            Some(spreader.spread())
        }
        None => None,
    };
    let text = csv::forecast(&forecast, spread.as_ref(), every_min / 60.0, to_h);
    if let Some(spread) = &spread {
        for line in told(spread) {
            eprintln!("{line}");
        }
    }
    match args.text("out") {
        Some(path) => files::write_bytes(Path::new(path), text.as_bytes())?,
        None => print!("{text}"),
    }
    Ok(())
}

/// What many pots do, a sentence each; it goes beside the table, not into it.
fn told(spread: &Spread) -> Vec<String> {
    let mut said = spread.sentences();
    for (k, goal) in spread.goals.iter().enumerate() {
        said.push(format!("chance_goal_{} is: {}", k + 1, goal.name));
    }
    said
}

/// The first note, which says why there is no forecast.
pub fn first(mut notes: Vec<Note>) -> Note {
    if notes.is_empty() {
        Note::error("design", "There is no forecast", "Check the design")
    } else {
        notes.remove(0)
    }
}
