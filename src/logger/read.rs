//! From bytes to points by a layout: every row is a point, a fault, a title or blank.

use std::borrow::Cow;

use potset_base::Note;
use potset_base::clock::{Shown, Zone};
use potset_base::units::{self, Degrees, Scale};

use crate::cells::split;
use crate::layout::Layout;
use crate::number;
use crate::odd::{self, Seen};
use crate::places::{Places, TimeAt};
use crate::rows::{Point, Rows, Times};
use crate::text;
use crate::time::{self, DAY_S, When};
use crate::told::{Fault, Odd, RowFault, Told};
use crate::vocabulary::{degrees, is_missing};

/// A pot, a fridge or a kitchen is no colder and no warmer, °C: sensors that are not connected tell −127 or 6553.5. Assumed.
const WARMTH_C: std::ops::RangeInclusive<f64> = -40.0..=150.0;

/// Signs of a faulty row that are kept.
const TEXT: usize = 60;

/// Rows of titles that are known again where they come once more.
const TITLES: usize = 4;

/// Reads a whole file by a layout.
///
/// - `zone` — of the logger's clock; not asked where the file has the world's clock or counts from its own start
///
/// # Errors
/// A note where the layout names no column of times or none of values, where two columns have the same role, or where the
/// file is empty. What is wrong with single rows is among the faults.
pub fn read(bytes: &[u8], layout: &Layout, zone: &Zone) -> Result<Rows, Note> {
    let places = Places::of(layout)?;
    let text = text::decode(bytes);
    if text.is_empty() {
        return Err(Note::error("file", "The file is empty", "Export it from the logger once more"));
    }
    let mut reader = Reader::new(layout, places, zone);
    let mut cells = Vec::new();
    for (at, line) in text::lines(&text).enumerate() {
        reader.row(at + 1, line, &mut cells);
    }
    Ok(reader.finish())
}

/// A time before the order of rows is known: where the clock shows it twice, the second time too.
#[derive(Clone, Copy)]
struct Stamp {
    first: f64,
    second: Option<f64>,
    /// Whether the clock never shows it.
    left_out: bool,
}

/// A row that gives a point.
struct Used {
    row: usize,
    stamp: Stamp,
    warmth_c: Option<f64>,
    ph: Option<f64>,
    /// The temperature has a unit of its own, and not the column's.
    other_degrees: bool,
    /// One of the two values could not be read.
    half: bool,
    /// It has more columns than the layout.
    wide: bool,
}

struct Reader<'a> {
    layout: &'a Layout,
    places: Places,
    needed: usize,
    zone: &'a Zone,
    fahrenheit: Option<Scale<'static>>,
    titles: Vec<&'a str>,
    used: Vec<Used>,
    faults: Vec<RowFault>,
    told: Told,
    titles_again: Seen,
}

impl<'a> Reader<'a> {
    fn new(layout: &'a Layout, places: Places, zone: &'a Zone) -> Self {
        Self {
            needed: places.needed(),
            layout,
            places,
            zone,
            fahrenheit: units::scale_in(units::WARMTH, Degrees::Fahrenheit),
            titles: Vec::new(),
            used: Vec::new(),
            faults: Vec::new(),
            told: Told::default(),
            titles_again: Seen::default(),
        }
    }

    fn row(&mut self, row: usize, line: &'a str, cells: &mut Vec<Cow<'a, str>>) {
        self.told.rows += 1;
        let sign = self.layout.delimiter.sign();
        if line.chars().all(|c| c.is_whitespace() || c == sign || c == '"') {
            self.told.blank += 1;
        } else if row < self.layout.first_row {
            self.told.titles += 1;
            if line.contains(char::is_alphabetic) {
                self.titles.truncate(TITLES - 1);
                self.titles.insert(0, line.trim());
            }
        } else if self.titles.contains(&line.trim()) {
            self.told.titles += 1;
            self.titles_again.add(row);
        } else {
            match self.used(row, line, cells) {
                Ok(used) => self.used.push(used),
                Err(why) => self.faults.push(RowFault { row, text: text::shortened(line, TEXT), why }),
            }
        }
    }

