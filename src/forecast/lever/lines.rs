//! Which line of a design a knob belongs to, and where that line stands in another design.

use super::Knob;
use potset_base::measures::Measure;
use potset_doc::edit::Shelf;
use potset_doc::pantry::{self, Entry, EntryKind};
use potset_doc::{Design, Pantry};

/// The lists of a design, each with what stands in it.
pub const LISTS: [(Shelf, EntryKind); 5] = [
    (Shelf::Bases, EntryKind::Base),
    (Shelf::Sugars, EntryKind::Sugar),
    (Shelf::Thickeners, EntryKind::Thickener),
    (Shelf::Additives, EntryKind::Additive),
    (Shelf::Cultures, EntryKind::Culture),
];

/// What stands in a list.
#[must_use]
pub fn kind_of(shelf: Shelf) -> EntryKind {
    LISTS.into_iter().find(|(s, _)| *s == shelf).map_or(EntryKind::Base, |(_, kind)| kind)
}

/// The list that entries of a kind stand in; nothing for what is in no list.
#[must_use]
pub fn list_of(kind: EntryKind) -> Option<Shelf> {
    LISTS.into_iter().find(|(_, k)| *k == kind).map(|(shelf, _)| shelf)
}

/// An entry of a list, the design's own copy first.
#[must_use]
pub fn entry<'a>(design: &'a Design, pantry: &'a Pantry, shelf: Shelf, key: &str) -> Option<&'a dyn Entry> {
    let kind = kind_of(shelf);
    design.snapshot.entry(kind, key).or_else(|| pantry.entry(kind, key))
}

/// The key of the entry in a line.
#[must_use]
pub fn key_at(design: &Design, shelf: Shelf, line: usize) -> Option<&str> {
    match shelf {
        Shelf::Bases => design.bases.get(line).map(|l| l.entry.as_str()),
        Shelf::Sugars => design.sugars.get(line).map(|l| l.entry.as_str()),
        Shelf::Thickeners => design.thickeners.get(line).map(|l| l.entry.as_str()),
        Shelf::Additives => design.additives.get(line).map(|l| l.entry.as_str()),
        Shelf::Cultures => design.cultures.get(line).map(|l| l.entry.as_str()),
    }
}

/// The keys of all lines of a list.
pub fn keys(design: &Design, shelf: Shelf) -> impl Iterator<Item = &str> {
    (0..).map_while(move |line| key_at(design, shelf, line))
}

/// Where the entry of a line stands in another design: of several lines with it, the same of them. Nothing where it is not.
#[must_use]
pub fn place(from: &Design, to: &Design, shelf: Shelf, line: usize) -> Option<usize> {
    let key = key_at(from, shelf, line)?;
    let nth = keys(from, shelf).take(line).filter(|k| *k == key).count();
    keys(to, shelf).enumerate().filter(|(_, k)| *k == key).map(|(l, _)| l).nth(nth)
}

/// The household measure that the amount of a line is said in, and how much of the lever's unit one of it is.
#[must_use]
pub fn household(design: &Design, pantry: &Pantry, knob: Knob) -> Option<(Measure, f64)> {
    let (own, spoons, litres) = (&design.snapshot, design.spoons, design.litres());
    let dose = |by: Measure, g_per_ml: f64| {
        let grams = by.household().then(|| by.grams(spoons, Some(g_per_ml)))??;
        (litres > 0.0).then_some((by, grams / litres))
    };
    match knob {
        Knob::SugarDose(i) => {
            let line = design.sugars.get(i)?;
            dose(line.by, pantry::entry(&own.sugars, &pantry.sugars, &line.entry)?.bulk_density.v)
        }
        Knob::ThickenerDose(i) => {
            let line = design.thickeners.get(i)?;
            dose(line.by, pantry::entry(&own.thickeners, &pantry.thickeners, &line.entry)?.bulk_density.v)
        }
        Knob::AdditiveDose(i) => {
            let line = design.additives.get(i)?;
            dose(line.by, pantry::entry(&own.additives, &pantry.additives, &line.entry)?.bulk_density.v)
        }
        Knob::BaseLitres(i) => {
            let line = design.bases.get(i)?;
            let base = pantry::entry(&own.bases, &pantry.bases, &line.entry)?;
            let liquid = line.by.household() && base.bulk_density.is_none();
            // A litre of water weighs a kilogram: the measure's own volume.
            let litres = line.by.grams(spoons, Some(1.0))? / 1000.0;
            liquid.then_some((line.by, litres))
        }
        _ => None,
    }
}

impl Knob {
    /// The line that it is a number of; nothing for what belongs to the whole pot.
    #[must_use]
    pub const fn line(self) -> Option<(Shelf, usize)> {
        match self {
            Self::BaseLitres(i) | Self::BaseShare(i) | Self::BaseFat(i) => Some((Shelf::Bases, i)),
            Self::SugarDose(i) => Some((Shelf::Sugars, i)),
            Self::ThickenerDose(i) => Some((Shelf::Thickeners, i)),
            Self::AdditiveDose(i) => Some((Shelf::Additives, i)),
            Self::CultureRate(i) | Self::CultureAge(i) | Self::CultureKept(i) => Some((Shelf::Cultures, i)),
            _ => None,
        }
    }

    /// The same number of another line of its list.
    #[must_use]
    pub const fn on_line(self, i: usize) -> Self {
        match self {
            Self::BaseLitres(_) => Self::BaseLitres(i),
            Self::BaseShare(_) => Self::BaseShare(i),
            Self::BaseFat(_) => Self::BaseFat(i),
            Self::SugarDose(_) => Self::SugarDose(i),
            Self::ThickenerDose(_) => Self::ThickenerDose(i),
            Self::AdditiveDose(_) => Self::AdditiveDose(i),
            Self::CultureRate(_) => Self::CultureRate(i),
            Self::CultureAge(_) => Self::CultureAge(i),
            Self::CultureKept(_) => Self::CultureKept(i),
            whole => whole,
        }
    }

    /// The same number of the same entry in another design; nothing where that entry is not in it.
    #[must_use]
    pub fn carried(self, from: &Design, to: &Design) -> Option<Self> {
        match self.line() {
            Some((shelf, line)) => place(from, to, shelf, line).map(|line| self.on_line(line)),
            None => Some(self),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::assets::demo;

    #[test]
    fn a_number_goes_with_its_entry() {
        let from = demo("oat-and-coconut.ron").unwrap();
        assert!(from.bases.len() > 1);
        let mut to = from.clone();
        to.bases.swap(0, 1);
        assert_eq!(Knob::BaseShare(1).carried(&from, &to), Some(Knob::BaseShare(0)));
        assert_eq!(Knob::HoldHours.carried(&from, &to), Some(Knob::HoldHours));
        to.bases.remove(0);
        assert_eq!(Knob::BaseFat(1).carried(&from, &to), None);
        // Of two lines with one entry, the second.
        let mut twice = from;
        twice.bases.insert(1, twice.bases[0].clone());
        let mut moved = twice.clone();
        moved.bases.rotate_right(1);
        assert_eq!(Knob::BaseLitres(1).carried(&twice, &moved), Some(Knob::BaseLitres(2)));
    }
}
