//! What a batch is listed by, so that thousands of them are there at once.

use serde::{Deserialize, Serialize};

use super::{Batch, BatchReading};
use crate::known;

/// What stands in the file of a batch, as far as a list shows it and asks for it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BatchSummary {
    pub name: String,
    pub code: String,
    /// Local time "2026-11-26 18:30" and its zone; empty while the culture is not in.
    pub culture_in: String,
    pub zone: String,
    pub ended: bool,
    pub stopped_h: Option<f64>,
    /// How long its design holds it, h.
    pub hold_h: f64,
    /// How many readings it has, and the last of them that is more than a remark.
    pub readings: usize,
    pub last: Option<BatchReading>,
    pub logged: bool,
    pub stars: u8,
    pub left_out: bool,
    /// Keys of its cultures, its bases and its warmer.
    pub cultures: Vec<String>,
    pub bases: Vec<String>,
    pub warmer: String,
}

impl BatchSummary {
    /// Of a batch.
    pub fn of(batch: &Batch) -> Self {
        let design = &batch.design;
        let told = batch.readings.iter().rev().find(|reading| !reading.what.words().is_empty());
        Self {
            name: batch.name.clone(),
            code: batch.code.clone(),
            culture_in: batch.culture_in.clone(),
            zone: batch.zone.clone(),
            ended: batch.ended,
            stopped_h: batch.stopped_h,
            hold_h: design.hold().map_or(0.0, |hold| hold.hours),
            readings: batch.readings.len(),
            last: told.cloned(),
            logged: batch.logged.is_some(),
            stars: batch.stars,
            left_out: batch.left_out,
            cultures: design.cultures.iter().map(|line| line.entry.clone()).collect(),
            bases: design.bases.iter().map(|line| line.entry.clone()).collect(),
            warmer: design.hold().map_or_else(String::new, |hold| hold.warmer.clone()),
        }
    }
}

/// A batch as it was listed before, by its file and the stamp that this had.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KnownBatch {
    pub file: String,
    pub stamp: u64,
    pub summary: BatchSummary,
}

/// First line of the list. Another one is not read.
const HEAD: &str = "potset known batches 1";

/// The text of a list, a batch a line.
pub fn write_known(all: &[KnownBatch]) -> String {
    known::write(HEAD, all)
}

/// Reads the list.
pub fn read_known(text: &str) -> Vec<KnownBatch> {
    let mut lines = text.lines();
    if lines.next() == Some(HEAD) { known::read(lines).collect() } else { Vec::new() }
}
