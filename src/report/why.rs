//! Why one design takes longer than another, and why its sugar stays: a few plain sentences before all shares.

use crate::beside::player;
use potset_base::number::{self, NBSP};
use potset_base::units;
use potset_base::words::capital;
use potset_compare::beside::{Because, Causes, Comparison, Hint, Player};
use potset_forecast::observable::Observable;
use potset_judge::verdict::SugarStays;

/// A part with about this share of a difference makes almost all of it; from the second on, most of it. Source: assumed.
const ALMOST_ALL: f64 = 0.9;
const MOST: f64 = 0.5;

/// Why the design at a place differs from the first: when it is ready or sour, and why sugar stays. Empty until the causes
/// are worked out.
pub fn why(beside: &Comparison, place: usize) -> Vec<String> {
    let causes = place.checked_sub(1).and_then(|i| beside.causes.get(i)?.as_ref());
    let Some(causes) = causes.filter(|c| !c.players.is_empty()) else { return Vec::new() };
    let mut out = then(beside, place, causes);
    out.extend(sugar(beside, place));
    out
}

/// What is told of the time: ready where one of both is, or else pH 4.6.
fn then(beside: &Comparison, place: usize, causes: &Causes) -> Vec<String> {
    let [ready, sour] = [(Observable::ReadyFrom, "is ready"), (Observable::SourAt, "reaches pH\u{a0}4.6")];
    let (first, this) = (&beside.names[0], &beside.names[place]);
    for (outcome, does) in [ready, sour] {
        let at = |i: usize| beside.value(outcome, i);
        match (at(0), at(place)) {
            (Some(a), Some(b)) => {
                if !beside.noticed(outcome, place) {
                    return vec![format!("Each {does} after about {}.", about(a))];
                }
                let told = format!("{this} {does} after about {}, {first} after {}.", about(b), about(a));
                let because = causes.because.iter().find(|one| one.outcome == outcome);
                return std::iter::once(told).chain(because.map(|one| most(causes, one))).collect();
            }
            (Some(a), None) => return one_way(causes, outcome, does, (first, a, this)),
            (None, Some(b)) => return one_way(causes, outcome, does, (this, b, first)),
            (None, None) => {}
        }
    }
    vec![format!("Neither reaches pH{NBSP}4.6 in the hours shown.")]
}

fn sugar(beside: &Comparison, place: usize) -> Option<String> {
    let told = |i: usize| {
        let left = Observable::SugarLeft.words(beside.value(Observable::SugarLeft, i)?);
        Some((left, sugar_stays(beside.pots[i].sugar?)))
    };
    let ((left_a, why_a), (left_b, why_b)) = (told(0)?, told(place)?);
    let (first, this) = (&beside.names[0], &beside.names[place]);
    Some(if why_a == why_b {
        format!("Sugar left in both ({left_b} against {left_a}): {why_b}.")
    } else {
        format!("Sugar left in {this} ({left_b}): {why_b}; in {first} ({left_a}): {why_a}.")
    })
}

/// Why sugar stays in a pot.
pub fn sugar_stays(why: SugarStays) -> String {
    let words = match why {
        SugarStays::NoCulture => "no culture eats it",
        SugarStays::NoneThere => "there was none to eat",
        SugarStays::Inedible => "this culture cannot eat it",
        SugarStays::AllEaten => "the culture ate all that it can",
        SugarStays::Killed => "the heat kills the culture",
        SugarStays::Stalled => "too sour now for the culture to go on",
        SugarStays::HardlyBegun => "the culture has hardly begun",
        SugarStays::AtWork(stop_h) => {
            return format!("the culture is still at work at {}", number::hours(stop_h));
        }
    };
    words.to_owned()
}

/// A time as it is told in a sentence: to half an hour. Source: assumed, the step that a person notices.
fn about(h: f64) -> String {
    number::hours((2.0 * h).round() / 2.0)
}

