//! Readings of batches without their designs, as a table has them.

use super::change::BatchChange;
use super::{Batch, BatchReading};

/// Readings of one batch, and what finds it again.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BatchRows {
    pub name: String,
    pub code: String,
    /// Local time "2026-11-26 18:30" and its zone.
    pub culture_in: String,
    pub zone: String,
    pub readings: Vec<BatchReading>,
}

impl BatchRows {
    /// Of a batch.
    pub fn of(batch: &Batch) -> Self {
        Self {
            name: batch.name.clone(),
            code: batch.code.clone(),
            culture_in: batch.culture_in.clone(),
            zone: batch.zone.clone(),
            readings: batch.readings.clone(),
        }
    }

    /// Whether they are of this batch: of its name and time.
    pub fn are_of(&self, name: &str, culture_in: &str) -> bool {
        self.name == name && self.culture_in == culture_in
    }

    /// What makes them part of a batch: readings that it has already stay as they are.
    pub fn missing_in(&self, batch: &Batch) -> BatchChange {
        let mut there: Vec<&BatchReading> = batch.readings.iter().collect();
        let new = self.readings.iter().filter(|reading| {
            let at = there.iter().position(|own| own == reading);
            at.map(|at| there.swap_remove(at)).is_none()
        });
        BatchChange::Add(new.cloned().collect())
    }
}
