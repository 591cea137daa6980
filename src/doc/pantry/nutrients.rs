//! What an entry holds beyond what the forecast needs: energy, water and salt as the source states them.

use serde::{Deserialize, Serialize};

use super::figures::figures;
use potset_base::Cited;

/// Factors by which a source worked out the energy that it states.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EnergyRule {
    /// Protein 4, fat 9, carbohydrate with fibre 4, polyols 2.4 kcal/g.
    #[default]
    General,
    /// Protein 4, fat 9, carbohydrate 4, fibre 2, polyols 2.4, organic acids 3 kcal/g.
    Eu,
    /// The food's own factors, for protein, fat and carbohydrate by difference: milk.
    Milk,
    /// The same for nuts, coconut and legumes.
    Nut,
    /// The same for cereals.
    Cereal,
    /// The same for sugar and syrups.
    Sugar,
    /// The same for starches.
    Starch,
    /// The same for honey.
    Honey,
    /// The same for gelatine.
    Gelatine,
}

figures! {
    /// Figures per 100 g as the source states them; what is empty is not known. A base keeps fat, protein, carbohydrate, fibre
    /// and calcium in its composition, and leaves them empty here.
    #[derive(Default)]
    pub struct Nutrients {
        /// kcal.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub energy: Option<Cited>,
        /// How the source worked it out.
        #[serde(default, skip_serializing_if = "is_default")]
        pub energy_rule: EnergyRule,
        /// g, as the source states it: the composition must close with it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub water: Option<Cited>,
        /// g.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub fat: Option<Cited>,
        /// g.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub saturates: Option<Cited>,
        /// g.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub protein: Option<Cited>,
        /// g, without fibre and polyols, sugars included.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub carbohydrate: Option<Cited>,
        /// g.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub fibre: Option<Cited>,
        /// g; where the stated energy is 0 they give none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub polyols: Option<Cited>,
        /// Organic acids, g.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub acids: Option<Cited>,
        /// g.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub ash: Option<Cited>,
        /// mg.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub sodium: Option<Cited>,
        /// mg.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub calcium: Option<Cited>,
        /// mg.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub phosphorus: Option<Cited>,
    }
}

impl Nutrients {
    /// True if nothing is known.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// True for the usual value of a field, which the file leaves out.
pub fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}
