//! The conditions of a published case: pantry entries with what the source says otherwise.

use serde::Deserialize;

use crate::pantry::ColdAcid;
use potset_base::Sugar;
use potset_base::words::Style;

/// A base of the pantry, and where the source's own differs. Figures in the units of the pantry.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BaseAs {
    pub entry: String,
    #[serde(default = "one")]
    pub litres: f64,
    /// Factor on all but fat and water: protein, carbohydrate, sugars, ash, buffer, start acidity. It acts first.
    #[serde(default = "one")]
    pub solids: f64,
    pub ph: Option<f64>,
    /// mmol/(kg pH).
    pub mean_buffer: Option<f64>,
    /// % lactic.
    pub start_acidity: Option<f64>,
    /// g/100 g.
    pub fat: Option<f64>,
    pub protein: Option<f64>,
    pub carbohydrate: Option<f64>,
    pub fibre: Option<f64>,
    pub ash: Option<f64>,
    /// All sugars, g/100 g; empty: those of the pantry.
    #[serde(default)]
    pub sugars: Vec<(Sugar, f64)>,
    /// Where the case assumes its sugars: 5 % and 95 % bounds, as factors on all of them together.
    pub sugars_within: Option<(f64, f64)>,
    /// 0 to 1.
    pub whey_denatured: Option<f64>,
    pub homogenised: Option<bool>,
}

const fn one() -> f64 {
    1.0
}

/// An organism of the pantry and its count at the start, cfu/g.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cells {
    pub organism: String,
    pub cfu_per_g: f64,
}

/// A likely value with the 5 % and 95 % bounds of a log-normal spread.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Prior {
    #[serde(rename = "v")]
    pub value: f64,
    pub low: f64,
    pub high: f64,
}

/// When the hold ended.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Stop {
    /// After so many hours.
    Hours(f64),
    /// At a pH.
    AtPh(f64),
    /// Not told: at the moment that makes the stored pot meet its first reading, this pH on this day. One fitted value.
    ToMeet { ph: f64, day: f64 },
}

/// What was in a pot and what was done to it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pot {
    pub bases: Vec<BaseAs>,
    /// Thickeners of the pantry, g/L, mixed in first.
    #[serde(default)]
    pub thickeners: Vec<(String, f64)>,
    #[serde(default)]
    pub cells: Vec<Cells>,
    /// Where the case assumes its cells: 5 % and 95 % bounds, as factors on all of them together. What was never told is
    /// taken as 1 to 3 % of a culture grown to 3e8 to 1e9 cfu/g: a third to three times 1e7. Source: assumed.
    pub cells_within: Option<(f64, f64)>,
    /// Pace; empty: the pantry's for a dairy or a plant base.
    pub speed: Option<Prior>,
    /// Lag as work to be done; empty: the pantry's, freeze-dried.
    pub lag: Option<Prior>,
    #[serde(default = "medium")]
    pub cold: ColdAcid,
    /// Heat treatment before the culture: °C and minutes, reached at once.
    pub heat: Option<(f64, f64)>,
    /// Hold temperature, °C.
    #[serde(default = "usual_hold")]
    pub hold_c: f64,
    /// Where it is not told, or only remembered: how far it may be off either way, 5 % and 95 % bounds, °C. The usual hold
    /// is 40 to 44 °C (common practice).
    #[serde(default)]
    pub hold_within_c: f64,
    /// How long the hold is looked at, h.
    #[serde(default = "a_day")]
    pub hours: f64,
    pub stop: Option<Stop>,
    /// Temperature of the cold store, °C.
    #[serde(default = "usual_store")]
    pub store_c: f64,
    /// pH at which texture is read.
    #[serde(default = "usual_end")]
    pub end_ph: f64,
    #[serde(default = "set")]
    pub style: Style,
    /// Key of the vessel.
    #[serde(default = "jar")]
    pub vessel: String,
    /// Amount in one vessel, L.
    #[serde(default = "one")]
    pub vessel_litres: f64,
}

const fn medium() -> ColdAcid {
    ColdAcid::Medium
}
const fn usual_hold() -> f64 {
    42.0
}
const fn a_day() -> f64 {
    24.0
}
const fn usual_store() -> f64 {
    4.0
}
const fn usual_end() -> f64 {
    4.6
}
const fn set() -> Style {
    Style::Set
}
fn jar() -> String {
    "jar_1l".to_owned()
}

/// Composition of a food, shares of 1.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Food {
    pub water: f64,
    #[serde(default)]
    pub protein: f64,
    #[serde(default)]
    pub fat: f64,
    #[serde(default)]
    pub carbohydrate: f64,
    #[serde(default)]
    pub fibre: f64,
    #[serde(default)]
    pub ash: f64,
}

/// The conditions of a case.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Setup {
    Pot(Box<Pot>),
    Food(Food),
    /// The readings say it all.
    Law,
}
