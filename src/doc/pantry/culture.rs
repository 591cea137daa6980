//! Organisms and the cultures that are mixed from them.

use serde::{Deserialize, Serialize};

use crate::base::{Cited, Sugar};

/// A sugar that an organism eats, and how readily: 1 for its first choices.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Eats {
    pub sugar: Sugar,
    pub weight: Cited,
}

/// An organism that helps another along: proto-cooperation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Helper {
    /// Key of the helping organism.
    pub organism: String,
    /// Share of the rate that hangs on the help, 0 to 1.
    pub share: Cited,
    /// Count at half the help, cfu/g.
    pub half_count: Cited,
}

/// An organism with its rates and limits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Organism {
    pub key: String,
    /// Short name in italics on the screen, "S. thermophilus".
    pub name: String,
    pub full_name: String,
    /// 1/h.
    pub growth_rate: Cited,
    pub temperature_min_c: Cited,
    pub temperature_opt_c: Cited,
    pub temperature_max_c: Cited,
    pub ph_min: Cited,
    pub ph_opt: Cited,
    pub ph_max: Cited,
    /// Undissociated lactic acid that stops it, mmol/kg.
    pub acid_ceiling: Cited,
    pub acid_exponent: Cited,
    /// Lactic acid per new cell, pmol/cfu.
    pub acid_per_cell: Cited,
    /// Lactic acid per cell and hour at 42 °C, pmol/(cfu h).
    pub acid_per_cell_hour: Cited,
    /// mol lactic acid per mol hexose.
    pub lactic_per_hexose: Cited,
    /// mol acetic acid per mol hexose.
    pub acetic_per_hexose: Cited,
    /// Share of lactose's galactose that is let go, 0 to 1.
    pub galactose_released: Cited,
    /// Half-saturation of sugar uptake, mmol/kg.
    pub half_saturation: Cited,
    /// Decimal reduction time at 60 °C, min.
    pub d60_min: Cited,
    /// Temperature rise for a tenfold faster death, °C.
    pub z_c: Cited,
    pub eats: Vec<Eats>,
    #[serde(default)]
    pub helpers: Vec<Helper>,
}

/// One organism of a culture and its count in the pot at packet rate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dose {
    pub organism: String,
    /// Living cells per g of pot mix at the packet's rate, cfu/g.
    pub cfu_per_g: Cited,
}

/// How much acid a culture still makes in the cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ColdAcid {
    Mild,
    Medium,
    Sharp,
}

/// A culture as bought.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Culture {
    pub key: String,
    pub name: String,
    #[serde(default)]
    pub aliases: Vec<String>,
    pub vegan: bool,
    #[serde(default)]
    pub allergens: Vec<String>,
    pub doses: Vec<Dose>,
    /// Pace in dairy bases, 1 = the organisms' own rates.
    pub speed_dairy: Cited,
    /// Pace in plant bases.
    pub speed_plant: Cited,
    /// Lag as work to be done: growth rate × lag time.
    pub lag_work: Cited,
    pub cold_acid: ColdAcid,
    /// Weight of powder at the packet's rate, g/L.
    pub grams_per_litre: Cited,
    /// Usual rate, × packet rate.
    pub usual: (f64, f64),
    #[serde(default)]
    pub handling: String,
}
