//! The words that tell what a label's product is: data, read once.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::pantry::BaseKind;
use potset_base::lexicon::{self, Lexicon, Words};

/// The text of the shipped words.
const TEXT: &str = include_str!("../../../assets/label_meaning.ron");

/// A class of coconut product, the lightest first. Source: published, Codex CXS 240-2003 section 3.1.3.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CoconutClass {
    Light,
    Milk,
    Cream,
    Concentrate,
}

/// What an additive does to a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Does {
    Sorbate,
    Benzoate,
    Sulphite,
    Nisin,
    Natamycin,
    Propionate,
    Preservative,
    Acts,
    Chalk,
    BufferSalt,
    CalciumSalt,
    Thickener,
    Intense,
}

/// How a name says a class of coconut product.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClassWords {
    class: CoconutClass,
    next: String,
    #[serde(default)]
    with: Words,
    #[serde(default)]
    without: Words,
}

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
    /// First and last numbers.
    additives: Vec<(Does, Vec<(u16, u16)>)>,
    no_coconut_class: Words,
    coconut_classes: Vec<ClassWords>,
    pub allergens: Lexicon<String>,
}

/// The shipped words.
pub fn meaning() -> &'static Meaning {
    static WORDS: LazyLock<Meaning> = LazyLock::new(|| lexicon::shipped(TEXT));
    &WORDS
}

impl Meaning {
    /// Whether an additive of this number does something to a pot.
    pub fn does(&self, number: u16, what: Does) -> bool {
        let ranges = self.additives.iter().filter(|(does, _)| *does == what).flat_map(|(_, ranges)| ranges);
        ranges.into_iter().any(|(first, last)| (*first..=*last).contains(&number))
    }

    /// The class of coconut product that a name says, by its words in lower case.
    pub fn coconut_class(&self, name: &[&str]) -> Option<CoconutClass> {
        let any = |words: &Words| name.iter().any(|word| words.has(word));
        let says = |c: &&ClassWords| {
            name.windows(2).any(|pair| pair[0] == "coconut" && pair[1] == c.next)
                && (c.with == Words::default() || any(&c.with))
                && !any(&c.without)
        };
        if any(&self.no_coconut_class) {
            return None;
        }
        self.coconut_classes.iter().find(says).map(|c| c.class)
    }
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
            all.no_coconut_class,
        ];
        assert_eq!(lists.iter().map(|list| list.iter().count()).sum::<usize>(), 73);
        assert_eq!(all.coconut_classes.len(), 4);
        let ranges: Vec<&(u16, u16)> = all.additives.iter().flat_map(|(_, ranges)| ranges).collect();
        assert_eq!((all.additives.len(), ranges.len()), (13, 31));
        assert!(ranges.iter().all(|(first, last)| first <= last));
        assert!(meaning().does(960, Does::Intense) && !meaning().does(953, Does::Intense));
        let more = TEXT.replacen("  tail:", "  tale: [],\n  tail:", 1);
        assert!(format::asset::<Meaning>(&more).unwrap_err().title.contains("tale"));
    }
}
