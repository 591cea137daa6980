//! What a strip of a lesson shows of a pot: its curve, its unit, and from which difference on a person notices it.

use crate::pots::ShownPot;
use potset_base::Sugar;
use potset_base::words::{ACID_LINE_PH, TangWord, TextureWord, WORD_BOUNDS};
use potset_doc::lesson::{LessonCurve, Place, When};
use potset_forecast::observable::Observable;
use potset_forecast::params;
use potset_science::{Forecast, sensory};

/// The outcome by whose unit and step a curve is told.
pub const fn observable(curve: LessonCurve) -> Observable {
    match curve {
        LessonCurve::Sourness => Observable::Ph,
        LessonCurve::Tang => Observable::Tang,
        LessonCurve::SugarLeft | LessonCurve::Lactose => Observable::SugarLeft,
        LessonCurve::WarmThickness | LessonCurve::Thickness => Observable::Texture,
        LessonCurve::Stiffness => Observable::Stiffness,
        LessonCurve::ThinLayer => Observable::ThinLayer,
        LessonCurve::Whey => Observable::Whey,
    }
}

/// The values of a curve at the times of a forecast.
pub fn values(curve: LessonCurve, f: &Forecast) -> Vec<f64> {
    match curve {
        LessonCurve::Lactose => f.sugars[Sugar::Lactose as usize].iter().map(|g| g * f.density).collect(),
        LessonCurve::WarmThickness => f.warm.viscosity50.clone(),
        other => observable(other).course(f),
    }
}

/// Its points as far as the hours that are shown: at most so many, thinned evenly, the last one exactly at the end.
pub fn points(curve: LessonCurve, f: &Forecast, hours: f64) -> Vec<(f64, f64)> {
    let values = values(curve, f);
    let steps = MOST_POINTS - 1;
    if values.is_empty() {
        return Vec::new();
    }
    (0..=steps)
        .map(|k| {
            let h = hours * f64::from(k) / f64::from(steps);
            (h, f.value(&values, h))
        })
        .collect()
}

/// Points of a drawn curve: one for about every fourth pixel of a wide screen.
const MOST_POINTS: u32 = 361;

/// What a pot comes to at a place.
pub fn value(Place(curve, _, when): Place, pot: &ShownPot) -> Option<f64> {
    let f = &pot.answer.forecast;
    let h = match when {
        When::Stop => f.stop_h,
        When::Hour(h) => h,
    };
    let values = values(curve, f);
    (!values.is_empty() && h <= f.horizon_h + 1e-6).then(|| f.value(&values, h))
}

/// What an axis of numbers holds in any case. Source: assumed, by eye.
const fn least(curve: LessonCurve) -> (f64, f64) {
    match curve {
        LessonCurve::Sourness => (4.0, 6.5),
        LessonCurve::ThinLayer => (0.0, 30.0),
        LessonCurve::Whey => (0.0, 5.0),
        _ => (0.0, 20.0),
    }
}

/// A level that means something on a strip of numbers, with its words.
pub const fn level(curve: LessonCurve) -> Option<(f64, &'static str)> {
    match curve {
        LessonCurve::Sourness => Some((ACID_LINE_PH, "sour below")),
        _ => None,
    }
}

/// Where a value stands on its axis: thickness and firmness by their logarithm, as a person notices factors of them.
pub fn place(curve: LessonCurve, v: f64) -> f64 {
    match curve {
        LessonCurve::WarmThickness | LessonCurve::Thickness | LessonCurve::Stiffness => {
            v.max(LEAST_DRAWN).log10()
        }
        _ => v,
    }
}

/// Below this a thickness or a firmness is drawn as nothing. Source: assumed, thinner than any pot.
const LEAST_DRAWN: f64 = 1e-3;

/// The words of an axis that no person reads as numbers, each in the middle of its band, and where the bands meet; both at
/// their places. Empty where numbers are read.
pub fn bands(curve: LessonCurve) -> (Vec<(f64, &'static str)>, Vec<f64>) {
    let meet: Vec<f64> = match curve {
        LessonCurve::WarmThickness | LessonCurve::Thickness => WORD_BOUNDS.to_vec(),
        LessonCurve::Tang => tang_meets(),
        LessonCurve::Stiffness => {
            params::shipped().map_or_else(|_| Vec::new(), |p| vec![p.words.plain().cuts_above_pa])
        }
        _ => return (Vec::new(), Vec::new()),
    };
    let words: &[&'static str] = match curve {
        LessonCurve::Tang => &TangWord::WORDS,
        LessonCurve::Stiffness => &["yields to the spoon", "is cut by the spoon"],
        _ => &TextureWord::WORDS[..4],
    };
    let meet: Vec<f64> = meet.into_iter().map(|v| place(curve, v)).collect();
    let (low, high) = span(curve);
    let ends: Vec<f64> =
        std::iter::once(low).chain(meet.iter().copied()).chain(std::iter::once(high)).collect();
    let middles = ends.windows(2).map(|ends| 0.5 * (ends[0] + ends[1]));
    (middles.zip(words.iter().copied()).collect(), meet)
}

/// Where a tang word gives way to the next, mmol/kg.
fn tang_meets() -> Vec<f64> {
    let Ok(params) = params::shipped() else { return Vec::new() };
    let law = params.words.plain();
    TangWord::ALL.into_iter().skip(1).map(|word| sensory::tang_bounds(word, &law).0).collect()
}

/// From where to where an axis of words goes, at its places; more where a curve goes beyond. Source: assumed, by eye.
fn span(curve: LessonCurve) -> (f64, f64) {
    match curve {
        LessonCurve::Tang => (0.0, 60.0),
        LessonCurve::Stiffness => (1.0, 4.0),
        _ => (-2.3, 1.0),
    }
}

/// What the axis of a strip holds, at its places, for all its curves.
pub fn axis(curve: LessonCurve, curves: &[Vec<(f64, f64)>]) -> (f64, f64) {
    let words = !bands(curve).0.is_empty();
    let least = if words { span(curve) } else { least(curve) };
    curves
        .iter()
        .flatten()
        .map(|(_, v)| place(curve, *v))
        .filter(|v| v.is_finite())
        .fold(least, |(low, high), v| (low.min(v), high.max(v)))
}

/// What is said of a value: a word where a person tells it by a word.
pub fn word(curve: LessonCurve, v: f64) -> Option<&'static str> {
    let (words, meet) = bands(curve);
    let at = meet.iter().filter(|bound| place(curve, v) >= **bound).count();
    words.get(at).map(|(_, word)| *word)
}
