//! `potset evidence`: the model against published cases.

use std::ffi::OsString;

use super::args::Args;
use super::{Exit, printed};
use crate::base::Note;
use crate::doc::{assets, evidence};
use crate::export::evidence as text;
use crate::study::evidence::{POTS, coverage, run as run_cases, source_kinds, summary};

/// Runs the command.
pub fn run(arguments: &[OsString]) -> Exit {
    printed(report(arguments).map(|text| (text, Exit::Done)))
}

fn report(arguments: &[OsString]) -> Result<String, Note> {
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
        return Ok(text::bands(&coverage(&cases, &pantry, pots), true));
    }
    if let Some(key) = args.text("case") {
        // The whole group, so that shared values are the same as in the full report.
        let at = cases.iter().position(|c| c.key == key).ok_or_else(|| no_case(key))?;
        let report = run_cases(&cases, &pantry);
        return Ok(text::case(&report, at, true));
    }
    let report = run_cases(&cases, &pantry);
    if args.flag("csv") {
        return Ok(text::csv(&report));
    }
    Ok(text::words(&report, &summary(&report), &source_kinds(&pantry)?))
}

fn no_case(key: &str) -> Note {
    Note::error("--case", format!("There is no case {key}"), "See the keys in potset evidence")
}
