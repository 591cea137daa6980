//! How a pot stands to what is wanted of it: the name of a demand, what there is of it, what is missing.

use potset_base::number::{self, NBSP};
use potset_forecast::observable::Observable;
use potset_search::aim::Bounds;
use potset_search::aim::stand::{Demand, GoalResult, Is, Late, Why};

/// More figures than usual that a number may be given.
const FINEST: usize = 9;

/// "pH ≤ 4.3", "sours soon enough".
pub fn name(standing: &GoalResult) -> String {
    match (&standing.demand, standing.ready) {
        (Demand::Want(want), _) => want.words(),
        // The number, and why it is this one.
        (_, Some((ph, why))) => format!("pH {} or lower ({})", number::fixed(ph, 1), because(why)),
        (Demand::AsNow(want), _) => format!("{} (as now)", want.words()),
        _ => "sours soon enough".to_owned(),
    }
}

const fn because(why: Why) -> &'static str {
    match why {
        Why::AsNow => "as now",
        Why::OwnGoal => "your design's own goal",
        Why::SourEnough => "sour enough",
        Why::Needed { starch: true, frail: true } => "needed with starch and for frail eaters",
        Why::Needed { starch: true, frail: false } => "needed with starch",
        Why::Needed { starch: false, frail: true } => "needed for frail eaters",
        Why::Needed { starch: false, frail: false } => "needed with a fresh base in it",
    }
}

/// The value there; empty for rules.
pub fn value(standing: &GoalResult) -> String {
    match standing.is {
        Is::Untold => String::new(),
        Is::NotKnown => "not known".to_owned(),
        Is::Observable(outcome, v, _) if standing.holds() => outcome.finely(v, 0).0,
        Is::Observable(outcome, v, Bounds { low, high }) => {
            let sides = |v: f64| (low.is_none_or(|low| v >= low), high.is_none_or(|high| v <= high));
            as_finely(outcome, v, |shown| sides(shown) == sides(v))
        }
        Is::Late(late) => in_time(late),
        Is::Cut { cuts, stiffness, needs } => {
            let is = Observable::Stiffness.words(stiffness);
            match (cuts, stiffness < needs) {
                (true, _) => format!("it sets and can be cut, stiffness {is}"),
                (false, true) => format!("stiffness {is}"),
                (false, false) => {
                    format!("stiffness {is} is enough, but the pot does not set in one piece")
                }
            }
        }
    }
}

/// What is missing in the unit of the demand, "0.25 h", and never as nought; empty where it holds, or where it is not a number.
pub fn short(standing: &GoalResult) -> String {
    match standing.is {
        _ if standing.holds() => String::new(),
        Is::Observable(outcome, v, Bounds { low, high }) => {
            let off = low.map_or(0.0, |low| low - v).max(high.map_or(0.0, |high| v - high));
            if off > 0.0 { as_finely(outcome, off, |shown| shown > 0.0) } else { String::new() }
        }
        Is::Late(Late { by_h, after_h: Some(after), .. }) if after > by_h => hours_beside(after - by_h, 0.0),
        Is::Cut { cuts: false, stiffness, needs } if stiffness < needs => {
            format!("{} of stiffness", Observable::Stiffness.words(needs - stiffness))
        }
        _ => String::new(),
    }
}

/// "pH ≥ 4.5: 4.20, missed by 0.30".
pub fn words(standing: &GoalResult) -> String {
    let (name, missed) = (name(standing), format!("missed{}", by(standing)));
    let missed = if standing.holds() { String::new() } else { missed };
    let often = standing.often.map_or_else(String::new, |c| format!("in {} of {} pots", c.of, c.among));
    let told: Vec<String> =
        [value(standing), missed, often].into_iter().filter(|said| !said.is_empty()).collect();
    if told.is_empty() { name } else { format!("{name}: {}", told.join(", ")) }
}

/// "pH ≥ 4.5 is missed by 0.30".
pub fn miss(standing: &GoalResult) -> String {
    format!("{} is missed{}", name(standing), by(standing))
}

fn by(standing: &GoalResult) -> String {
    let short = short(standing);
    if short.is_empty() { short } else { format!(" by {short}") }
}

