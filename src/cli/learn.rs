//! `potset learn`: what batches teach.

use std::ffi::OsString;
use std::path::Path;
use std::sync::Arc;

use super::Exit;
use super::args::Args;
use potset_base::Note;
use potset_doc::Batch;
use potset_learn::{apart, charts, learn};
use potset_report::learn as say;
use potset_store::book;

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &[], &["details"])?;
    if args.files().is_empty() {
        return Err(Note::error("BATCH", "No batch is named", "Name one or more batch files"));
    }
    let pantry = Arc::new(super::pantry()?);
    let read = |file: &OsString| book::read(Path::new(file));
    let mut batches: Vec<Batch> = args.files().iter().map(read).collect::<Result<_, _>>()?;
    batches.sort_by(|a, b| a.culture_in.cmp(&b.culture_in));
    let learning = learn(&batches, &pantry, "")?;
    let mut out = format!("{}.\n", say::summary(&learning));
    for line in say::lines(&learning, &batches, &pantry) {
        out.push_str(&format!("\n{}\n  {}\n", line.about, line.words));
        if args.flag("details") {
            out.push_str(&format!("  {}\n", line.numbers));
        }
    }
    for pot in &learning.pots {
        let batch = &batches[pot.batch];
        out.push_str(&format!("\n{} · {}\n", batch.name, batch.culture_in));
        let mut told: Vec<String> = say::hours(pot).into_iter().collect();
        told.extend(say::pot(pot, &batches, &pantry));
        told.extend(say::outliers(pot, batch));
        if let Some(fitted) = &pot.fitted {
            let pairs = apart(&pot.subjects, fitted);
            told.extend(pairs.iter().take(2).map(|pair| say::pair(pair, &batches, &pantry)));
        }
        told.extend(pot.why_not.iter().map(Note::line));
        if told.is_empty() {
            told.push("It tells nothing new".to_owned());
        }
        told.iter().for_each(|line| out.push_str(&format!("  {line}\n")));
    }
    let drift = charts(&batches, &learning, &pantry);
    if !drift.is_empty() {
        out.push('\n');
        drift.iter().for_each(|chart| out.push_str(&format!("{}\n", say::drift(chart, &batches, &pantry))));
    }
    let exit = if learning.learnt.is_empty() { Exit::NoAnswer } else { Exit::Done };
    Ok((out, exit))
}
