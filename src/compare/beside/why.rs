//! Why one design takes longer than another, and why its sugar stays: a few plain sentences before all shares.

use super::{Because, Causes, Comparison, Player};
use potset_base::number::{self, NBSP};
use potset_base::words::capital;
use potset_forecast::observable::Observable;

/// A part with about this share of a difference makes almost all of it; from the second on, most of it. Source: assumed.
const ALMOST_ALL: f64 = 0.9;
const MOST: f64 = 0.5;

impl Comparison {
    /// Why the design at a place differs from the first: when it is ready or sour, and why sugar stays. Empty until the causes
    /// are worked out.
    pub fn why(&self, place: usize) -> Vec<String> {
        let causes = place.checked_sub(1).and_then(|i| self.causes.get(i)?.as_ref());
        let Some(causes) = causes.filter(|c| !c.players.is_empty()) else { return Vec::new() };
        let mut out = self.why_then(place, causes);
        out.extend(self.why_sugar(place));
        out
    }

    /// What is told of the time: ready where one of both is, or else pH 4.6.
    fn why_then(&self, place: usize, causes: &Causes) -> Vec<String> {
        let [ready, sour] =
            [(Observable::ReadyFrom, "is ready"), (Observable::SourAt, "reaches pH\u{a0}4.6")];
        for (outcome, does) in [ready, sour] {
            let at = |i: usize| self.value(outcome, i);
            let (first, this) = (&self.names[0], &self.names[place]);
            match (at(0), at(place)) {
                (Some(a), Some(b)) => {
                    if !self.noticed(outcome, place) {
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

    fn why_sugar(&self, place: usize) -> Option<String> {
        let told = |i: usize| {
            let left = Observable::SugarLeft.words(self.value(Observable::SugarLeft, i)?);
            Some((left, self.sugar_why.get(i).filter(|why| !why.is_empty())?.as_str()))
        };
        let ((left_a, why_a), (left_b, why_b)) = (told(0)?, told(place)?);
        let (first, this) = (&self.names[0], &self.names[place]);
        Some(if why_a == why_b {
            format!("Sugar left in both ({left_b} against {left_a}): {why_b}.")
        } else {
            format!("Sugar left in {this} ({left_b}): {why_b}; in {first} ({left_a}): {why_a}.")
        })
    }

    fn value(&self, outcome: Observable, place: usize) -> Option<f64> {
        self.rows.iter().find(|r| r.outcome == outcome)?.values.get(place).copied()?
    }

    /// Whether a person would notice how a design stands to the first in an outcome.
    pub fn noticed(&self, outcome: Observable, place: usize) -> bool {
        let row = self.rows.iter().find(|r| r.outcome == outcome);
        row.is_some_and(|r| r.noticed.get(place).copied().unwrap_or_default())
    }
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
    let clause = causes.clues.get(ranked[0]).and_then(|clue| clue.clause(whole > 0.0));
    let clause = clause.map_or_else(String::new, |clause| format!(", {clause}"));
    format!("That is {how} {}{clause}.", named(0))
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
        [] => "No single part is enough for that: it takes several together.".to_owned(),
        [one] => format!("{} alone is enough for that.", capital(one)),
        all => format!("Each of these alone is enough for that: {}.", all.join("; ")),
    };
    vec![told, why]
}

/// A part with its article.
fn the(player: &Player) -> String {
    let words = player.words();
    if words.starts_with("what ") { words } else { format!("the {words}") }
}
