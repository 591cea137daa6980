//! Which line of a design a knob belongs to, and where that line stands in another design.

use super::LeverId;
use potset_base::measures::Measure;
use potset_doc::edit::LineKind;
use potset_doc::pantry::{Additive, Base, Entry, EntryKind, Sweetener, Thickener};
use potset_doc::{Design, Pantry};

/// The list that entries of a kind stand in; nothing for what is in no list.
pub fn list_of(kind: EntryKind) -> Option<LineKind> {
    LineKind::ALL.into_iter().find(|shelf| shelf.kind() == kind)
}

/// An entry of a list, the design's own copy first.
pub fn entry<'a>(
    design: &'a Design,
    pantry: &'a Pantry,
    shelf: LineKind,
    key: &str,
) -> Option<&'a dyn Entry> {
    design.entry_of(pantry, shelf.kind(), key)
}

/// The key of the entry in a line.
pub fn key_at(design: &Design, shelf: LineKind, line: usize) -> Option<&str> {
    design.lines(shelf).get(line).map(|line| line.entry())
}

/// The keys of all lines of a list.
pub fn keys(design: &Design, shelf: LineKind) -> impl Iterator<Item = &str> {
    design.lines(shelf).into_iter().map(|line| line.entry())
}

/// Where the entry of a line stands in another design: of several lines with it, the same of them. Nothing where it is not.
pub fn place(from: &Design, to: &Design, shelf: LineKind, line: usize) -> Option<usize> {
    let key = key_at(from, shelf, line)?;
    let nth = keys(from, shelf).take(line).filter(|k| *k == key).count();
    keys(to, shelf).enumerate().filter(|(_, k)| *k == key).map(|(l, _)| l).nth(nth)
}

/// The household measure that the amount of a line is said in, and how much of the lever's unit one of it is.
pub fn household(design: &Design, pantry: &Pantry, lever_id: LeverId) -> Option<(Measure, f64)> {
    let (shelf, i) = lever_id.line()?;
    let line = *design.lines(shelf).get(i)?;
    let (by, key) = (line.measure(), line.entry());
    // What a millilitre of it weighs as it lies, g, and how many of the lever's units are in the pot.
    let (dense, per) = match lever_id {
        LeverId::SugarDose(_) => {
            (design.entry::<Sweetener>(pantry, key)?.bulk_density.value, design.litres())
        }
        LeverId::ThickenerDose(_) => {
            (design.entry::<Thickener>(pantry, key)?.bulk_density.value, design.litres())
        }
        LeverId::AdditiveDose(_) => {
            (design.entry::<Additive>(pantry, key)?.bulk_density.value, design.litres())
        }
        // A litre of water weighs a kilogram: the measure's own volume.
        LeverId::BaseLitres(_) if design.entry::<Base>(pantry, key)?.bulk_density.is_none() => (1.0, 1000.0),
        _ => return None,
    };
    let grams = by.household().then(|| by.grams(design.spoons, Some(dense)))??;
    (per > 0.0).then_some((by, grams / per))
}

impl LeverId {
    /// The line that it is a number of; nothing for what belongs to the whole pot.
    pub const fn line(self) -> Option<(LineKind, usize)> {
        match self {
            Self::BaseLitres(i) | Self::BaseShare(i) | Self::BaseFat(i) => Some((LineKind::Bases, i)),
            Self::SugarDose(i) => Some((LineKind::Sugars, i)),
            Self::ThickenerDose(i) => Some((LineKind::Thickeners, i)),
            Self::AdditiveDose(i) => Some((LineKind::Additives, i)),
            Self::CultureRate(i) | Self::CultureAge(i) | Self::CultureKept(i) => {
                Some((LineKind::Cultures, i))
            }
            _ => None,
        }
    }

    /// The same number of another line of its list.
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
        assert_eq!(LeverId::BaseShare(1).carried(&from, &to), Some(LeverId::BaseShare(0)));
        assert_eq!(LeverId::HoldHours.carried(&from, &to), Some(LeverId::HoldHours));
        to.bases.remove(0);
        assert_eq!(LeverId::BaseFat(1).carried(&from, &to), None);
        // Of two lines with one entry, the second.
        let mut twice = from;
        twice.bases.insert(1, twice.bases[0].clone());
        let mut moved = twice.clone();
        moved.bases.rotate_right(1);
        assert_eq!(LeverId::BaseLitres(1).carried(&twice, &moved), Some(LeverId::BaseLitres(2)));
    }
}
