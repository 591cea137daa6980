//! Times of cells: day and clock in many spellings, counts since 1970, day numbers of spreadsheets, and times since a start.

use potset_base::clock::day_number;

use crate::layout::{DayOrder, Decimal, Role};
use crate::number;
use crate::told::Fault;
use crate::vocabulary::{Span, vocabulary};

/// Seconds in a day.
pub const DAY_S: f64 = 86_400.0;

/// The day number that spreadsheets give to the first of January 1970, counted from the end of 1899. Source: common practice
/// of spreadsheets.
const SHEET_1970: f64 = 25_569.0;

/// Day numbers that are told as such, 1954 to 2118: no pot is that warm, and no count since 1970 so small. Assumed.
const SHEET_DAYS: std::ops::Range<f64> = 20_000.0..80_000.0;

/// The smallest number of seconds since 1970 that is told as such, in the year 1973. Assumed.
const LEAST_S: f64 = 1e8;

/// A hundred years, s: longer since a start is no time of a pot. Assumed.
const LONGEST_S: f64 = 100.0 * 365.25 * DAY_S;

/// A time that was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum When {
    /// Seconds since 1970 by the world's clock.
    World(f64),
    /// What the local clock shows, as seconds since 1970 of a clock that is never put forward or back.
    Local(f64),
}

/// A day and a clock in one cell.
pub fn moment(cell: &str, order: DayOrder, decimal: Decimal) -> Result<When, Fault> {
    if let Some(counted) = counted(cell, decimal) {
        return counted;
    }
    let mut scan = Scan { rest: cell };
    let midnight = scan.day(order)?;
    if scan.rest.is_empty() {
        return Ok(When::Local(midnight));
    }
    let parted = scan.eat(&[',', 'T', 't', '_']) | scan.blanks();
    if !parted {
        return Err(Fault::Time);
    }
    let (seconds, offset) = scan.whole_clock()?;
    Ok(placed(midnight + seconds, offset))
}

/// A day by itself, its midnight as in [`When::Local`].
pub fn day(cell: &str, order: DayOrder) -> Result<f64, Fault> {
    if let Some(Ok(When::Local(midnight))) = counted(cell, Decimal::Point) {
        return Ok(midnight);
    }
    let mut scan = Scan { rest: cell };
    let midnight = scan.day(order)?;
    if scan.rest.is_empty() { Ok(midnight) } else { Err(Fault::Time) }
}

/// A day in one column, a clock in another.
pub fn day_and_clock(day: f64, clock: &str) -> Result<When, Fault> {
    let (seconds, offset) = Scan { rest: clock }.whole_clock()?;
    Ok(placed(day + seconds, offset))
}

/// A time of day, seconds since midnight.
pub fn clock(cell: &str) -> Result<f64, Fault> {
    let (seconds, offset) = Scan { rest: cell }.whole_clock()?;
    if offset.is_none() { Ok(seconds) } else { Err(Fault::Time) }
}

fn placed(shown_s: f64, offset: Option<f64>) -> When {
    offset.map_or(When::Local(shown_s), |offset| When::World(shown_s - offset))
}

/// A number that counts from a day of the calendar; nothing where the cell is no number alone.
fn counted(cell: &str, decimal: Decimal) -> Option<Result<When, Fault>> {
    let plain = cell.bytes().all(|byte| byte.is_ascii_digit());
    if plain && matches!(cell.len(), 8 | 12 | 14) && (cell.starts_with("19") || cell.starts_with("20")) {
        return Some(compact(cell));
    }
    let (value, after) = number::read(cell, decimal)?;
    if !after.is_empty() {
        return None;
    }
    Some(match value {
        v if SHEET_DAYS.contains(&v) => Ok(When::Local(((v - SHEET_1970) * DAY_S * 1e3).round() / 1e3)),
        v if v < LEAST_S => Err(Fault::TimeRange),
        v if v < 1e11 => Ok(When::World(v)),
        v if v < 1e14 => Ok(When::World(v / 1e3)),
        v if v < 1e17 => Ok(When::World(v / 1e6)),
        v if v < 1e20 => Ok(When::World(v / 1e9)),
        _ => Err(Fault::TimeRange),
    })
}

