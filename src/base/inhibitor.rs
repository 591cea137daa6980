//! What can hold a culture back besides its own acid: salt, much sugar, preservatives, residues of medicines.

use crate::choices;
use serde::{Deserialize, Serialize};

choices! {
    /// A thing that slows or stops organisms.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Inhibitor: words {
        /// Sodium chloride, g per 100 g of water.
        Salt => "salt",
        /// Dissolved sugars together, g per 100 g of water.
        Sugar => "much sugar",
        /// Benzoic acid, mg/kg; only its undissociated part acts.
        Benzoate => "benzoate",
        /// Sorbic acid, mg/kg; only its undissociated part acts.
        Sorbate => "sorbate",
        /// Sulfur dioxide, mg/kg.
        Sulfite => "sulfite",
        /// Penicillin, µg/kg.
        Penicillin => "penicillin",
        /// Tetracyclines, µg/kg.
        Tetracycline => "tetracycline",
    }
}

impl Inhibitor {
    /// Place in [`Inhibitor::ALL`] and in every array of amounts.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Unit of its amounts.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Salt | Self::Sugar => "g/100 g water",
            Self::Benzoate | Self::Sorbate | Self::Sulfite => "mg/kg",
            Self::Penicillin | Self::Tetracycline => "µg/kg",
        }
    }
}
