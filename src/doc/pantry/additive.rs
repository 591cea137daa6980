//! What else may go in: acids, buffer salts, calcium, lactase, salt and preservatives, fruit.

use super::base::SugarShare;
use super::figures::figures;
use super::nutrients::Nutrients;
use super::ticket::Ticket;
use potset_base::{Cited, Inhibitor};

figures! {
    /// Proton-binding groups of an additive.
    pub struct Group {
        pub name: String,
        pub mmol_per_g: Cited,
        pub pk: Cited,
        /// Share of the groups that hold their proton as bought: 1 for an acid, 0 for a neutral salt.
        pub bound: Cited,
    }

    /// An inhibitor and how much of it, per g of additive, in the mass unit of the inhibitor.
    pub struct InhibitorShare {
        pub inhibitor: Inhibitor,
        /// g/g for salt and sugar, mg/g for preservatives, µg/g for residues.
        pub per_g: Cited,
    }

    /// Something that is neither base, sugar, thickener nor culture.
    pub struct Additive {
        pub key: String,
        pub name: String,
        #[serde(default)]
        pub aliases: Vec<String>,
        pub vegan: bool,
        pub gluten_free: bool,
        #[serde(default)]
        pub allergens: Vec<String>,
        #[serde(default)]
        pub groups: Vec<Group>,
        /// It gives off carbon dioxide as it takes up acid.
        #[serde(default)]
        pub gas: bool,
        #[serde(default)]
        pub inhibits: Vec<InhibitorShare>,
        /// Neutral lactase units per g.
        pub lactase_per_g: Option<Cited> = default,
        /// Calcium, mg/g.
        pub calcium: Option<Cited> = default,
        /// Lactic and acetic acid that it brings, mmol/g.
        pub lactic: Option<Cited> = default,
        pub acetic: Option<Cited> = default,
        #[serde(default)]
        pub sugars: Vec<SugarShare>,
        /// g/100 g.
        pub water: Cited,
        /// Level spoon, g/mL.
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
