//! A file of a logger taken into a batch: its course of warmth, and some of its readings of pH.

use std::fmt::Write;
use std::path::Path;

use potset_base::Note;
use potset_doc::Batch;
use potset_doc::batch::change::BatchChange;
use potset_doc::batch::check::{LONGEST_DAYS, MOST_LOGGED};
use potset_doc::batch::rows::BatchRows;
use potset_doc::batch::{BatchReading, Logged, Observed};
use potset_doc::steps::Reading;
use potset_logger::{Begin, course, guess, ph_course, read, thin};
use potset_store::files;

/// Most readings of pH that are taken: as many as a person would look at.
const MOST_PH: usize = 48;

/// What a file makes of a batch. What is odd about it is told.
///
/// # Errors
/// A note if the file cannot be read, if nothing in it is of the time of this batch, or if the culture is not in yet.
pub fn taken(path: &Path, batch: &Batch, out: &mut String) -> Result<Vec<BatchChange>, Note> {
    let placed = |note: Note| Note { field: format!("{}, {}", path.display(), note.field), ..note };
    let start = batch.start().ok_or_else(|| {
        Note::error("--logger", "The culture has not gone in yet", "Say first when the culture went in")
    })?;
    let bytes = files::bytes(path)?;
    let layout = guess(&bytes).map_err(placed)?;
    let zone = batch.clock();
    let rows = read(&bytes, &layout, &zone).map_err(placed)?;
    let begin = Begin::At(start, &zone);
    let near = |points: Vec<(f64, f64)>| -> Vec<(f64, f64)> {
        points.into_iter().filter(|(at_h, _)| (-24.0..24.0 * LONGEST_DAYS).contains(at_h)).collect()
    };
    let warmth = thin(&near(course(&rows, begin, false)), MOST_LOGGED);
    let ph = thin(&near(ph_course(&rows, begin)), MOST_PH);
    if warmth.is_empty() && ph.is_empty() {
        let title = format!("Nothing in it is of the time of {}", batch.name);
        let mend = "Check the zone of the batch, and the clock of the logger";
        return Err(placed(Note::error("file", title, mend)));
    }
    let doubts = layout.doubts.iter().map(|doubt| doubt.words().to_owned());
    for line in doubts.chain(rows.told.lines()) {
        let _ = writeln!(out, "{line}");
    }
    for fault in &rows.faults {
        let _ = writeln!(out, "{}", fault.words());
    }
    if !rows.faults.is_empty() {
        let _ = writeln!(out, "Rows that were not read: {}", rows.faults.len());
    }
    let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let (points, acids) = (warmth.len(), ph.len());
    let _ = writeln!(out, "{name}: {points} temperatures and {acids} readings of pH");
    let mut changes = Vec::new();
    if !warmth.is_empty() {
        let course = warmth.into_iter().map(|(at_h, c)| Reading { at_h, c }).collect();
        changes.push(BatchChange::Logged(Some(Box::new(Logged { file: name, course }))));
    }
    let readings = ph.into_iter().map(|(at_h, ph)| BatchReading::new(at_h, Observed::Ph(ph))).collect();
    changes.push(BatchRows { readings, ..BatchRows::default() }.missing_in(batch));
    Ok(changes)
}