    fn used(&self, row: usize, line: &'a str, cells: &mut Vec<Cow<'a, str>>) -> Result<Used, Fault> {
        if line.chars().any(text::is_control) {
            return Err(Fault::NotText);
        }
        split(line, self.layout.delimiter, cells);
        let wide = self.wide(cells)?;
        let time = self.time(cells)?;
        let stamp = self.stamp(time)?;
        let warmth = self.places.warmth.map_or(Ok(None), |at| self.warmth(cells.get(at)));
        let ph = self.places.ph.map_or(Ok(None), |at| self.ph(cells.get(at)));
        let fault = warmth.err().or(ph.err());
        let (warmth, ph) = (warmth.unwrap_or_default(), ph.unwrap_or_default());
        if warmth.is_none() && ph.is_none() {
            return Err(fault.unwrap_or(Fault::NoValue));
        }
        Ok(Used {
            row,
            stamp,
            warmth_c: warmth.map(|(c, _)| c),
            ph,
            other_degrees: warmth.is_some_and(|(_, own)| own != self.layout.degrees),
            half: fault.is_some(),
            wide,
        })
    }

    /// Whether the row has more columns than the layout; a fault where numbers stand there, since the row may be shifted, or
    /// where it has too few.
    fn wide(&self, cells: &[Cow<str>]) -> Result<bool, Fault> {
        if cells.len() < self.needed {
            return Err(Fault::Columns { has: cells.len(), wanted: self.needed });
        }
        let wanted = self.layout.columns.len();
        let more = cells.get(wanted..).unwrap_or_default();
        let is_number =
            |cell: &str| number::read(cell, self.layout.decimal).is_some_and(|(_, after)| after.is_empty());
        if more.iter().any(|cell| is_number(cell)) {
            return Err(Fault::Columns { has: cells.len(), wanted });
        }
        Ok(more.iter().any(|cell| !cell.is_empty()))
    }

    fn time(&self, cells: &[Cow<str>]) -> Result<When, Fault> {
        let cell =
            |at: usize| cells.get(at).map(Cow::as_ref).filter(|cell| !cell.is_empty()).ok_or(Fault::NoTime);
        let (order, decimal) = (self.layout.order, self.layout.decimal);
        match &self.places.time {
            TimeAt::Moment(at) => time::moment(cell(*at)?, order, decimal),
            TimeAt::Day(at) => time::day(cell(*at)?, order).map(When::Local),
            TimeAt::DayAndClock(day, clock) => {
                time::day_and_clock(time::day(cell(*day)?, order)?, cell(*clock)?)
            }
            TimeAt::Clock(at) => time::clock(cell(*at)?).map(When::World),
            TimeAt::Spans(spans) => {
                let mut total = 0.0;
                for (at, role) in spans {
                    total += time::span(cell(*at)?, *role, decimal)?;
                }
                Ok(When::World(total))
            }
        }
    }

    /// The instant of a time, by the zone where it is local.
    fn stamp(&self, time: When) -> Result<Stamp, Fault> {
        let local = match time {
            When::World(first) => return Ok(Stamp { first, second: None, left_out: false }),
            When::Local(local) => local,
        };
        let whole = local.floor();
        let at = |seconds: i64| seconds as f64 + (local - whole);
        let (first, second, left_out) = match self.zone.when(whole as i64).ok_or(Fault::TimeRange)? {
            Shown::Once(first) => (first, None, false),
            Shown::Twice(first, second) => (first, Some(at(second)), false),
            Shown::LeftOut(first) => (first, None, true),
        };
        Ok(Stamp { first: at(first), second, left_out })
    }

    /// A temperature, °C, and what it was written in; nothing where the cell says that there is none.
    fn warmth(&self, cell: Option<&Cow<str>>) -> Result<Option<(f64, Degrees)>, Fault> {
        let Some((value, unit)) = self.value(cell)? else { return Ok(None) };
        let own = if unit.is_empty() { self.layout.degrees } else { degrees(unit).ok_or(Fault::Value)? };
        let c = match (own, self.fahrenheit) {
            (Degrees::Fahrenheit, Some(scale)) => scale.back(value),
            _ => value,
        };
        if WARMTH_C.contains(&c) { Ok(Some((c, own))) } else { Err(Fault::Warmth(c)) }
    }

