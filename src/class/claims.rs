//! Whether what a lesson says holds for its pots, and which answer of the room comes true.

use crate::curves::{observable, value};
use crate::pots::Shown;
use potset_base::words::ACID_LINE_PH;
use potset_doc::lesson::{Claim, Lesson, LessonCurve, Place, When};

/// A claim read off the pots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Checked {
    pub holds: bool,
    /// What the pots come to, in the order in which the claim names them; nothing where it is not about a curve.
    pub here: Option<f64>,
    pub other: Option<f64>,
}

impl Checked {
    const fn plain(holds: bool) -> Self {
        Self { holds, here: None, other: None }
    }
}

/// Reads a claim off the pots; what is not there does not hold.
pub fn check(claim: &Claim, shown: &Shown) -> Checked {
    let at = |place: Place| shown.pot(place.1).and_then(|pot| value(place, pot));
    let two = |here, other, test: &dyn Fn(f64, f64) -> bool| {
        let (here, other) = (at(here), at(other));
        let holds = here.zip(other).is_some_and(|(here, other)| test(here, other));
        Checked { holds, here, other }
    };
    let one = |place, test: &dyn Fn(f64) -> bool| {
        let here = at(place);
        Checked { holds: here.is_some_and(test), here, other: None }
    };
    let answer = |which| shown.pot(which).map(|pot| &pot.answer);
    match *claim {
        Claim::Higher { here, than, by } => two(here, than, &|a, b| a - b >= by),
        Claim::Times { here, than, by } => two(here, than, &|a, b| a > 0.0 && a >= by * b),
        Claim::Under { here, than, by } => two(here, than, &|a, b| a < by * b),
        Claim::Alike { here, and } => {
            two(here, and, &|a, b| observable(here.0).steps_between(a, b).abs() < 1.0)
        }
        Claim::AtLeast { here, value } => one(here, &|a| a >= value),
        Claim::AtMost { here, value } => one(here, &|a| a <= value),
        Claim::SourBy(which, h) => Checked::plain(
            answer(which).is_some_and(|a| a.forecast.time_to_ph(ACID_LINE_PH).is_some_and(|at_h| at_h <= h)),
        ),
        Claim::NotSourBy(which, h) => {
            let place = Place(LessonCurve::Sourness, which, When::Hour(h));
            Checked {
                holds: answer(which).is_some_and(|a| {
                    h <= a.forecast.horizon_h + 1e-6
                        && a.forecast.time_to_ph(ACID_LINE_PH).is_none_or(|at_h| at_h > h)
                }),
                ..one(place, &|_| true)
            }
        }
        Claim::ThrownAway(which) => {
            Checked::plain(answer(which).is_some_and(|a| a.verdict.hygiene.discard().is_some()))
        }
        Claim::NotThrownAway(which) => {
            Checked::plain(answer(which).is_some_and(|a| a.verdict.hygiene.discard().is_none()))
        }
    }
}

/// The places of the answers that come true.
pub fn right(lesson: &Lesson, shown: &Shown) -> Vec<usize> {
    let comes = |when: &[Claim]| when.iter().all(|claim| check(claim, shown).holds);
    lesson.answers().iter().enumerate().filter(|(_, answer)| comes(&answer.when)).map(|(i, _)| i).collect()
}

/// How far a drawn curve lies from what came, on the average of the hours that were drawn, in the unit of the curve.
pub fn missed_by(drawn: &[(f64, f64)], of: LessonCurve, shown: &Shown) -> Option<f64> {
    let pot = shown.last()?;
    let f = &pot.answer.forecast;
    let values = crate::curves::values(of, f);
    if drawn.len() < 2 || values.is_empty() {
        return None;
    }
    let sum: f64 = drawn.iter().map(|(h, v)| (f.value(&values, *h) - v).abs()).sum();
    Some(sum / drawn.len() as f64)
}
