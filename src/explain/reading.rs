//! Every kind of value that the screen shows, and what ships of each: its name, the laws behind it and the numbers that it
//! rests on.

use std::mem::discriminant;
use std::sync::LazyLock;

use crate::law::Law;
use potset_base::Sugar;
use potset_base::lexicon::{self, Table, Words};
use potset_judge::answer::Answer;
use serde::Deserialize;

/// The text of what ships.
const TEXT: &str = include_str!("../../assets/explanations.ron");

/// All that ships; what each list is for stands in the file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shipped {
    pub laws: Table<Law>,
    pub acting: Table<Words>,
    pub rests: Table<Words>,
    pub readings: Vec<Facts>,
}

/// What is fixed about a reading.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Facts {
    of: Reading,
    pub name: String,
    /// Heading over the parts.
    pub made_of: String,
    /// Keys of its lists.
    pub laws: String,
    pub rests: String,
}

/// What ships, read once.
pub fn shipped() -> &'static Shipped {
    static ALL: LazyLock<Shipped> = LazyLock::new(|| lexicon::shipped(TEXT));
    &ALL
}

/// A value on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reading {
    Ph,
    PhChilled,
    PhCooled,
    StartPh,
    Buffer,
    AcidMade,
    Titratable,
    Undissociated,
    TangWord,
    TimeToLine,
    SugarLeft,
    SugarEaten,
    SugarAdded,
    SugarOwn,
    SugarOf(Sugar),
    Sweetness,
    SweetWord,
    /// Count of an organism, by its place in the forecast.
    Count(usize),
    TextureWord,
    ViscosityChilled,
    ViscosityPot,
    Stiffness,
    Yield,
    Thickness,
    LineSpread,
    Slump,
    WheyStanding,
    WheyCut,
    ThinLayer,
    Ready,
    Temperature,
    ChillTime,
    /// Powder to weigh, by culture line.
    Dose(usize),
    /// Share of cream, by base line.
    CreamShare(usize),
    /// pH of the pot kept in the cold, by place in the verdict's days.
    Kept(usize),
}

impl Reading {
    /// Those that a verdict can show, without the ones by place.
    pub fn plain() -> impl Iterator<Item = Self> {
        let by_place = |of: &Self| {
            use Reading::{Count, CreamShare, Dose, Kept, SugarOf};
            matches!(of, Count(_) | CreamShare(_) | Dose(_) | Kept(_) | SugarOf(_))
        };
        shipped().readings.iter().map(|row| row.of).filter(move |of| !by_place(of))
    }

    /// All that an answer may have, those by place too.
    pub fn of(answer: &Answer) -> Vec<Self> {
        let mut all: Vec<Self> = Self::plain().collect();
        all.extend((0..answer.forecast.species.len()).map(Self::Count));
        all.extend(answer.forecast.sugars_there.iter().map(|sugar| Self::SugarOf(*sugar)));
        all.extend(answer.facts.doses.iter().map(|dose| Self::Dose(dose.line)));
        all.extend(answer.facts.cream.iter().map(|cream| Self::CreamShare(cream.line)));
        all.extend((0..answer.verdict.keeping.as_ref().map_or(0, |k| k.days.len())).map(Self::Kept));
        all
    }

    /// Place of the reading that stands for it among those whose influences are found out.
    pub const fn watched(self) -> Option<usize> {
        match self {
            Self::Ph | Self::AcidMade | Self::Titratable | Self::Undissociated | Self::TangWord => Some(0),
            Self::TimeToLine | Self::Ready => Some(1),
            Self::TextureWord
            | Self::ViscosityChilled
            | Self::Stiffness
            | Self::Yield
            | Self::Thickness
            | Self::LineSpread
            | Self::Slump => Some(2),
            Self::SugarLeft | Self::SugarEaten => Some(3),
            _ => None,
        }
    }

    /// What is fixed about it.
    pub fn facts(self) -> Option<&'static Facts> {
        shipped().readings.iter().find(|row| discriminant(&row.of) == discriminant(&self))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::format;
    use std::collections::BTreeSet;

    #[test]
    fn each_reading_has_a_row_of_its_own() {
        let by_place = [
            Reading::Count(3),
            Reading::Dose(2),
            Reading::CreamShare(1),
            Reading::Kept(4),
            Reading::SugarOf(Sugar::Maltose),
        ];
        let all = Reading::plain().chain(by_place);
        let names: BTreeSet<&str> = all.map(|reading| reading.facts().unwrap().name.as_str()).collect();
        assert_eq!((names.len(), shipped().readings.len()), (35, 35), "{names:?}");
    }

    #[test]
    fn the_shipped_lists_are_read_strictly_and_fit_together() {
        let all: Shipped = format::asset(TEXT).unwrap();
        let keys =
            |table: &Table<Words>| table.iter().map(|(key, _)| key.to_owned()).collect::<BTreeSet<_>>();
        let named =
            |list: fn(&Facts) -> &String| all.readings.iter().map(list).cloned().collect::<BTreeSet<_>>();
        assert_eq!(keys(&all.acting), named(|row| &row.laws));
        assert!(keys(&all.rests).is_superset(&named(|row| &row.rests)));
        let mut acting = all.acting.iter().flat_map(|(_, laws)| laws.iter());
        assert!(acting.all(|key| all.laws.get(key).is_some()), "a law that acts is one of the laws");
        let more = TEXT.replacen("on: culture", "onto: culture", 1);
        assert!(format::asset::<Shipped>(&more).unwrap_err().title.contains("onto"));
        let twice = TEXT.replacen("(\"sites\", (", "(\"activity\", (", 1);
        assert!(format::asset::<Shipped>(&twice).unwrap_err().title.contains("stands twice"));
    }
}