/// A value with the fewest figures that still tell something.
fn as_finely(outcome: Observable, v: f64, tells: impl Fn(f64) -> bool) -> String {
    let mut all = (0..FINEST).map(|more| outcome.finely(v, more));
    all.find(|(_, shown)| tells(*shown)).unwrap_or_else(|| outcome.finely(v, 0)).0
}

/// When it was sour, beside when it has to be.
fn in_time(late: Late) -> String {
    let line = number::plain(late.line);
    match late.after_h {
        Some(after) => {
            let most = number::plain(late.by_h);
            format!("pH {line} after {}, {most}{NBSP}h at most", hours_beside(after, late.by_h))
        }
        None => {
            let (still, by) = (Observable::Ph.words(late.ph), number::with_unit(late.by_h, 1, "h"));
            format!("still pH {still} after {by}, and pH {line} wanted by then")
        }
    }
}

/// Hours with as many decimals as it takes to see on which side of a time they are.
fn hours_beside(h: f64, line: f64) -> String {
    let shown = |d: &usize| number::fixed(h, *d).parse::<f64>().is_ok_and(|v| (v > line) == (h > line));
    number::with_unit(h, (1..FINEST).find(shown).unwrap_or(FINEST), "h")
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_search::aim::Want;

    fn missed(outcome: Observable, v: f64, low: Option<f64>, high: Option<f64>) -> GoalResult {
        let bounds = Bounds { low, high };
        let (demand, is) = (Demand::Want(Want::Within(outcome, bounds)), Is::Observable(outcome, v, bounds));
        GoalResult { demand, margin: -0.1, is, ready: None, often: None }
    }

    #[test]
    fn a_miss_is_told_in_as_many_figures_as_it_needs() {
        let over = |outcome, most: f64, off: f64| short(&missed(outcome, most + off, None, Some(most)));
        assert_eq!(over(Observable::Ph, 4.3, 0.3), "0.30");
        assert_eq!(over(Observable::Ph, 4.3, 0.0004), "0.0004");
        assert_eq!(over(Observable::SugarLeft, 8.0, 0.004), format!("0.004{NBSP}g/L"));
        assert_eq!(over(Observable::ReadyFrom, 8.0, 0.004), format!("0.004{NBSP}h"));
        assert_eq!(over(Observable::ReadyFrom, 8.0, 1.5), format!("1{NBSP}h 30{NBSP}min"));
        // A value beyond its bound is not printed as the bound.
        assert_eq!(value(&missed(Observable::Ph, 4.3004, None, Some(4.3))), "4.3004");
        assert_eq!(value(&missed(Observable::Ph, 4.496, Some(4.5), None)), "4.496");
        assert_eq!(value(&missed(Observable::Ph, 4.2, Some(4.5), None)), "4.20");
        let miss_of = missed(Observable::Ph, 4.31, None, Some(4.3));
        assert_eq!(words(&miss_of), "pH ≤ 4.3: 4.31, missed by 0.01");
        assert_eq!(miss(&GoalResult { is: Is::Untold, ..miss_of }), "pH ≤ 4.3 is missed");
    }

    #[test]
    fn in_time_is_told_by_the_hour() {
        let late = |after_h, margin| {
            let is = Is::Late(Late { by_h: 24.0, ph: 4.9, line: 4.6, after_h });
            GoalResult { demand: Demand::InTime, margin, is, ready: None, often: None }
        };
        assert_eq!(value(&late(Some(11.2), 1.0)), format!("pH 4.6 after 11.2{NBSP}h, 24{NBSP}h at most"));
        assert_eq!(short(&late(Some(26.5), -1.0)), format!("2.5{NBSP}h"));
        // A hair is told as a hair.
        let hair = late(Some(24.004), -0.1);
        assert_eq!(value(&hair), format!("pH 4.6 after 24.004{NBSP}h, 24{NBSP}h at most"));
        assert_eq!(short(&hair), format!("0.004{NBSP}h"));
        assert!(value(&late(None, -1.0)).starts_with("still pH 4.90 after 24.0"));
    }
}
