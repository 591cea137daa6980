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
}

/// A row that gives a point.
struct Used {
    row: usize,
    stamp: Stamp,
    warmth_c: Option<f64>,
    ph: Option<f64>,
}

/// Oddities that a row shows by itself.
#[derive(Default)]
struct OddRows {
    cell: Seen,
    twice: Seen,
    left_out: Seen,
    degrees: Seen,
    wide: Seen,
    titles: Seen,
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
    odd: OddRows,
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
            odd: OddRows::default(),
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
            self.odd.titles.add(row);
        } else {
            match self.used(row, line, cells) {
                Ok(used) => self.used.push(used),
                Err(why) => self.faults.push(RowFault { row, text: text::shortened(line, TEXT), why }),
            }
        }
    }

    fn used(&mut self, row: usize, line: &'a str, cells: &mut Vec<Cow<'a, str>>) -> Result<Used, Fault> {
        if line.chars().any(text::is_control) {
            return Err(Fault::NotText);
        }
        split(line, self.layout.delimiter, cells);
        let wide = self.wide(cells)?;
        let time = self.time(cells)?;
        let stamp = self.stamp(time, row)?;
        let warmth = self.places.warmth.map(|at| self.warmth(cells.get(at), row));
        let ph = self.places.ph.map(|at| self.ph(cells.get(at)));
        let of = |found: Option<Result<Option<f64>, Fault>>| match found {
            None => (None, None),
            Some(Ok(value)) => (value, None),
            Some(Err(fault)) => (None, Some(fault)),
        };
        let ((warmth_c, cold), (ph, sour)) = (of(warmth), of(ph));
        let fault = cold.or(sour);
        if warmth_c.or(ph).is_none() {
            return Err(fault.unwrap_or(Fault::NoValue));
        }
        if fault.is_some() {
            self.odd.cell.add(row);
        }
        if wide {
            self.odd.wide.add(row);
        }
        Ok(Used { row, stamp, warmth_c, ph })
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
    fn stamp(&mut self, time: When, row: usize) -> Result<Stamp, Fault> {
        let local = match time {
            When::World(first) => return Ok(Stamp { first, second: None }),
            When::Local(local) => local,
        };
        let whole = local.floor();
        let at = |seconds: i64| seconds as f64 + (local - whole);
        match self.zone.when(whole as i64).ok_or(Fault::TimeRange)? {
            Shown::Once(first) => Ok(Stamp { first: at(first), second: None }),
            Shown::Twice(first, second) => {
                self.odd.twice.add(row);
                Ok(Stamp { first: at(first), second: Some(at(second)) })
            }
            Shown::LeftOut(first) => {
                self.odd.left_out.add(row);
                Ok(Stamp { first: at(first), second: None })
            }
        }
    }

    /// A temperature, °C; nothing where the cell says that there is none.
    fn warmth(&mut self, cell: Option<&Cow<str>>, row: usize) -> Result<Option<f64>, Fault> {
        let Some((value, unit)) = self.value(cell)? else { return Ok(None) };
        let own = if unit.is_empty() { self.layout.degrees } else { degrees(unit).ok_or(Fault::Value)? };
        let c = match (own, self.fahrenheit) {
            (Degrees::Fahrenheit, Some(scale)) => scale.back(value),
            _ => value,
        };
        if !WARMTH_C.contains(&c) {
            return Err(Fault::Warmth(c));
        }
        if own != self.layout.degrees {
            self.odd.degrees.add(row);
        }
        Ok(Some(c))
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
        let odd = &self.odd;
        let mut told = self.told;
        for (what, seen) in [
            (Odd::TitlesAgain, odd.titles),
            (
                Odd::NewestFirst,
                if back { Seen { count: used.len(), first: used.len().min(1) } } else { Seen::default() },
            ),
            (Odd::Unordered, unordered),
            (Odd::ClockTwice, odd.twice),
            (Odd::ClockLeftOut, odd.left_out),
            (Odd::OtherDegrees, odd.degrees),
            (Odd::Cell, odd.cell),
            (Odd::Wide, odd.wide),
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