/// The part that makes most of a time's difference, and by what.
fn most(causes: &Causes, because: &Because) -> String {
    let whole = because.whole();
    let mut ranked: Vec<usize> = (0..because.shares.len()).collect();
    ranked.sort_by(|a, b| (because.shares[*b] / whole).total_cmp(&(because.shares[*a] / whole)));
    let share = |k: usize| ranked.get(k).map_or(0.0, |i| because.shares[*i] / whole);
    let named = |k: usize| the(&causes.players[ranked[k]]);
    let how = match share(0) {
        s if (ALMOST_ALL..2.0 - ALMOST_ALL).contains(&s) => "almost all because of",
        s if s >= MOST => "mostly because of",
        _ if ranked.len() > 1 => {
            return format!("That is because of {} and {}.", named(0), named(1));
        }
        _ => "because of",
    };
    let hint = causes.clues.get(ranked[0]).and_then(|clue| clue.most(whole > 0.0));
    let clause = hint.map_or_else(String::new, |hint| format!(", {}", clause(hint)));
    format!("That is {how} {}{clause}.", named(0))
}

/// What a part changes of what the time goes by: "in which the culture works at 60 % of the pace".
pub fn clause(hint: Hint) -> String {
    let times = |factor| number::figures(factor, 2);
    match hint {
        Hint::Pace(factor) if factor < 1.0 => {
            let percent = number::fixed(100.0 * factor, 0);
            format!("in which the culture works at {percent}{NBSP}% of the pace")
        }
        Hint::Pace(factor) => format!("in which the culture works {} times as fast", times(factor)),
        Hint::Cells(factor) if factor < 1e-3 => "which brings next to no living cells".to_owned(),
        Hint::Cells(factor) => format!("which brings {} times as many living cells", times(factor)),
        Hint::Acid(factor) => format!("which takes {} times as much acid to sour", times(factor)),
        Hint::Hunger(hunger) => {
            let how = if hunger > 0.0 { "too little" } else { "more" };
            format!("which gives the culture {how} sugar that it eats")
        }
        Hint::Warmth(by_c) => {
            let way = if by_c > 0.0 { "warmer" } else { "cooler" };
            let scale = units::scale(units::APART);
            let by = times(scale.shown(by_c.abs()));
            format!("which keeps the pot {by}{NBSP}{} {way} in the first hours", scale.unit)
        }
        Hint::ReadyPh(ph) => format!("with which pH{NBSP}{} is needed", number::fixed(ph, 1)),
    }
}

/// One gets there, the other does not; and which part alone would be enough for that.
fn one_way(
    causes: &Causes,
    outcome: Observable,
    does: &str,
    (there, h, never): (&str, f64, &str),
) -> Vec<String> {
    let told =
        format!("{there} {does} after about {}; {never} does not get there in the hours shown.", about(h));
    let found = causes.ends.iter().find(|(o, _)| *o == outcome).map(|(_, players)| players.as_slice());
    let names: Vec<String> =
        found.into_iter().flatten().filter_map(|i| causes.players.get(*i)).map(the).collect();
    let why = match names.as_slice() {
        [] => "No single part is enough for that, only several together.".to_owned(),
        [one] => format!("{} alone is enough for that.", capital(one)),
        all => format!("Each of these alone is enough for that: {}.", all.join("; ")),
    };
    vec![told, why]
}

/// A part with its article.
fn the(one: &Player) -> String {
    let words = player(one);
    if words.starts_with("what ") { words } else { format!("the {words}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_part_changes_is_a_clause() {
        assert_eq!(clause(Hint::Pace(0.6)), "in which the culture works at 60\u{a0}% of the pace");
        assert_eq!(clause(Hint::Acid(0.6)), "which takes 0.60 times as much acid to sour");
        assert!(clause(Hint::Hunger(0.5)).contains("too little sugar"));
        assert!(clause(Hint::Cells(0.1)).contains("0.10 times as many"));
        assert!(clause(Hint::Warmth(-6.0)).contains("6.0\u{a0}°C cooler"));
        let _speaking =
            units::speak(units::Units { degrees: units::Degrees::Fahrenheit, ..Default::default() });
        assert!(clause(Hint::Warmth(-6.0)).contains("11\u{a0}°F cooler"), "a difference is not moved by 32");
    }
}
