//! The words that a reader of labels knows: data, read once.

use std::sync::LazyLock;

use serde::Deserialize;

use super::{Nutrient, Role};
use potset_base::lexicon::{self, Lexicon, Words};
use potset_base::measures::Measure;

/// A unit of an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Unit {
    Gram,
    Milligram,
    Microgram,
    Kj,
    Kcal,
    Millilitre,
}

/// What a word among amounts says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Said {
    /// What follows is an upper bound.
    Less,
    Trace,
    Zero,
    NotGiven,
    /// Nothing.
    Filler,
}

/// What a row of the table is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum About {
    One(Nutrient),
    /// Unit told by the numbers, kJ or kcal.
    Energy,
    /// "Calories 130": kcal without a unit.
    Calories,
    /// "Total carbohydrate": with fibre.
    TotalCarbohydrate,
    /// Understood, and of no use here.
    Other,
}

/// The text of the shipped words.
const TEXT: &str = include_str!("../../../assets/label_words.ron");

/// All of them; what each list is for stands in the file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vocabulary {
    pub headings: Words,
    pub titles: Words,
    pub servings: Words,
    pub counts: Words,
    pub containers: Words,
    pub household: Lexicon<Measure>,
    pub units: Lexicon<Unit>,
    pub amounts: Lexicon<Said>,
    pub nutrients: Lexicon<About>,
    pub row_leads: Words,
    pub roles: Lexicon<Role>,
    pub role_phrases: Lexicon<Role>,
    pub spellings: Lexicon<String>,
    pub links: Words,
    pub tails: Words,
    pub shortened: Words,
    pub list_starts: Words,
    pub name_starts: Words,
    pub foods: Words,
    pub asides: Words,
    pub daily: Words,
    pub claim_leads: Words,
    pub may_contain: Words,
    pub contains: Words,
    pub claim_links: Words,
    pub additive_numbers: (u16, u16),
    pub additives: Lexicon<u16>,
}

/// The shipped words.
pub fn vocabulary() -> &'static Vocabulary {
    static WORDS: LazyLock<Vocabulary> = LazyLock::new(|| lexicon::shipped(TEXT));
    &WORDS
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format;

    #[test]
    fn the_shipped_words_are_read_strictly_and_counted() {
        let all: Vocabulary = format::asset(TEXT).unwrap();
        let lists = [
            all.headings,
            all.titles,
            all.servings,
            all.counts,
            all.containers,
            all.row_leads,
            all.links,
            all.tails,
            all.shortened,
            all.list_starts,
            all.name_starts,
            all.foods,
            all.asides,
            all.daily,
            all.claim_leads,
            all.may_contain,
            all.contains,
            all.claim_links,
        ];
        assert_eq!(lists.iter().map(|list| list.iter().count()).sum::<usize>(), 237);
        let meant = [
            all.household.iter().count(),
            all.units.iter().count(),
            all.amounts.iter().count(),
            all.nutrients.iter().count(),
            all.roles.iter().count(),
            all.role_phrases.iter().count(),
            all.spellings.iter().count(),
            all.additives.iter().count(),
        ];
        assert_eq!(meant, [8, 23, 37, 53, 44, 4, 7, 160]);
        let more = TEXT.replacen("  titles:", "  tittles: [],\n  titles:", 1);
        assert!(format::asset::<Vocabulary>(&more).unwrap_err().title.contains("tittles"));
    }

    #[test]
    fn where_one_word_begins_another_the_longer_one_stands_first() {
        let all = vocabulary();
        let of = |words: &Words| words.iter().map(str::to_owned).collect::<Vec<_>>();
        let named: Vec<String> = all.nutrients.iter().map(|(word, _)| word.to_owned()).collect();
        let roles: Vec<String> = all.roles.iter().map(|(word, _)| word.to_owned()).collect();
        for list in [named, roles, of(&all.list_starts), of(&all.may_contain), of(&all.contains)] {
            for (at, word) in list.iter().enumerate() {
                let hidden = list[..at].iter().find(|before| word.starts_with(*before));
                assert_eq!(hidden, None, "{word} is never reached");
            }
        }
    }

    #[test]
    fn each_additive_stands_once() {
        let (least, most) = vocabulary().additive_numbers;
        assert!(vocabulary().additives.iter().all(|(_, number)| (least..=most).contains(number)));
        let text: Vec<&u16> = vocabulary().additives.iter().map(|(_, number)| number).collect();
        let mut numbers = text.clone();
        numbers.dedup();
        numbers.sort_unstable();
        let apart = numbers.len();
        numbers.dedup();
        assert_eq!(numbers.len(), apart);
    }
}
