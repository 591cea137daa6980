//! Words for what an additive is there for, and their spellings.

use super::Role;

/// Names of roles, longest first where one begins another.
const ROLES: &[(&str, Role)] = &[
    ("stabilising agents", Role::Stabiliser),
    ("stabilising agent", Role::Stabiliser),
    ("stabilisers", Role::Stabiliser),
    ("stabiliser", Role::Stabiliser),
    ("thickening agents", Role::Thickener),
    ("thickening agent", Role::Thickener),
    ("thickeners", Role::Thickener),
    ("thickener", Role::Thickener),
    ("gelling agents", Role::GellingAgent),
    ("gelling agent", Role::GellingAgent),
    ("emulsifying agent", Role::Emulsifier),
    ("emulsifiers", Role::Emulsifier),
    ("emulsifier", Role::Emulsifier),
    ("preservatives", Role::Preservative),
    ("preservative", Role::Preservative),
    ("acidity regulators", Role::AcidityRegulator),
    ("acidity regulator", Role::AcidityRegulator),
    ("acid regulators", Role::AcidityRegulator),
    ("acid regulator", Role::AcidityRegulator),
    ("buffering agent", Role::AcidityRegulator),
    ("antioxidants", Role::Antioxidant),
    ("antioxidant", Role::Antioxidant),
    ("sweeteners", Role::Sweetener),
    ("sweetener", Role::Sweetener),
    ("colours", Role::Colour),
    ("colour", Role::Colour),
    ("colors", Role::Colour),
    ("color", Role::Colour),
    ("natural flavourings", Role::Flavouring),
    ("natural flavouring", Role::Flavouring),
    ("natural flavours", Role::Flavouring),
    ("natural flavour", Role::Flavouring),
    ("flavourings", Role::Flavouring),
    ("flavouring", Role::Flavouring),
    ("flavours", Role::Flavouring),
    ("flavour", Role::Flavouring),
    ("firming agent", Role::FirmingAgent),
    ("bulking agent", Role::BulkingAgent),
    ("minerals", Role::Mineral),
    ("mineral", Role::Mineral),
    ("vitamins", Role::Vitamin),
    ("vitamin", Role::Vitamin),
    ("enzymes", Role::Enzyme),
    ("enzyme", Role::Enzyme),
];

/// Phrases in brackets that tell a role.
const PHRASES: &[(&str, Role)] = &[
    ("to preserve freshness", Role::Preservative),
    ("to protect freshness", Role::Preservative),
    ("to retain freshness", Role::Preservative),
    ("prevents spoilage", Role::Preservative),
];

/// American spelling as British.
const SPELLING: &[(&str, &str)] = &[
    ("sulfit", "sulphit"),
    ("sulfur", "sulphur"),
    ("sulfate", "sulphate"),
    ("stabiliz", "stabilis"),
    ("flavor", "flavour"),
    ("fiber", "fibre"),
    ("emulsifer", "emulsifier"),
];

/// The role that a text begins with, and what comes after it.
pub fn role_at_start(text: &str) -> Option<(Role, bool, &str)> {
    ROLES.iter().find_map(|(name, role)| {
        let rest = text.strip_prefix(name)?;
        let ends = rest.chars().next().is_none_or(|c| !c.is_alphanumeric() && c != '-' && c != '\'');
        ends.then(|| (*role, name.ends_with('s'), rest.trim_start_matches([' ', ':', '-'])))
    })
}

/// The role that a text is.
pub fn role_of(text: &str) -> Option<Role> {
    let text = text.trim();
    PHRASES
        .iter()
        .find(|(phrase, _)| *phrase == text)
        .map(|(_, role)| *role)
        .or_else(|| role_at_start(text).filter(|(.., rest)| rest.is_empty()).map(|(role, ..)| role))
}

/// Lower case and one spelling.
pub fn spelled(text: &str) -> String {
    let mut text = text.to_lowercase();
    for (american, british) in SPELLING {
        text = text.replace(american, british);
    }
    text
}
