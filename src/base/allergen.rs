//! Allergens that entries name, and whose lists they are on.

use super::label_rule::LabelRule;

/// An allergen as entries write it, and whether the lists of the EU, the US and Australia with New Zealand hold it.
///
/// Source: published, Regulation (EU) 1169/2011 annex II; US FALCPA with FASTER 2021; Food Standards Code 1.2.3 (2021).
/// Coconut: from memory, on the US list until January 2025, on no list since.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Allergen {
    pub key: &'static str,
    /// How a label names it.
    pub words: &'static str,
    pub eu: bool,
    pub us: bool,
    pub au_nz: bool,
    /// A nut that a nut-free diet leaves out; peanut and coconut are told apart.
    pub nut: bool,
    /// It comes from an animal: what holds it is not vegan.
    pub animal: bool,
    /// A cereal with gluten.
    pub gluten: bool,
}

const fn all(key: &'static str, words: &'static str) -> Allergen {
    Allergen { key, words, eu: true, us: true, au_nz: true, nut: false, animal: false, gluten: false }
}

const fn nut(key: &'static str) -> Allergen {
    Allergen { nut: true, ..all(key, key) }
}

/// All that entries may name.
pub const ALLERGENS: [Allergen; 16] = [
    Allergen { animal: true, ..all("milk", "milk") },
    all("soy", "soy"),
    nut("almond"),
    nut("cashew"),
    nut("hazelnut"),
    nut("macadamia"),
    all("peanut", "peanut"),
    all("sesame", "sesame"),
    Allergen { animal: true, ..all("fish", "fish") },
    Allergen { gluten: true, ..all("wheat", "wheat (gluten)") },
    Allergen { us: false, gluten: true, ..all("oats", "oats (gluten cereal)") },
    Allergen { us: false, gluten: true, ..all("barley", "barley (gluten)") },
    Allergen { us: false, gluten: true, ..all("rye", "rye (gluten)") },
    Allergen { us: false, ..all("sulphites", "sulphites") },
    Allergen { eu: false, us: false, au_nz: false, ..all("coconut", "coconut") },
    // A legume: some who react to peanut or lupin react to it.
    Allergen { eu: false, us: false, au_nz: false, ..all("pea", "pea") },
];

/// An allergen by the word that entries use.
#[must_use]
pub fn allergen(key: &str) -> Option<&'static Allergen> {
    ALLERGENS.iter().find(|a| a.key == key)
}

impl Allergen {
    /// Whether a place's list holds it.
    #[must_use]
    pub const fn listed(&self, rule: LabelRule) -> bool {
        match rule {
            LabelRule::EuropeanUnion => self.eu,
            LabelRule::UnitedStates => self.us,
            LabelRule::AustraliaNewZealand => self.au_nz,
        }
    }
}
