//! The names of what is in a pot or done to it, as far as that decides which laws act.

use serde::Deserialize;

use super::design::Disturbed;
use super::pantry::{BaseKind, ColdAcid};
use super::steps::Way;
use potset_base::{Inhibitor, Sugar};

/// Something on which laws act.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum InPot {
    Base(BaseKind),
    MilkProtein,
    SoyProtein,
    PeaProtein,
    /// One of the three.
    Protein,
    PlantFat,
    /// Of milk or of plants.
    Fat,
    Starch,
    /// Starch that swells without cooking, and starch that needs it.
    ColdStarch,
    CookedStarch,
    GellingAgent,
    Gum,
    /// Starch, gelling agent or gum.
    Thickener,
    Culture,
    ColdAcid(ColdAcid),
    /// Yogurt of before as the culture.
    BackSlop,
    Ropy,
    /// A culture that is not fresh.
    Aged,
    Lactase,
    Inhibitor(Inhibitor),
    AnyInhibitor,
    Sugar(Sugar),
    Strained,
    Disturbed(Disturbed),
    Way(Way),
}
