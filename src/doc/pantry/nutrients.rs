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
        pub energy: Option<Cited> = default,
        /// How the source worked it out.
        pub energy_rule: EnergyRule = default,
        /// g, as the source states it: the composition must close with it.
        pub water: Option<Cited> = default,
        /// g.
        pub fat: Option<Cited> = default,
        /// g.
        pub saturates: Option<Cited> = default,
        /// g.
        pub protein: Option<Cited> = default,
        /// g, without fibre and polyols, sugars included.
        pub carbohydrate: Option<Cited> = default,
        /// g.
        pub fibre: Option<Cited> = default,
        /// g; where the stated energy is 0 they give none.
        pub polyols: Option<Cited> = default,
        /// Organic acids, g.
        pub acids: Option<Cited> = default,
        /// g.
        pub ash: Option<Cited> = default,
        /// mg.
        pub sodium: Option<Cited> = default,
        /// mg.
        pub calcium: Option<Cited> = default,
        /// mg.
        pub phosphorus: Option<Cited> = default,
    }
}
