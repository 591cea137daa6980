//! Sugars and thickeners.

use serde::{Deserialize, Serialize};

use super::additive::Group;
use super::base::SugarShare;
use super::figures::figures;
use super::nutrients::Nutrients;
use super::ticket::Ticket;
use potset_base::Cited;

figures! {
    /// A sugar or sweet thing.
    pub struct Sweetener {
        pub key: String,
        pub name: String,
        #[serde(default)]
        pub aliases: Vec<String>,
        pub vegan: bool,
        pub gluten_free: bool,
        #[serde(default)]
        pub allergens: Vec<String>,
        /// g per 100 g.
        pub water: Cited,
        pub sugars: Vec<SugarShare>,
        /// Level spoon, g/mL.
        pub bulk_density: Cited,
        /// No organism of a culture lives on it: polyols, intense sweeteners, fibre.
        pub not_food: bool = default,
        /// Sweetness of what is not among its sugars, g sucrose per g of the whole.
        pub sweetness: Option<Cited> = default,
        /// Usual dose for feeding a culture, g/L; for sweetening where it is no food.
        pub usual: (f64, f64),
        pub nutrients: Nutrients = default,
        #[serde(default)]
        pub handling: String,
        #[serde(default)]
        pub hazards: Vec<String>,
        pub ticket: Ticket = default,
    }
}

figures! {
    /// How a thickener works.
    #[allow(clippy::large_enum_variant, reason = "a few dozen entries, read once")]
    pub enum Action {
        /// A starch that swells without cooking.
        ColdStarch {
            /// g swollen per g dry.
            swelling: Cited,
            /// Consistency at full packing, Pa·s^n.
            consistency: Cited,
            /// Stiffness at full packing, Pa.
            stiffness: Cited,
            /// Time constant of swelling in the warm, min.
            swelling_min: Cited,
        },
        /// A starch that must be cooked.
        CookStarch {
            swelling: Cited,
            consistency: Cited,
            stiffness: Cited,
            onset_c: Cited,
            peak_c: Cited,
            end_c: Cited,
            /// Fully swollen at, °C.
            full_c: Cited,
        },
        /// A gum: it thickens the water phase, `τ = consistency · c^exponent · γ^n`, n = index · c^−index_fall, c in g/L.
        Gum {
            /// At 1 g per L of water phase, Pa·s^n.
            consistency: Cited,
            exponent: Cited,
            index: Cited,
            index_fall: Cited,
            /// It dissolves at, °C; 0 for gums that swell cold.
            dissolve_c: Cited,
        },
        /// Protein powder: it joins the protein of the base.
        Protein {
            kind: ProteinKind,
            /// g/100 g.
            protein: Cited,
            fat: Cited,
            ash: Cited,
            #[serde(default)]
            sugars: Vec<SugarShare>,
            /// Mean buffer, mmol/(kg pH) per kg of powder.
            buffer: Cited,
        },
        /// Fibre that fills the water: consistency grows by a share per g/L.
        Filler { per_g_l: Cited },
        /// A gelling agent that is dissolved hot and sets as it cools: `G' = stiffness (c / reference)^exponent`.
        Gel {
            stiffness_pa: Cited,
            reference_g_l: Cited,
            exponent: Cited,
            /// Below this dose it does not set, g/L.
            least_g_l: Cited,
            dissolve_c: Cited,
            set_c: Cited,
            melt_c: Cited,
            /// Share of the stiffness left when the set gel is stirred.
            after_stirring: Cited,
            /// What it cannot gel without, and the share of its stiffness that is left when that is missing.
            needs: Option<(Need, Cited)> = default,
            /// Share of the stiffness left at pH 4.0; straight to 1 at pH 4.6.
            left_at_ph4: Option<Cited> = default,
        },
    }
}

impl Action {
    /// Whether it is a starch.
    pub const fn starchy(&self) -> bool {
        matches!(self, Self::ColdStarch { .. } | Self::CookStarch { .. })
    }

    /// The sugars that it brings.
    pub fn sugars(&self) -> &[SugarShare] {
        if let Self::Protein { sugars, .. } = self { sugars } else { &[] }
    }
}

/// Which protein a powder brings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ProteinKind {
    Milk,
    Soy,
    Pea,
}

/// What a gelling agent cannot do without.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Need {
    Calcium,
    MilkProtein,
}

figures! {
    /// Two thickeners that do more together.
    pub struct Synergy {
        /// Key of the other thickener.
        pub with: String,
        /// Factor on the stress of both at equal parts.
        pub factor: Cited,
    }

    /// A thickener.
    pub struct Thickener {
        pub key: String,
        pub name: String,
        #[serde(default)]
        pub aliases: Vec<String>,
        pub vegan: bool,
        pub gluten_free: bool,
        #[serde(default)]
        pub allergens: Vec<String>,
        /// What binds acid in it, such as the free acid of pectin. Protein powders have their buffer in the action.
        pub groups: Vec<Group> = default,
        pub action: Action,
        pub synergies: Vec<Synergy> = default,
        /// Hotter than this breaks its granules, °C.
        pub overcooks_c: Option<Cited> = default,
        /// Water that it gives back in the cold, % of the pot per day.
        pub weeps_per_day: Option<Cited> = default,
        /// Dose that cuts centrifuged whey to 1/e, g/L.
        pub whey_efold: Cited,
        /// Share lost in lumps when stirred in dry, 0 to 1.
        pub lumps: Cited,
        pub bulk_density: Cited,
        /// Usual dose, g/L.
        pub usual: (f64, f64),
        pub nutrients: Nutrients = default,
        #[serde(default)]
        pub handling: String,
        pub hazards: Vec<String> = default,
        pub ticket: Ticket = default,
    }
}
