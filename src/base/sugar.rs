//! The eight sugars that the model follows, with their formulas and words.

use crate::choices;
use serde::{Deserialize, Serialize};

use super::constants::{WATER_G_MOL, molar_mass};

choices! {
    /// A sugar that a base, a sweetening or a culture can bring, eat or leave.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Sugar: name {
        Lactose => "lactose",
        Sucrose => "sucrose",
        Glucose => "glucose",
        Fructose => "fructose",
        Galactose => "galactose",
        Maltose => "maltose",
        Raffinose => "raffinose",
        Stachyose => "stachyose",
    }
}

impl Sugar {
    /// Place in [`Sugar::ALL`] and in every array of eight.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Hexose units in one molecule.
    pub const fn hexoses(self) -> f64 {
        match self {
            Self::Glucose | Self::Fructose | Self::Galactose => 1.0,
            Self::Lactose | Self::Sucrose | Self::Maltose => 2.0,
            Self::Raffinose => 3.0,
            Self::Stachyose => 4.0,
        }
    }

    /// Molar mass, g/mol: hexoses joined with the loss of one water a bond.
    pub const fn g_mol(self) -> f64 {
        let n = self.hexoses();
        n * molar_mass(6, 12, 6) - (n - 1.0) * WATER_G_MOL
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn molar_masses_are_the_handbook_values() {
        // Source: published, PubChem molecular weights to two decimals.
        for (sugar, g_mol) in [
            (Sugar::Sucrose, 342.30),
            (Sugar::Glucose, 180.16),
            (Sugar::Raffinose, 504.4),
            (Sugar::Stachyose, 666.6),
        ] {
            assert!((sugar.g_mol() - g_mol).abs() < 0.05, "{}", sugar.name());
        }
    }

    #[test]
    fn index_is_the_place_in_all() {
        for (i, sugar) in Sugar::ALL.into_iter().enumerate() {
            assert_eq!(sugar.index(), i);
        }
    }
}
