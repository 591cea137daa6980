//! Words for what an additive is there for, and their spellings.

use super::Role;
use super::vocabulary::vocabulary;

/// The role that a text begins with, and what comes after it.
pub fn role_at_start(text: &str) -> Option<(Role, bool, &str)> {
    vocabulary().roles.iter().find_map(|(name, role)| {
        let rest = text.strip_prefix(name)?;
        let ends = rest.chars().next().is_none_or(|c| !c.is_alphanumeric() && c != '-' && c != '\'');
        ends.then(|| (*role, name.ends_with('s'), rest.trim_start_matches([' ', ':', '-'])))
    })
}

/// The role that a text is.
pub fn role_of(text: &str) -> Option<Role> {
    let text = text.trim();
    vocabulary()
        .role_phrases
        .get(text)
        .copied()
        .or_else(|| role_at_start(text).filter(|(.., rest)| rest.is_empty()).map(|(role, ..)| role))
}

/// Lower case and one spelling.
pub fn spelled(text: &str) -> String {
    let mut text = text.to_lowercase();
    for (american, british) in vocabulary().spellings.iter() {
        text = text.replace(american, british);
    }
    text
}
