//! `potset evidence`: the model against published cases.

use super::args::Args;
use super::{Exit, bad};
use crate::base::Note;
use crate::doc::{assets, evidence};
use crate::export::evidence as text;
use crate::study::evidence::{POTS, coverage, run as run_cases, source_kinds, summary};

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    match print(arguments) {
        Ok(()) => Exit::Done,
        Err(note) => bad(&note),
    }
}

fn print(arguments: &[String]) -> Result<(), Note> {
    let args = Args::read_with(arguments, &["case", "spread"], &["csv"], ("spread", POTS))?;
    args.no_files()?;
    let pantry = assets::pantry()?;
    let mut cases = evidence::shipped()?;
    if let Some(pots) = args.whole("spread", 20, 20_000)? {
        if args.flag("csv") {
            return Err(Note::error("--csv", "The bands are words only", "Leave out --csv or --spread"));
        }
        if let Some(key) = args.text("case") {
            cases.retain(|c| c.key == key);
            if cases.is_empty() {
                return Err(no_case(key));
            }
        }
        print!("{}", text::bands(&coverage(&cases, &pantry, pots), true));
        return Ok(());
    }
    if let Some(key) = args.text("case") {
        // The whole group, so that shared values are the same as in the full report.
        let at = cases.iter().position(|c| c.key == key).ok_or_else(|| no_case(key))?;
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

fn no_case(key: &str) -> Note {
    Note::error("--case", format!("There is no case {key}"), "See the keys in potset evidence")
}