    fn ph(&self, cell: Option<&Cow<str>>) -> Result<Option<f64>, Fault> {
        match self.value(cell)? {
            None => Ok(None),
            Some((ph, unit)) if unit.is_empty() || unit.eq_ignore_ascii_case("ph") => {
                if ph > 0.0 && ph <= 14.0 { Ok(Some(ph)) } else { Err(Fault::Ph(ph)) }
            }
            Some(_) => Err(Fault::Value),
        }
    }

    /// A number and its unit; nothing where the cell says that there is none.
    fn value<'c>(&self, cell: Option<&'c Cow<str>>) -> Result<Option<(f64, &'c str)>, Fault> {
        let cell = cell.map_or("", Cow::as_ref);
        match number::read(cell, self.layout.decimal) {
            Some(found) => Ok(Some(found)),
            None if is_missing(cell) => Ok(None),
            None => Err(Fault::Value),
        }
    }

    fn finish(mut self) -> Rows {
        let mut used = std::mem::take(&mut self.used);
        let falls = |pair: &&[Used]| pair[1].stamp.first < pair[0].stamp.first;
        let rises = |pair: &&[Used]| pair[1].stamp.first > pair[0].stamp.first;
        let back = used.windows(2).filter(falls).count() > used.windows(2).filter(rises).count();
        if back {
            used.reverse();
        }
        let by_clock = matches!(self.places.time, TimeAt::Clock(_));
        let (mut points, unordered) = placed(&used, by_clock);
        points.sort_by(|a, b| a.at.total_cmp(&b.at).then(a.row.cmp(&b.row)));
        let seen = |is: fn(&Used) -> bool| {
            let mut seen = Seen::default();
            used.iter().filter(|used| is(used)).for_each(|used| seen.add(used.row));
            seen
        };
        let mut told = self.told;
        for (what, seen) in [
            (Odd::TitlesAgain, self.titles_again),
            (Odd::NewestFirst, if back { seen(|_| true) } else { Seen::default() }),
            (Odd::Unordered, unordered),
            (Odd::ClockTwice, seen(|used| used.stamp.second.is_some())),
            (Odd::ClockLeftOut, seen(|used| used.stamp.left_out)),
            (Odd::OtherDegrees, seen(|used| used.other_degrees)),
            (Odd::Cell, seen(|used| used.half)),
            (Odd::Wide, seen(|used| used.wide)),
        ] {
            told.odd.extend(seen.told(what));
        }
        told.odd.extend(odd::of(&mut points));
        let world = matches!(self.places.time, TimeAt::Moment(_) | TimeAt::Day(_) | TimeAt::DayAndClock(..));
        let times = if world { Times::World } else { Times::SinceStart };
        Rows { points, faults: self.faults, told, times }
    }
}

/// Points of rows in the order of time: a time that comes twice is the first where that does not step back. With rows that
/// are earlier than the one before.
///
/// - `by_clock` — there are no days: a step back by half a day or more begins the next
fn placed(used: &[Used], by_clock: bool) -> (Vec<Point>, Seen) {
    let mut points = Vec::with_capacity(used.len());
    let mut unordered = Seen::default();
    let mut before = f64::NEG_INFINITY;
    let mut days = 0.0;
    for one in used {
        let mut at = one.stamp.first + days;
        if let Some(second) = one.stamp.second.filter(|second| at < before && *second >= before) {
            at = second;
        }
        if by_clock && at <= before - DAY_S / 2.0 {
            days += DAY_S;
            at += DAY_S;
        }
        if at < before {
            unordered.add(one.row);
        }
        before = at;
        points.push(Point { row: one.row, at, warmth_c: one.warmth_c, ph: one.ph, spike: false });
    }
    (points, unordered)
}