/// "20261130", "202611301830", "20261130183005".
fn compact(cell: &str) -> Result<When, Fault> {
    let two = |at: usize| cell.get(at..at + 2).and_then(|part| part.parse::<i64>().ok());
    let year = two(0).zip(two(2)).map(|(century, year)| 100 * century + year);
    let (year, month, day) = (year.ok_or(Fault::Time)?, two(4).unwrap_or(0), two(6).unwrap_or(0));
    let clock = [two(8), two(10), two(12)].map(Option::unwrap_or_default);
    Ok(When::Local(midnight(year, month, day)? + seconds(clock, 0.0)?))
}

/// A time since a start in words or by colons, s: "0:05:00", "1d 02:03:04", "1.02:03:04", "5 min", "1 h 30 min".
fn elapsed(cell: &str, decimal: Decimal) -> Result<f64, Fault> {
    let mut scan = Scan { rest: cell };
    let sign = if scan.eat(&['-', '−']) { -1.0 } else { 1.0 };
    let mut total = 0.0;
    let mut spans = 0;
    while !scan.rest.is_empty() {
        if let Some(value) = scan.hours_minutes() {
            total += value;
            scan.blanks();
            return if scan.rest.is_empty() { lasting(sign * total) } else { Err(Fault::Time) };
        }
        let number = scan.amount(decimal).ok_or(Fault::Time)?;
        if spans == 0 && scan.eat(&['.']) {
            // Days before a point.
            total += number * DAY_S;
            continue;
        }
        scan.blanks();
        let unit = scan.word().to_lowercase();
        total += number * vocabulary().spans.get(unit.as_str()).copied().ok_or(Fault::Time)?.seconds();
        spans += 1;
        scan.eat(&[',']);
        scan.blanks();
    }
    if spans == 0 { Err(Fault::Time) } else { lasting(sign * total) }
}

/// A time since a start in a column of elapsed times or of a unit, s; a unit in the cell goes before the column's.
pub fn span(cell: &str, unit: Role, decimal: Decimal) -> Result<f64, Fault> {
    let each = match unit {
        Role::Hours => Span::Hour,
        Role::Minutes => Span::Minute,
        Role::Seconds => Span::Second,
        Role::Milliseconds => Span::Millisecond,
        _ => return elapsed(cell, decimal),
    };
    match number::read(cell, decimal) {
        Some((value, "")) => lasting(value * each.seconds()),
        _ => elapsed(cell, decimal),
    }
}

fn lasting(seconds: f64) -> Result<f64, Fault> {
    if seconds.abs() <= LONGEST_S { Ok(seconds) } else { Err(Fault::TimeRange) }
}

/// Midnight of a day of the calendar from 1970 on, as in [`When::Local`].
fn midnight(year: i64, month: i64, day: i64) -> Result<f64, Fault> {
    let (Ok(year), Ok(month), Ok(day)) = (i16::try_from(year), i8::try_from(month), i8::try_from(day)) else {
        return Err(Fault::TimeRange);
    };
    let days = day_number(year, month, day).filter(|_| year >= 1970).ok_or(Fault::TimeRange)?;
    Ok(days as f64 * DAY_S)
}

fn seconds([hours, minutes, seconds]: [i64; 3], part: f64) -> Result<f64, Fault> {
    let last = hours == 24 && minutes == 0 && seconds == 0;
    if (hours < 24 || last) && minutes < 60 && seconds <= 60 {
        Ok((hours * 3600 + minutes * 60 + seconds) as f64 + part)
    } else {
        Err(Fault::TimeRange)
    }
}

/// A part of a day as it is written.
#[derive(Clone, Copy)]
enum Part {
    Month(i64),
    /// With its digits.
    Number(i64, usize),
}

/// What of a cell is still to be read.
struct Scan<'a> {
    rest: &'a str,
}

impl<'a> Scan<'a> {
    /// Takes one of the signs.
    fn eat(&mut self, signs: &[char]) -> bool {
        let after = self.rest.strip_prefix(signs);
        self.rest = after.unwrap_or(self.rest);
        after.is_some()
    }

    fn blanks(&mut self) -> bool {
        let after = self.rest.trim_start();
        let any = after.len() < self.rest.len();
        self.rest = after;
        any
    }

