//! `potset forecast`: the curves as CSV.

use std::path::Path;

use super::args::Args;
use super::{Desk, Exit, bad};
use crate::export::csv;
use crate::store::files;

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    match forecast(arguments) {
        Ok(()) => Exit::Done,
        Err(note) => bad(&note),
    }
}

fn forecast(arguments: &[String]) -> Result<(), crate::base::Note> {
    let args = Args::read(arguments, &["every", "hours", "out"], &[])?;
    let every_min = args.number("every", 1.0, 1440.0)?.unwrap_or(30.0);
    let hours = args.number("hours", 0.5, 96.0)?;
    let desk = Desk::open(&args)?;
    let run = desk.ask().run().map_err(first)?;
    let to_h = hours.unwrap_or(run.mix.stop_h);
    // A longer look than the sheet's horizon: simulate as far as was asked.
    let forecast = if to_h > run.mix.horizon_h {
        let mut design = desk.design.clone();
        if let Some(hold) = design.hold_mut() {
            hold.hours = hold.hours.max(to_h / 1.25).min(96.0);
        }
        crate::study::Ask { design: &design, ..desk.ask() }.run().map_err(first)?.forecast
    } else {
        run.forecast
    };
    let text = csv::forecast(&forecast, every_min / 60.0, to_h);
    match args.text("out") {
        Some(path) => files::write_bytes(Path::new(path), text.as_bytes())?,
        None => print!("{text}"),
    }
    Ok(())
}

fn first(mut notes: Vec<crate::base::Note>) -> crate::base::Note {
    if notes.is_empty() {
        crate::base::Note::error("design", "There is no forecast", "Check the design")
    } else {
        notes.remove(0)
    }
}
