//! What a strip of a lesson shows of a pot: its curve, its unit, and from which difference on a person notices it.

use crate::pots::ShownPot;
use potset_base::Sugar;
use potset_base::words::{ACID_LINE_PH, WORD_BOUNDS};
use potset_doc::lesson::{LessonCurve, Place, When};
use potset_forecast::observable::Observable;
use potset_science::Forecast;

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

/// What an axis holds in any case.
pub const fn least(curve: LessonCurve) -> (f64, f64) {
    match curve {
        LessonCurve::Sourness => (4.0, 6.5),
        LessonCurve::Tang => (0.0, 20.0),
        LessonCurve::SugarLeft | LessonCurve::Lactose => (0.0, 20.0),
        LessonCurve::WarmThickness | LessonCurve::Thickness => (0.0, 0.5),
        LessonCurve::Stiffness => (0.0, 200.0),
        LessonCurve::ThinLayer => (0.0, 30.0),
        LessonCurve::Whey => (0.0, 5.0),
    }
}

/// Levels that mean something on a strip, with a word for each: the line of sour food, and where dollops begin.
pub const fn level(curve: LessonCurve) -> Option<(f64, &'static str)> {
    match curve {
        LessonCurve::Sourness => Some((ACID_LINE_PH, "sour enough to count")),
        LessonCurve::WarmThickness | LessonCurve::Thickness => Some((WORD_BOUNDS[1], "dollops from here")),
        _ => None,
    }
}
