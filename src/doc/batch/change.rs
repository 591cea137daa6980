//! Changes of a batch as values: what a window and a command ask of the file, so that each is made anew where another one
//! wrote to it meanwhile.

use super::{Batch, BatchReading, Logged, Lot};
use crate::edit::{self, Edit};
use crate::pantry::Pantry;
use crate::shelf::LineKind;
use potset_base::clock::{Moment, Zone};

/// A change of a batch.
#[derive(Clone, Debug, PartialEq)]
pub enum BatchChange {
    Add(Vec<BatchReading>),
    /// Takes a reading out, if it is there.
    Remove(Box<BatchReading>),
    /// Another reading in the place of one that is there.
    Replace(Box<BatchReading>, Box<BatchReading>),
    /// When the culture went in, local time "2026-11-26 18:30", and the zone of that. What was read keeps its time by the
    /// clock: only how long after the culture that was is another.
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
    /// What really went in of a line of the design, in the unit of its list.
    WentIn(LineKind, usize, f64),
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
            Self::CultureIn(moment, zone) => batch.begins_at(moment, zone),
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
            Self::WentIn(kind, place, value) => {
                // The design has its own copies of all entries; a line that is gone leaves it as it is.
                let edit = amount(kind, place, value);
                if let Ok(design) = edit::apply(&batch.design, &edit, &Pantry::default()) {
                    batch.design = design;
                }
            }
        }
    }

    /// What takes it back on a batch that was `before` when it was made.
    pub fn back(&self, before: &Batch) -> Vec<Self> {
        match self {
            Self::Add(readings) => readings.iter().map(|one| Self::Remove(Box::new(one.clone()))).collect(),
            Self::Remove(reading) => vec![Self::Add(vec![(**reading).clone()])],
            Self::Replace(old, new) => vec![Self::Replace(new.clone(), old.clone())],
            Self::CultureIn(..) => vec![Self::CultureIn(before.culture_in.clone(), before.zone.clone())],
            Self::Stopped(_) => vec![Self::Stopped(before.stopped_h)],
            Self::Ended(_) => vec![Self::Ended(before.ended)],
            Self::Name(_) => vec![Self::Name(before.name.clone())],
            Self::Stars(_) => vec![Self::Stars(before.stars)],
            Self::Who(_) => vec![Self::Who(before.who.clone())],
            Self::Note(_) => vec![Self::Note(before.note.clone())],
            Self::UseBy(_) => vec![Self::UseBy(before.use_by.clone())],
            Self::Packet(_) => vec![Self::Packet(before.packet.clone())],
            Self::Lots(_) => vec![Self::Lots(before.lots.clone())],
            Self::Logged(_) => vec![Self::Logged(before.logged.clone().map(Box::new))],
            Self::LeftOut(_) => vec![Self::LeftOut(before.left_out)],
            Self::WentIn(kind, place, _) => {
                let was = before.design.said_of(*kind, *place, &Pantry::default());
                was.map(|(_, value)| Self::WentIn(*kind, *place, value)).into_iter().collect()
            }
        }
    }
}

/// The edit that sets the amount of a line.
const fn amount(kind: LineKind, place: usize, value: f64) -> Edit {
    match kind {
        LineKind::Bases => Edit::BaseLitres(place, value),
        LineKind::Sugars => Edit::SugarDose(place, value),
        LineKind::Thickeners => Edit::ThickenerDose(place, value),
        LineKind::Additives => Edit::AdditiveDose(place, value),
        LineKind::Cultures => Edit::CultureRate(place, value),
    }
}

impl Batch {
    /// The culture went in at another time; what was read and logged keeps its time by the clock.
    fn begins_at(&mut self, culture_in: String, zone: String) {
        let new_zone = Zone::named(&zone).unwrap_or_default();
        let later_h = Moment::parse(&culture_in).and_then(|new| self.hours_to(new, &new_zone)).unwrap_or(0.0);
        self.readings.iter_mut().for_each(|reading| reading.at_h -= later_h);
        self.stopped_h = self.stopped_h.map(|at_h| at_h - later_h);
        if let Some(logged) = &mut self.logged {
            logged.course.iter_mut().for_each(|point| point.at_h -= later_h);
        }
        (self.culture_in, self.zone) = (culture_in, zone);
    }

    /// Takes the first reading like this one out; false where there is none.
    fn take(&mut self, reading: &BatchReading) -> bool {
        let at = self.readings.iter().position(|own| own == reading);
        at.map(|at| self.readings.remove(at)).is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::Observed;
    use crate::{Kitchen, assets};

    #[test]
    fn every_change_is_taken_back() {
        let design = assets::demo("coconut-pot.ron").unwrap();
        let mut batch = Batch::begun("Six jars", "2026-11-26 18:30", "", design, Kitchen::default());
        let first = BatchReading::new(6.0, Observed::Ph(5.6));
        batch.insert(first.clone());
        let other = BatchReading::new(8.0, Observed::Ph(4.9));
        for change in [
            BatchChange::Add(vec![other.clone(), BatchReading::new(8.0, Observed::Warmth(40.0))]),
            BatchChange::Remove(Box::new(first.clone())),
            BatchChange::Replace(Box::new(first), Box::new(other)),
            BatchChange::CultureIn("2026-11-26 19:00".to_owned(), "Europe/Paris".to_owned()),
            BatchChange::Stopped(Some(9.0)),
            BatchChange::Ended(true),
            BatchChange::Name("Seven".to_owned()),
            BatchChange::Stars(4),
            BatchChange::Who("Ann".to_owned()),
            BatchChange::Note("thin".to_owned()),
            BatchChange::UseBy("2026-12-10".to_owned()),
            BatchChange::Packet("second".to_owned()),
            BatchChange::Lots(vec![Lot { of: "milk".to_owned(), lot: "7".to_owned() }]),
            BatchChange::Logged(Some(Box::new(Logged { file: "a.csv".to_owned(), course: Vec::new() }))),
            BatchChange::LeftOut(true),
            BatchChange::WentIn(LineKind::Bases, 0, 0.95),
            BatchChange::WentIn(LineKind::Cultures, 0, 1.5),
        ] {
            let mut changed = batch.clone();
            change.apply(&mut changed);
            assert_ne!(changed, batch, "{change:?}");
            change.back(&batch).iter().for_each(|back| back.apply(&mut changed));
            assert_eq!(changed, batch, "{change:?}");
        }
    }

    #[test]
    fn another_start_leaves_what_was_read_where_the_clock_had_it() {
        let design = assets::demo("coconut-pot.ron").unwrap();
        let mut batch = Batch::begun("Six jars", "2026-12-01 02:40", "", design, Kitchen::default());
        batch.insert(BatchReading::new(0.0, Observed::Ph(6.2)));
        let change = BatchChange::CultureIn("2026-11-30 18:40".to_owned(), String::new());
        let back = change.back(&batch);
        change.apply(&mut batch);
        assert_eq!(batch.readings[0].at_h, 8.0);
        back.iter().for_each(|change| change.apply(&mut batch));
        assert_eq!(batch.readings[0].at_h, 0.0);
    }
}
