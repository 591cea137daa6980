//! What a list of numbers hangs on: while this stays the same, so does the list.

use std::sync::Arc;

use crate::acting::Acting;
use crate::measured_readings::figures;
use crate::params;
use potset_base::Cited;
use potset_doc::readings::{BaseMeasured, CultureMeasured};
use potset_doc::snapshot::Snapshot;
use potset_doc::{Design, Kitchen, Pantry};

/// All of a design and its pantry that the list reads. Doses are not in it: a drag of one leaves the list as it is.
#[derive(Clone, Debug)]
pub struct Basis {
    pantry: Arc<Pantry>,
    snapshot: Snapshot,
    uses: Acting,
    bases: Vec<(String, BaseMeasured)>,
    cultures: Vec<(String, CultureMeasured)>,
    /// As they stand in the place of the pantry's: a titration is read with the amounts of its line, a warmer's loss with the
    /// thermometer.
    readings: Vec<(String, Cited)>,
}

impl Basis {
    /// Of a design in the maker's pantry and kitchen.
    pub fn of(design: &Design, pantry: &Arc<Pantry>, kitchen: &Kitchen) -> Self {
        let mut own = design.clone();
        own.refresh_snapshot(pantry);
        let readings =
            params::shipped().map_or_else(|_| Vec::new(), |params| figures(&own, pantry, kitchen, params));
        Self {
            pantry: Arc::clone(pantry),
            uses: Acting::of(&own),
            snapshot: own.snapshot,
            bases: design.bases.iter().map(|line| (line.entry.clone(), line.measured)).collect(),
            cultures: design.cultures.iter().map(|line| (line.entry.clone(), line.measured)).collect(),
            readings,
        }
    }
}

impl PartialEq for Basis {
    fn eq(&self, other: &Self) -> bool {
        // The same pantry, not one that is equal: to compare all entries takes as long as to list them.
        Arc::ptr_eq(&self.pantry, &other.pantry)
            && self.uses == other.uses
            && self.bases == other.bases
            && self.cultures == other.cultures
            && self.readings == other.readings
            && self.snapshot == other.snapshot
    }
}