    fn taken(&mut self, belongs: impl Fn(char) -> bool) -> &'a str {
        let end = self.rest.find(|sign| !belongs(sign)).unwrap_or(self.rest.len());
        let (taken, rest) = self.rest.split_at(end);
        self.rest = rest;
        taken
    }

    fn word(&mut self) -> &'a str {
        self.taken(char::is_alphabetic)
    }

    /// A whole number with its digits.
    fn whole(&mut self) -> Option<(i64, usize)> {
        let digits = self.taken(|sign| sign.is_ascii_digit());
        Some((digits.parse().ok()?, digits.len()))
    }

    /// A number that a unit follows, its decimals only where digits stand behind the sign.
    fn amount(&mut self, decimal: Decimal) -> Option<f64> {
        let digits = |sign: char| sign.is_ascii_digit();
        let start = self.rest;
        let whole = self.taken(digits).len();
        let mut ahead = Scan { rest: self.rest };
        // A point may also stand between days and a clock.
        if ahead.eat(&['.', ',']) && !ahead.taken(digits).is_empty() && !ahead.rest.starts_with(':') {
            self.rest = ahead.rest;
        }
        let text = &start[..start.len() - self.rest.len()];
        if whole == 0 { None } else { number::read(text, decimal).map(|(value, _)| value) }
    }

    /// "26:03:04.5", or "26:03": hours and minutes. Nothing is taken where it stands not there.
    fn hours_minutes(&mut self) -> Option<f64> {
        let mut ahead = Scan { rest: self.rest };
        let (hours, _) = ahead.whole()?;
        if !ahead.eat(&[':']) {
            return None;
        }
        let (minutes, _) = ahead.whole()?;
        let (whole, part) = if ahead.eat(&[':']) { (ahead.whole()?.0, ahead.decimals()) } else { (0, 0.0) };
        if minutes > 59 || whole > 59 {
            return None;
        }
        self.rest = ahead.rest;
        Some(hours as f64 * 3600.0 + (minutes * 60 + whole) as f64 + part)
    }

    /// The part of a second that may follow.
    fn decimals(&mut self) -> f64 {
        if !self.eat(&['.', ',']) {
            return 0.0;
        }
        let digits = self.taken(|sign| sign.is_ascii_digit());
        let end = digits.len().min(9);
        digits[..end].parse::<f64>().map_or(0.0, |value| value / 10_f64.powi(end as i32))
    }

    fn part(&mut self) -> Result<Part, Fault> {
        if self.rest.starts_with(|sign: char| sign.is_ascii_digit()) {
            return self.whole().map(|(value, digits)| Part::Number(value, digits)).ok_or(Fault::TimeRange);
        }
        let word = self.word().to_lowercase();
        vocabulary().months.get(word.as_str()).copied().map(Part::Month).ok_or(Fault::Time)
    }

    /// What stands between two parts of a day.
    fn between(&mut self) -> Result<(), Fault> {
        let sign = self.eat(&['-', '.', '/', ',']);
        let blank = self.blanks();
        if sign || blank { Ok(()) } else { Err(Fault::Time) }
    }

    /// A day of the calendar: its midnight.
    fn day(&mut self, order: DayOrder) -> Result<f64, Fault> {
        let first = self.part()?;
        if let Part::Number(value, 8) = first {
            return midnight(value / 10_000, value / 100 % 100, value % 100);
        }
        self.between()?;
        let second = self.part()?;
        self.between()?;
        let Part::Number(third, digits) = self.part()? else { return Err(Fault::Time) };
        let full = |year: i64, digits: usize| match digits {
            1 | 2 if year < 70 => 2000 + year,
            1 | 2 => 1900 + year,
            _ => year,
        };
        let year = full(third, digits);
        match (first, second) {
            (Part::Number(first, 4), Part::Number(month, _) | Part::Month(month)) => {
                midnight(first, month, third)
            }
            (Part::Month(month), Part::Number(day, _)) | (Part::Number(day, _), Part::Month(month)) => {
                midnight(year, month, day)
            }
            (Part::Number(first, width), Part::Number(second, _)) => match order {
                DayOrder::YearFirst if digits <= 2 => midnight(full(first, width), second, third),
                DayOrder::MonthFirst => midnight(year, first, second),
                _ => midnight(year, second, first),
            },
            (Part::Month(_), Part::Month(_)) => Err(Fault::Time),
        }
    }

    /// A clock to the end of the cell: seconds since midnight, and how far it is ahead of the world's clock where it says so, s.
    fn whole_clock(&mut self) -> Result<(f64, Option<f64>), Fault> {
        let (mut hours, _) = self.whole().ok_or(Fault::Time)?;
        let minutes = if self.eat(&[':', 'h']) { Some(self.whole().ok_or(Fault::Time)?.0) } else { None };
        let (mut whole, mut part) = (0, 0.0);
        if minutes.is_some() && self.eat(&[':']) {
            whole = self.whole().ok_or(Fault::Time)?.0;
            part = self.decimals();
        }
        self.blanks();
        if let Some(later) = self.half() {
            if !(1..=12).contains(&hours) {
                return Err(Fault::TimeRange);
            }
            hours = hours % 12 + if later { 12 } else { 0 };
        } else if minutes.is_none() {
            return Err(Fault::Time);
        }
        self.blanks();
        let offset = self.offset()?;
        Ok((seconds([hours, minutes.unwrap_or(0), whole], part)?, offset))
    }

    /// Whether it is after noon, where that is told: "am", "p.m.".
    fn half(&mut self) -> Option<bool> {
        let mut ahead = Scan { rest: self.rest };
        let first = ahead.rest.chars().next().map(|sign| sign.to_ascii_lowercase());
        let later = match first {
            Some('a') => false,
            Some('p') => true,
            _ => return None,
        };
        ahead.eat(&['a', 'A', 'p', 'P']);
        ahead.eat(&['.']);
        if !ahead.eat(&['m', 'M']) {
            return None;
        }
        ahead.eat(&['.']);
        self.rest = ahead.rest;
        Some(later)
    }

    /// "Z", "UTC", "+01:00", "-0500", "+1" to the end of the cell.
    fn offset(&mut self) -> Result<Option<f64>, Fault> {
        if self.rest.is_empty() {
            return Ok(None);
        }
        if ["z", "utc", "gmt"].contains(&self.rest.to_lowercase().as_str()) {
            self.rest = "";
            return Ok(Some(0.0));
        }
        for name in ["UTC", "GMT"] {
            self.rest = self.rest.strip_prefix(name).unwrap_or(self.rest);
        }
        let ahead = self.eat(&['+']);
        if !ahead && !self.eat(&['-', '−']) {
            return Err(Fault::Time);
        }
        let (value, digits) = self.whole().ok_or(Fault::Time)?;
        let (hours, minutes) = match digits {
            1 | 2 if self.eat(&[':']) => (value, self.whole().ok_or(Fault::Time)?.0),
            1 | 2 => (value, 0),
            4 => (value / 100, value % 100),
            _ => return Err(Fault::Time),
        };
        if !self.rest.is_empty() || minutes > 59 || hours > 15 {
            return Err(Fault::Time);
        }
        let size = (hours * 3600 + minutes * 60) as f64;
        Ok(Some(if ahead { size } else { -size }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::clock::{Moment, Zone};

    fn shown(text: &str) -> f64 {
        Moment::parse(text).unwrap().seconds_in(&Zone::default()) as f64
    }

    #[test]
    fn moments_in_many_spellings() {
        use DayOrder::{DayFirst, MonthFirst, YearFirst};
        let local = When::Local(shown("2026-11-30 18:30"));
        let world = When::World(shown("2026-11-30 17:30"));
        for (cell, order, when) in [
            ("2026-11-30 18:30", DayFirst, local),
            ("2026-11-30 18:30:00", MonthFirst, local),
            ("2026/11/30 18:30", DayFirst, local),
            ("2026-11-30T18:30:00.000", DayFirst, local),
            ("30.11.2026 18:30", DayFirst, local),
            ("30.11.26 18:30", DayFirst, local),
            ("26-11-30 18:30", YearFirst, local),
            ("11/30/2026 6:30 PM", MonthFirst, local),
            ("11/30/2026, 6:30:00 p.m.", MonthFirst, local),
            ("30-Nov-2026 18:30", DayFirst, local),
            ("Nov 30, 2026 18h30", DayFirst, local),
            ("30. November 2026 18:30", DayFirst, local),
            ("20261130183000", DayFirst, local),
            ("202611301830", DayFirst, local),
            ("20261130T18:30", DayFirst, local),
            ("2026-11-30 24:00", DayFirst, When::Local(shown("2026-12-01 00:00"))),
            ("11/30/2026 12:05 AM", MonthFirst, When::Local(shown("2026-11-30 00:05"))),
            ("30.11.2026", DayFirst, When::Local(shown("2026-11-30 00:00"))),
            ("2026-11-30T17:30:00Z", DayFirst, world),
            ("2026-11-30T18:30:00+01:00", DayFirst, world),
            ("2026-11-30 18:30:00 +0100", DayFirst, world),
            ("2026-11-30 12:30 UTC-5", DayFirst, world),
            ("1796059800", DayFirst, world),
            ("1796059800000", DayFirst, world),
            ("1796059800.0", DayFirst, world),
            ("46356.7708333333", DayFirst, local),
        ] {
            assert_eq!(moment(cell, order, Decimal::Point), Ok(when), "{cell}");
        }
        assert_eq!(moment("46356,5", DayFirst, Decimal::Comma), Ok(When::Local(shown("2026-11-30 12:00"))));
    }

    #[test]
    fn times_that_are_none() {
        for (cell, fault) in [
            ("30.02.2026 10:00", Fault::TimeRange),
            ("2026-13-01 10:00", Fault::TimeRange),
            ("0000-01-01 00:00", Fault::TimeRange),
            ("1969-12-31 23:00", Fault::TimeRange),
            ("99999999999999999999-01-01", Fault::TimeRange),
            ("2026-11-30 25:00", Fault::TimeRange),
            ("2026-11-30 18:60", Fault::TimeRange),
            ("11/30/2026 13:30 PM", Fault::TimeRange),
            ("41.2", Fault::TimeRange),
            ("-5", Fault::TimeRange),
            ("1e30", Fault::TimeRange),
            ("", Fault::Time),
            ("soon", Fault::Time),
            ("2026-11-30 18", Fault::Time),
            ("2026-11-30 18:30 CET", Fault::Time),
            ("2026-11-30 18:30 +1:2:3", Fault::Time),
            ("30.11.2026x", Fault::Time),
            ("30.11.", Fault::Time),
            ("18:30", Fault::Time),
        ] {
            assert_eq!(moment(cell, DayOrder::DayFirst, Decimal::Point), Err(fault), "{cell}");
        }
    }

    #[test]
    fn times_since_a_start() {
        let point = Decimal::Point;
        for (cell, seconds) in [
            ("0:05:00", 300.0),
            ("0:05", 300.0),
            ("26:03:04.5", 93_784.5),
            ("1d 02:03:04", 93_784.0),
            ("1 day, 2:03:04", 93_784.0),
            ("1.02:03:04", 93_784.0),
            ("5 min", 300.0),
            ("1 h 30 min", 5400.0),
            ("0.5 h", 1800.0),
            ("-0:05:00", -300.0),
            ("90s", 90.0),
        ] {
            assert_eq!(elapsed(cell, point), Ok(seconds), "{cell}");
        }
        for cell in ["", "5", "1 x", "0:75", "1:2:3:4", "h", "-", "1.5"] {
            assert_eq!(elapsed(cell, point), Err(Fault::Time), "{cell}");
        }
        assert_eq!(elapsed("99999999 h", point), Err(Fault::TimeRange));
        assert_eq!(span("0,25", Role::Hours, Decimal::Comma), Ok(900.0));
        assert_eq!(span("-2", Role::Minutes, point), Ok(-120.0));
        assert_eq!(span("1 h", Role::Minutes, point), Ok(3600.0));
        assert_eq!(span("1e9", Role::Hours, point), Err(Fault::TimeRange));
    }

    #[test]
    fn a_day_and_a_clock_in_two_columns() {
        let at = day("30.11.2026", DayOrder::DayFirst).unwrap();
        assert_eq!(day_and_clock(at, "6:30 pm"), Ok(When::Local(shown("2026-11-30 18:30"))));
        assert_eq!(day("46356", DayOrder::DayFirst), Ok(at));
        assert_eq!(day("20261130", DayOrder::DayFirst), Ok(at));
        assert_eq!(day("30.11.2026 18:30", DayOrder::DayFirst), Err(Fault::Time));
        assert_eq!((clock("18:30:05"), clock("18:30 Z")), (Ok(66_605.0), Err(Fault::Time)));
    }
}
