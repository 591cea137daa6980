//! What can hold a culture back besides its own acid: salt, much sugar, preservatives, residues of medicines.

use serde::{Deserialize, Serialize};

/// A thing that slows or stops organisms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Inhibitor {
    /// Sodium chloride, g per 100 g of water.
    Salt,
    /// Dissolved sugars together, g per 100 g of water.
    Sugar,
    /// Benzoic acid, mg/kg; only its undissociated part acts.
    Benzoate,
    /// Sorbic acid, mg/kg; only its undissociated part acts.
    Sorbate,
    /// Sulfur dioxide, mg/kg.
    Sulfite,
    /// Penicillin, µg/kg.
    Penicillin,
    /// Tetracyclines, µg/kg.
    Tetracycline,
}

impl Inhibitor {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::Salt,
        Self::Sugar,
        Self::Benzoate,
        Self::Sorbate,
        Self::Sulfite,
        Self::Penicillin,
        Self::Tetracycline,
    ];

    /// Place in [`Inhibitor::ALL`] and in every array of amounts.
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Name in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Salt => "salt",
            Self::Sugar => "much sugar",
            Self::Benzoate => "benzoate",
            Self::Sorbate => "sorbate",
            Self::Sulfite => "sulfite",
            Self::Penicillin => "penicillin",
            Self::Tetracycline => "tetracycline",
        }
    }

    /// Unit of its amounts.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Salt | Self::Sugar => "g/100 g water",
            Self::Benzoate | Self::Sorbate | Self::Sulfite => "mg/kg",
            Self::Penicillin | Self::Tetracycline => "µg/kg",
        }
    }
}
