//! Organisms and the cultures that are mixed from them.

use serde::{Deserialize, Serialize};

use super::figures::figures;
use super::ticket::Ticket;
use potset_base::{Cited, Inhibitor, Sugar, choices};

figures! {
    /// A sugar that an organism eats, and how readily: 1 for its first choices.
    pub struct Eats {
        pub sugar: Sugar,
        pub weight: Cited,
    }

    /// An organism that helps another along: proto-cooperation.
    pub struct Helper {
        /// Key of the helping organism.
        pub organism: String,
        /// Share of the rate that hangs on the help, 0 to 1.
        pub share: Cited,
        /// Count at half the help, cfu/g.
        pub half_count: Cited,
    }

    /// Something that holds an organism back: its rates fall as `1/(1 + (C/half)^steepness)`.
    pub struct Sensitivity {
        pub to: Inhibitor,
        /// Amount at which the rates are halved, in the unit of the inhibitor; of the undissociated acid where that acts.
        pub half: Cited,
        pub steepness: Cited,
    }

    /// An organism with its rates and limits.
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
        /// Living cells lost in the cold at 4 °C, decades a week; empty: that of the parameters.
        pub cold_loss: Option<Cited> = default,
        pub eats: Vec<Eats>,
        #[serde(default)]
        pub helpers: Vec<Helper>,
        pub sensitive: Vec<Sensitivity> = default,
    }

    /// One organism of a culture and its count in the pot at packet rate.
    pub struct Dose {
        pub organism: String,
        /// Living cells per g of pot mix at the packet's rate, cfu/g.
        pub cfu_per_g: Cited,
        /// Lag as work to be done, where it differs from the culture's.
        pub lag_work: Option<Cited> = default,
        /// Share of lactose's galactose that this strain lets go, where it differs from the species'.
        pub galactose_released: Option<Cited> = default,
    }
}

/// How much acid a culture still makes in the cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ColdAcid {
    Mild,
    Medium,
    Sharp,
}

choices! {
    /// In which form a culture comes; it decides how it ages.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Form: words {
        #[default]
        FreezeDried => "freeze-dried powder",
        /// Probiotic capsule or its powder.
        Capsule => "capsule",
        /// An active liquid culture.
        Liquid => "active liquid culture",
        /// Some of the last pot, from the fridge.
        BackSlop => "some of the last pot",
    }
}

impl Form {
    /// Whether it comes dry.
    pub const fn dry(self) -> bool {
        matches!(self, Self::FreezeDried | Self::Capsule)
    }

    /// How heavy it lies in a spoon, g/mL; nothing for capsules, which are counted.
    ///
    /// Source: the last pot published for plain yogurt (McCance and Widdowson, specific gravity 1.02); a liquid culture assumed
    /// like water; a freeze-dried powder assumed, 0.35 to 0.7 from maker to maker: it is better weighed.
    pub const fn g_per_ml(self) -> Option<f64> {
        match self {
            Self::FreezeDried => Some(0.5),
            Self::Capsule => None,
            Self::Liquid => Some(1.0),
            Self::BackSlop => Some(1.02),
        }
    }
}

figures! {
    /// A culture as bought.
    pub struct Culture {
        pub key: String,
        pub name: String,
        #[serde(default)]
        pub aliases: Vec<String>,
        pub vegan: bool,
        /// Its carrier holds gluten.
        pub gluten: bool = default,
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
        #[serde(default)]
        pub form: Form,
        /// Acid that it carries in, % lactic of its own weight; nothing when dry.
        pub carried_acid: Option<Cited> = default,
        /// It makes slime: the pot flows longer and holds its whey.
        #[serde(default)]
        pub ropy: bool,
        /// Weight of powder at the packet's rate, g/L.
        pub grams_per_litre: Cited,
        /// Usual rate, × packet.
        pub usual: (f64, f64),
        #[serde(default)]
        pub handling: String,
        pub hazards: Vec<String> = default,
        pub ticket: Ticket = default,
    }
}
