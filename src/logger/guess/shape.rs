//! What a cell looks like, whatever the layout.

use crate::layout::{DayOrder, Decimal, Role};
use crate::number;
use crate::time;
use crate::told::Fault;
use crate::vocabulary::{degrees, is_missing, vocabulary};

/// What a cell looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shape {
    /// Nothing, or a mark that there is no value.
    Empty,
    Text,
    Number,
    /// A time of day.
    Clock,
    /// A time since a start.
    Elapsed,
    Day,
    /// A day with a clock.
    Moment,
}

impl Shape {
    /// Whether it is a number or a time.
    pub const fn is_value(self) -> bool {
        !matches!(self, Self::Empty | Self::Text)
    }
}

/// The shape of a cell.
pub fn of(cell: &str) -> Shape {
    if is_missing(cell) {
        return Shape::Empty;
    }
    let number = number::read(cell, Decimal::Point).or_else(|| number::read(cell, Decimal::Comma));
    match number {
        Some((_, "")) => return Shape::Number,
        Some((_, unit)) if degrees(unit).is_some() => return Shape::Number,
        _ => {}
    }
    // Whether there is such an hour or day is not asked here.
    let like = |found: Result<(), Fault>| !matches!(found, Err(Fault::Time));
    if like(time::clock(cell).map(drop)) {
        return if time::clock(cell).is_ok() { Shape::Clock } else { longer(cell) };
    }
    if time::span(cell, Role::Elapsed, Decimal::Point).is_ok() {
        return Shape::Elapsed;
    }
    if DayOrder::ALL.iter().any(|order| time::day(cell, *order).is_ok()) {
        return Shape::Day;
    }
    if like(time::moment(cell, DayOrder::DayFirst, Decimal::Point).map(drop)) {
        return Shape::Moment;
    }
    Shape::Text
}

/// A clock beyond the hours of a day is a span of time.
fn longer(cell: &str) -> Shape {
    if time::span(cell, Role::Elapsed, Decimal::Point).is_ok() { Shape::Elapsed } else { Shape::Text }
}

/// The most frequent shape of those that are no gap.
pub fn most(shapes: impl Iterator<Item = Shape>) -> Shape {
    let mut counts = [0_usize; 7];
    for shape in shapes.filter(|shape| *shape != Shape::Empty) {
        counts[shape as usize] += 1;
    }
    let all = [Shape::Text, Shape::Number, Shape::Clock, Shape::Elapsed, Shape::Day, Shape::Moment];
    let best = all.into_iter().max_by_key(|shape| counts[*shape as usize]);
    best.filter(|shape| counts[*shape as usize] > 0).unwrap_or(Shape::Empty)
}

/// Words of a title, with one blank between and around them.
pub fn words(title: &str) -> String {
    let mut out = String::from(" ");
    let belongs = |sign: char| sign.is_alphanumeric() || matches!(sign, '°' | 'º' | '℃' | '℉' | '%' | '#');
    for word in title.to_lowercase().split(|sign| !belongs(sign)).filter(|word| !word.is_empty()) {
        out.push_str(word);
        out.push(' ');
    }
    out
}

/// What a list of words has to say of a title: the meaning of the first of them that stands in it.
pub fn meaning<'a, T>(mut list: impl Iterator<Item = (&'a str, &'a T)>, title: &str) -> Option<&'a T> {
    list.find(|(word, _)| title.contains(words(word).as_str())).map(|(_, meaning)| meaning)
}

/// What a title says that its column holds.
pub fn hint(title: &str) -> Option<Role> {
    let named = meaning(vocabulary().titles.iter(), title).copied();
    match named {
        Some(Role::Skip | Role::Warmth) => named,
        _ if meaning(vocabulary().degrees.iter(), title).is_some() => Some(Role::Warmth),
        _ => named,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_known_by_their_looks() {
        for (cell, shape) in [
            ("", Shape::Empty),
            ("---", Shape::Empty),
            ("ERR", Shape::Empty),
            ("hot", Shape::Text),
            ("Serial 12", Shape::Text),
            ("41.2", Shape::Number),
            ("41,2", Shape::Number),
            ("41,2 °C", Shape::Number),
            ("1764527400", Shape::Number),
            ("20261130183000", Shape::Number),
            ("18:30", Shape::Clock),
            ("6:30:05 PM", Shape::Clock),
            ("26:30:05", Shape::Elapsed),
            ("1d 02:03:04", Shape::Elapsed),
            ("5 min", Shape::Elapsed),
            ("2026-11-30", Shape::Day),
            ("30.11.2026", Shape::Day),
            ("11/30/26", Shape::Day),
            ("30-Nov-2026", Shape::Day),
            ("2026-11-30T18:30:00+01:00", Shape::Moment),
            ("11/30/2026 6:30 PM", Shape::Moment),
            ("Nov 30, 2026 18:30", Shape::Moment),
        ] {
            assert_eq!(of(cell), shape, "{cell}");
        }
    }

    #[test]
    fn titles_are_known_by_their_words() {
        for (title, role) in [
            ("Temp (°F)", Some(Role::Warmth)),
            ("T [°C]", Some(Role::Warmth)),
            ("pH", Some(Role::Ph)),
            ("pH Temp(C)", Some(Role::Warmth)),
            ("Dew point (°C)", Some(Role::Skip)),
            ("Date/Time", Some(Role::Time)),
            ("Datum", Some(Role::Day)),
            ("Elapsed time (min)", Some(Role::Elapsed)),
            ("No.", Some(Role::Skip)),
            ("Probe 1", None),
        ] {
            assert_eq!(hint(&words(title)), role, "{title}");
        }
    }
}
