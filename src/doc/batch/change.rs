//! Changes of a batch as values: what a window and a command ask of the file, so that each is made anew where another one
//! wrote to it meanwhile.

use super::{Batch, BatchReading, Logged, Lot};

/// A change of a batch.
#[derive(Clone, Debug, PartialEq)]
pub enum BatchChange {
    Add(Vec<BatchReading>),
    /// Takes a reading out, if it is there.
    Remove(Box<BatchReading>),
    /// Another reading in the place of one that is there.
    Replace(Box<BatchReading>, Box<BatchReading>),
    /// When the culture went in, local time "2026-11-26 18:30", and the zone of that.
    CultureIn(String, String),
    /// Hours since the culture went in.
    Stopped(Option<f64>),
    /// No longer followed, or followed again.
    Ended(bool),
    Name(String),
    Stars(u8),
    Who(String),
    Note(String),
    UseBy(String),
    Packet(String),
    Lots(Vec<Lot>),
    Logged(Option<Box<Logged>>),
    LeftOut(bool),
}

impl BatchChange {
    /// Makes the change.
    pub fn apply(&self, batch: &mut Batch) {
        match self.clone() {
            Self::Add(readings) => {
                for reading in readings {
                    batch.insert(reading);
                }
            }
            Self::Remove(reading) => {
                batch.take(&reading);
            }
            Self::Replace(old, new) => {
                if batch.take(&old) {
                    batch.insert(*new);
                }
            }
            Self::CultureIn(moment, zone) => (batch.culture_in, batch.zone) = (moment, zone),
            Self::Stopped(at_h) => batch.stopped_h = at_h,
            Self::Ended(ended) => batch.ended = ended,
            Self::Name(name) => batch.name = name,
            Self::Stars(stars) => batch.stars = stars,
            Self::Who(who) => batch.who = who,
            Self::Note(note) => batch.note = note,
            Self::UseBy(day) => batch.use_by = day,
            Self::Packet(packet) => batch.packet = packet,
            Self::Lots(lots) => batch.lots = lots,
            Self::Logged(logged) => batch.logged = logged.map(|logged| *logged),
            Self::LeftOut(left_out) => batch.left_out = left_out,
        }
    }
}

impl Batch {
    /// Takes the first reading like this one out; false where there is none.
    fn take(&mut self, reading: &BatchReading) -> bool {
        let at = self.readings.iter().position(|own| own == reading);
        at.map(|at| self.readings.remove(at)).is_some()
    }
}
