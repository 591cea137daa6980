//! How many possible pots keep what is wanted, in words.

use crate::advice::note;
use potset_doubt::kept::Chance;
use potset_search::aim::Discard;

/// Shares of pots that are told as most and as few, and how far from half of them as about half. Source: how the program speaks.
const MOST: f64 = 0.8;
const FEW: f64 = 0.2;
const HALF: f64 = 0.07;

/// The pots with the count: small differences between two settings are lost in the words.
pub fn pots(chance: &Chance) -> String {
    let potset_base::chance::Chance { of, among } = chance.pots;
    let share = chance.share();
    let words = match of {
        0 => return format!("none of {among} possible pots"),
        of if of == among => return format!("all of {among} possible pots"),
        _ if share >= MOST => "most possible pots".to_owned(),
        _ if share <= FEW => "few possible pots".to_owned(),
        _ if (share - 0.5).abs() <= HALF => "about half of the possible pots".to_owned(),
        _ => format!("{} possible pots", chance.pots.words()),
    };
    format!("{words} ({of} of {among})")
}

/// "all goals hold in most possible pots (181 of 200)".
pub fn words(chance: &Chance) -> String {
    if chance.spread() {
        format!("all goals hold in {}", pots(chance))
    } else if chance.pots.of == 0 {
        "not all goals hold on the likely line".to_owned()
    } else {
        "all goals hold on the likely line".to_owned()
    }
}

/// A chance in a cell of the table: as a count, so that two of them can be compared; or none.
pub fn cell(chance: Option<&Chance>) -> String {
    let words = |c: &Chance| format!("{} of {}", c.pots.of, c.pots.among);
    chance.filter(|c| c.spread()).map_or_else(|| "–".to_owned(), words)
}

/// Why a setting would have to be thrown away: "46 of 200 pots sour too slowly and would have to be thrown away".
pub fn discard(why: &Discard) -> String {
    match why {
        Discard::Likely(caution) => note(caution).title,
        Discard::Possible(c) => {
            format!("{} of {} pots sour too slowly and would have to be thrown away", c.of, c.among)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chances_are_told_as_most_half_or_few_with_the_count() {
        let words = |of: usize| pots(&Chance::of_kept((0..200).map(|k| k < of)));
        assert_eq!(words(181), "most possible pots (181 of 200)");
        assert_eq!(words(159), "3 in 4 possible pots (159 of 200)");
        assert_eq!(words(101), "about half of the possible pots (101 of 200)");
        assert_eq!(words(40), "few possible pots (40 of 200)");
        assert_eq!([words(0), words(200)], ["none of 200 possible pots", "all of 200 possible pots"]);
        assert!(super::words(&Chance::of_kept([false])).starts_with("not all"));
    }
}
