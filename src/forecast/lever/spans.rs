//! How far each number of a design can be turned: unit, range, usual span, step and decimals; one source for bench and studies.
//!
//! Kinds of sources: usual spans of entries are those of the pantry and say there where they come from; usual spans given here
//! are common practice unless they say otherwise. Ranges, steps and decimals are assumed: wide enough for what makers do, fine
//! enough for what they can weigh, set or read.

use potset_base::units::WARMTH;
use potset_doc::design::SweetWhen;
use potset_doc::pantry::{Additive, Base, BaseKind, Culture, Sweetener, Thickener, Warmer};

/// How far one number can be turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    pub unit: &'static str,
    /// From and to; what lies outside can be typed into a file, but not turned to.
    pub range: (f64, f64),
    pub usual: Option<(f64, f64)>,
    pub step: f64,
    pub decimals: usize,
}

impl Span {
    /// From and to as a range.
    pub const fn reach(&self) -> std::ops::RangeInclusive<f64> {
        self.range.0..=self.range.1
    }
}

const fn span(
    unit: &'static str,
    range: (f64, f64),
    usual: Option<(f64, f64)>,
    (step, decimals): (f64, usize),
) -> Span {
    Span { unit, range, usual, step, decimals }
}

/// Share of the volume of all bases. No share is usual.
pub const SHARE: Span = span("%", (0.0, 100.0), None, (1.0, 1));
/// Age of a culture; the range is that of the model. No age is usual.
pub const CULTURE_AGE: Span = span("days", (0.0, 3650.0), None, (1.0, 0));
/// Where a dry culture was kept; the range is that of the model.
pub const CULTURE_KEPT: Span = span(WARMTH, (-30.0, 45.0), None, (1.0, 0));
/// Temperature of the base before anything is done to it. Usual, common practice: fridge to cupboard.
pub const START: Span = span(WARMTH, (0.0, 45.0), Some((4.0, 25.0)), (0.5, 1));
/// A rest before the culture. Usual, common practice: a day in the fridge for lactase is the most that is given.
pub const REST: Span = span("h", (0.0, 96.0), None, (0.25, 2));
/// Heat treatment. Usual, published (Foods 2014 3:176): 85 °C for 20 to 30 min, or 90 to 95 °C for 5 min.
pub const HEAT_TO: Span = span(WARMTH, (60.0, 100.0), Some((82.0, 95.0)), (0.5, 1));
/// How long it is kept hot; source as [`HEAT_TO`].
pub const HEAT_FOR: Span = span("min", (0.0, 60.0), Some((5.0, 30.0)), (1.0, 0));
/// What the base is brought to before the culture goes in. Usual, common practice.
pub const CULTURE_IN: Span = span(WARMTH, (5.0, 60.0), Some((37.0, 43.0)), (0.5, 1));
/// What a pot is chilled to. Usual, common practice.
pub const CHILL_TO: Span = span(WARMTH, (1.0, 20.0), Some((4.0, 7.0)), (0.5, 1));
/// How long it stays in the cold before it is judged. Usual, common practice: overnight, or a day.
pub const CHILL_FOR: Span = span("h", (1.0, 48.0), Some((8.0, 24.0)), (1.0, 0));
/// Hours in the cloth.
pub const STRAIN_FOR: Span = span("h", (0.0, 96.0), None, (0.5, 1));
/// Share of the pot that runs off as whey.
pub const STRAIN_OFF: Span = span("%", (0.0, 80.0), None, (1.0, 0));

/// Usual sweetening after the hold, g/L. Source: common practice, sweetened yogurt holds 4 to 8 % of sugar put in.
const SWEETENED: (f64, f64) = (40.0, 80.0);
/// Usual dose of an additive that has no entry, g/L. Source: assumed.
const UNKNOWN: (f64, f64) = (0.0, 20.0);

/// Litres of a base. Of a powder they are what it adds to the pot, so there are fewer of them.
pub fn litres(entry: Option<&Base>) -> Span {
    let powder = entry.is_some_and(|e| e.bulk_density.is_some());
    let usual = entry.map(|e| e.usual_litres);
    if powder { span("L", (0.01, 1.0), usual, (0.005, 3)) } else { span("L", (0.1, 10.0), usual, (0.05, 2)) }
}

