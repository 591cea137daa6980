//! The words that tell what a label's product is: data, read once.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::pantry::BaseKind;
use potset_base::lexicon::{self, Lexicon, Words};

/// The text of the shipped words.
const TEXT: &str = include_str!("../../../assets/label_meaning.ron");

/// All of them; what each list is for stands in the file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Meaning {
    pub kinds: Lexicon<BaseKind>,
    pub not_the_base: Words,
    pub species: Words,
    pub sugars: Words,
    pub tail: Words,
    pub pressed: Words,
    pub thickens: Words,
    pub milk: Words,
    pub plant_milk: Words,
    pub milk_claimed: Words,
    pub sulphite: Words,
    pub allergens: Lexicon<String>,
}

/// The shipped words.
#[must_use]
pub fn meaning() -> &'static Meaning {
    static WORDS: LazyLock<Meaning> = LazyLock::new(|| lexicon::shipped(TEXT));
    &WORDS
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format;
    use potset_base::allergen::allergen;

    #[test]
    fn the_shipped_words_are_read_strictly_and_counted() {
        let all: Meaning = format::asset(TEXT).unwrap();
        for (_, key) in all.allergens.iter() {
            assert!(allergen(key).is_some(), "{key}");
        }
        assert_eq!((all.kinds.iter().count(), all.allergens.iter().count()), (34, 4));
        let lists = [
            all.not_the_base,
            all.species,
            all.sugars,
            all.tail,
            all.pressed,
            all.thickens,
            all.milk,
            all.plant_milk,
            all.milk_claimed,
            all.sulphite,
        ];
        assert_eq!(lists.iter().map(|list| list.iter().count()).sum::<usize>(), 69);
        let more = TEXT.replacen("  tail:", "  tale: [],\n  tail:", 1);
        assert!(format::asset::<Meaning>(&more).unwrap_err().title.contains("tale"));
    }
}
