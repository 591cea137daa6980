//! The rows of the table of cautions.

use potset_base::Severity;
use potset_forecast::hygiene::Souring;

/// How grave it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    Watch,
    Discard,
}

impl Level {
    /// How grave advice of it is.
    pub const fn severity(self) -> Severity {
        match self {
            Self::Watch => Severity::Watch,
            Self::Discard => Severity::Stop,
        }
    }
}

/// Where in the plan it lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Phase {
    Before,
    Hold,
    After,
}

/// A row of the table; in the order in which rows of one level and one hour are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Row {
    /// What stood too long and was then heated.
    Reheated,
    /// Fresh coconut or raw nuts that are not boiled, for frail eaters.
    RawForFrail,
    /// Raw milk that is not heated.
    RawMilk,
    /// A heated base on its way to the culture.
    HeatedCoolsSlowly,
    /// The base before the culture.
    BaseStood,
    /// A cooked base that no living culture sours.
    CookedNotCultured,
    /// A base that no living culture sours.
    NotCultured,
    /// Slow souring, by the row that holds.
    SlowSouring(Souring),
    /// The chill of a pot that has not soured.
    SweetChill,
    /// The store of a pot that has not soured.
    SweetStore,
    /// The chill of a soured pot.
    Chill,
    NoChill,
    /// The store of a soured pot.
    Store,
    /// Warm store, soured or not.
    WarmStore,
}

impl Row {
    /// Where in the plan it lies.
    pub const fn phase(self) -> Phase {
        match self {
            Self::Reheated
            | Self::RawForFrail
            | Self::RawMilk
            | Self::BaseStood
            | Self::HeatedCoolsSlowly => Phase::Before,
            Self::CookedNotCultured | Self::NotCultured | Self::SlowSouring(_) => Phase::Hold,
            Self::SweetChill
            | Self::SweetStore
            | Self::Chill
            | Self::NoChill
            | Self::Store
            | Self::WarmStore => Phase::After,
        }
    }
}
