//! By which country's custom nutrition is worked out and rounded.

use crate::choices;
use serde::{Deserialize, Serialize};

choices! {
    /// A custom of nutrition labels.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum LabelRule: place {
        #[default]
        EuropeanUnion => "European Union",
        UnitedStates => "United States",
        AustraliaNewZealand => "Australia, New Zealand",
    }
}

impl LabelRule {
    /// Which rule is used, for the foot of a table.
    pub const fn statement(self) -> &'static str {
        match self {
            Self::EuropeanUnion => {
                "Energy by Regulation (EU) 1169/2011 annex XIV (17/37/17, fibre 8, polyols 10, organic acids 13 kJ/g); \
                 rounded as the EU guidance of December 2012 (from memory); salt = sodium × 2.5; calcium only from 120 mg in 100 g, 15 % \
                 of its reference value (annex XIII, from memory)"
            }
            Self::UnitedStates => {
                "Energy 4/9/4 kcal/g on carbohydrate by difference, fibre included (21 CFR 101.9(c)(1)(i), from memory); \
                 rounded as the FDA Food Labeling Guide, appendix H"
            }
            Self::AustraliaNewZealand => {
                "Energy by Food Standards Code schedule 11 (17/37/17, fibre 8, organic acids 13 kJ/g, from memory); \
                 three significant figures (standard 1.2.8, from memory)"
            }
        }
    }
}
