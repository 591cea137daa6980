//! `potset evidence`: the model against published cases, or against cases of a file.

use std::ffi::OsString;
use std::path::Path;

use super::Exit;
use super::args::Args;
use potset_base::Note;
use potset_doc::evidence::Case;
use potset_doc::{Pantry, assets, evidence};
use potset_evidence::evidence::{
    Outcome, POTS, coverage, run as run_cases, source_kinds, summary, transfers,
};
use potset_export::evidence as text;
use potset_store::files;

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read_with(arguments, &["case", "spread"], &["csv", "learn"], ("spread", POTS))?;
    let own = !args.files().is_empty();
    let (mut cases, pantry) = cases(&args)?;
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
        let cover = coverage(&cases, &pantry, pots);
        let failed = own && cover.cases.iter().any(|(_, rows)| rows.is_err());
        return Ok((text::bands(&cover, true), ended(failed)));
    }
    if args.flag("learn") {
        return Ok((text::transfers(&transfers(&cases, &pantry)), Exit::Done));
    }
    let asked = args.text("case");
    let place = |key: &str| cases.iter().position(|c| c.key == key).ok_or_else(|| no_case(key));
    let at = asked.map(place).transpose()?;
    // All of them, so that what cases share is fitted as in the full report.
    let report = run_cases(&cases, &pantry);
    let failed = |outcome: &Outcome| matches!(outcome, Outcome::Failed(_));
    let exit = ended(own && report.cases.iter().any(|(_, outcome)| failed(outcome)));
    let words = match at {
        Some(at) => text::case(&report, at, true),
        None if args.flag("csv") => text::csv(&report),
        None if own => text::own(&report, &summary(&report)),
        None => text::words(&report, &summary(&report), &source_kinds(&pantry)?),
    };
    Ok((words, exit))
}

/// The cases of the file that was named, or those that ship, with the pantry that they go by: the maker's own entries are
/// in it for a file alone, so that the shipped report is the same everywhere.
fn cases(args: &Args) -> Result<(Vec<Case>, Pantry), Note> {
    match args.files() {
        [] => Ok((evidence::shipped()?, assets::pantry()?)),
        [file] => {
            let pantry = super::pantry()?;
            Ok((files::cases(Path::new(file), &pantry)?, pantry))
        }
        [_, second, ..] => {
            Err(Note::error(second.to_string_lossy(), "One file of cases at a time", "Leave the others out"))
        }
    }
}

/// A case that could not be run has no answer.
const fn ended(failed: bool) -> Exit {
    if failed { Exit::NoAnswer } else { Exit::Done }
}

fn no_case(key: &str) -> Note {
    Note::error("--case", format!("There is no case {key}"), "See the keys in potset evidence")
}
