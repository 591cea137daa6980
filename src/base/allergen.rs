//! Allergens that entries name, and whose lists they are on: data, read once.

use std::sync::LazyLock;

use serde::Deserialize;

use super::label_rule::LabelRule;
use super::lexicon::{self, Words};

/// The text of the shipped allergens.
const TEXT: &str = include_str!("../../assets/allergens.ron");

/// An allergen as entries write it.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Allergen {
    pub key: String,
    words: Option<String>,
    /// Whose lists of allergens hold it.
    lists: Vec<LabelRule>,
    /// A nut that a nut-free diet leaves out; peanut and coconut are told apart.
    #[serde(default)]
    nut: bool,
    /// It comes from an animal: what holds it is not vegan.
    #[serde(default)]
    pub animal: bool,
    /// A cereal with gluten.
    #[serde(default)]
    pub gluten: bool,
}

/// All that entries may name, and other words for nuts.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Allergens {
    allergens: Vec<Allergen>,
    other_nuts: Words,
}

static ALL: LazyLock<Allergens> = LazyLock::new(|| lexicon::shipped(TEXT));

/// All that entries may name.
pub fn allergens() -> &'static [Allergen] {
    &ALL.allergens
}

/// An allergen by the word that entries use.
pub fn allergen(key: &str) -> Option<&'static Allergen> {
    allergens().iter().find(|a| a.key == key)
}

/// Whether a nut-free diet leaves out what names this.
pub fn is_nut(named: &str) -> bool {
    allergen(named).is_some_and(|a| a.nut) || ALL.other_nuts.within(named)
}

impl Allergen {
    /// How a label names it.
    pub fn words(&self) -> &str {
        self.words.as_deref().unwrap_or(&self.key)
    }

    /// Whether a place's list holds it.
    pub fn listed(&self, rule: LabelRule) -> bool {
        self.lists.contains(&rule)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shipped_allergens_are_read_strictly_and_counted() {
        let all: Allergens = lexicon::options().from_str(TEXT).unwrap();
        let lists = LabelRule::ALL.map(|rule| all.allergens.iter().filter(|a| a.listed(rule)).count());
        assert_eq!((all.allergens.len(), lists, all.other_nuts.iter().count()), (16, [14, 10, 14], 7));
        let mut keys: Vec<&str> = all.allergens.iter().map(|a| a.key.as_str()).collect();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), 16);
        let more = TEXT.replacen("animal:", "beast:", 1);
        assert!(lexicon::options().from_str::<Allergens>(&more).is_err());
    }

    #[test]
    fn nuts_are_known_by_other_words_too() {
        for (named, nut) in
            [("almond", true), ("walnuts", true), ("tree nuts", true), ("coconut", false), ("pea", false)]
        {
            assert_eq!(is_nut(named), nut, "{named}");
        }
    }
}
