//! `potset evidence`: the model against published cases.

use super::args::Args;
use super::{Exit, bad};
use crate::base::Note;
use crate::doc::{assets, evidence};
use crate::export::evidence as text;
use crate::study::evidence::{run as run_cases, source_kinds, summary};

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    match print(arguments) {
        Ok(()) => Exit::Done,
        Err(note) => bad(&note),
    }
}

fn print(arguments: &[String]) -> Result<(), Note> {
    let args = Args::read(arguments, &["case"], &["csv"])?;
    args.no_files()?;
    let pantry = assets::pantry()?;
    let cases = evidence::shipped()?;
    if let Some(key) = args.text("case") {
        // The whole group, so that shared values are the same as in the full report.
        let at = cases.iter().position(|c| c.key == key).ok_or_else(|| {
            Note::error("--case", format!("There is no case {key}"), "See the keys in potset evidence")
        })?;
        let report = run_cases(&cases, &pantry);
        print!("{}", text::case(&report, at, true));
        return Ok(());
    }
    let report = run_cases(&cases, &pantry);
    if args.flag("csv") {
        print!("{}", text::csv(&report));
    } else {
        print!("{}", text::words(&report, &summary(&report), &source_kinds(&pantry)?));
    }
    Ok(())
}