/// Fat as a label gives it.
pub fn fat(entry: &Base) -> Span {
    let most = if entry.kind == BaseKind::Dairy { 20.0_f64 } else { 35.0 }.max(1.25 * entry.usual_fat.1);
    span("g/100 g", (0.0, most), Some(entry.usual_fat), (0.1, 1))
}

/// A dose by its usual span.
fn dose(usual: Option<(f64, f64)>) -> Span {
    // Of what is used by the tenth of a gram, a lever of 60 g could set nothing.
    let most = usual.map_or(60.0, |(_, high)| if high < 3.0 { 4.0 * high } else { high.max(60.0) });
    let fine = match most {
        m if m >= 15.0 => (0.5, 1),
        m if m >= 2.0 => (0.1, 2),
        _ => (0.01, 3),
    };
    span("g/L", (0.0, most), usual, fine)
}

/// Dose of a sugar: food for the culture, or sweetness for the tongue.
pub fn sugar(entry: Option<&Sweetener>, when: SweetWhen) -> Span {
    let late = when == SweetWhen::AfterTheHold;
    // What is no food is dosed for the tongue whenever it goes in.
    let span = dose(entry.map(|e| if late && !e.not_food { SWEETENED } else { e.usual }));
    if late && span.range.1 >= 60.0 { Span { range: (0.0, 120.0), ..span } } else { span }
}

/// Dose of a thickener.
pub fn thickener(entry: Option<&Thickener>) -> Span {
    dose(entry.map(|e| e.usual))
}

/// Dose of an additive, from drops to fruit.
pub fn additive(entry: Option<&Additive>) -> Span {
    let (most, decimals) = reach(entry.map_or(UNKNOWN, |e| e.usual).1);
    let step = 10.0_f64.powi(-i32::try_from(decimals).unwrap_or(0));
    span("g/L", (0.0, most), entry.map(|e| e.usual), (step, decimals))
}

/// The end of a rail that a usual dose sits well on, g/L, and the decimals for it.
fn reach(usual_high: f64) -> (f64, usize) {
    const ENDS: [(f64, usize); 11] = [
        (0.1, 4),
        (0.5, 3),
        (1.0, 3),
        (2.0, 2),
        (5.0, 2),
        (10.0, 2),
        (20.0, 1),
        (50.0, 1),
        (100.0, 0),
        (200.0, 0),
        (500.0, 0),
    ];
    ENDS.into_iter().find(|(end, _)| *end >= 1.6 * usual_high).unwrap_or((500.0, 0))
}

/// Rate of a culture.
pub fn culture(entry: Option<&Culture>) -> Span {
    span("× packet", (0.0, 5.0), entry.map(|e| e.usual), (0.05, 2))
}

/// Setting of a warmer.
pub fn hold_at(entry: Option<&Warmer>) -> Span {
    span(WARMTH, (15.0, 60.0), entry.map(|e| e.usual), (0.5, 1))
}

/// The planned end of the hold. Usual, common practice: up to 24 h in coconut and its like.
///
/// - `dairy` — share of dairy among the bases, 0 to 1.
pub fn stop_after(dairy: f64) -> Span {
    let usual = if dairy < 0.5 { (12.0, 24.0) } else { (6.0, 10.0) };
    span("h", (0.5, 48.0), Some(usual), (0.25, 2))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rail_suits_drops_and_fruit() {
        assert_eq!(reach(0.2), (0.5, 3));
        assert_eq!(reach(3.0), (5.0, 2));
        assert_eq!(reach(150.0), (500.0, 0));
        assert_eq!(reach(900.0), (500.0, 0));
    }

    #[test]
    fn the_rail_suits_gums_and_starches() {
        assert_eq!((dose(None).range, dose(None).step), ((0.0, 60.0), 0.5));
        assert_eq!((dose(Some((0.1, 0.4))).range, dose(Some((0.1, 0.4))).step), ((0.0, 1.6), 0.01));
        assert_eq!(dose(Some((40.0, 80.0))).range, (0.0, 80.0));
    }
}
