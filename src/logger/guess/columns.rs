//! What each column holds: by its cells, its title and its unit.

use potset_base::units::Degrees;

use super::shape::{Shape, hint, meaning, most, words};
use super::{Row, Table};
use crate::layout::{DayOrder, Decimal, Delimiter, Doubt, Role};
use crate::number;
use crate::time::{self, DAY_S};
use crate::vocabulary::{Span, degrees, vocabulary};

/// Temperatures in °C with a greater median are taken for °F where no unit is told. Assumed: a pot is held at 30 to 45 °C,
/// which is 86 to 113 °F.
const FAHRENHEIT_FROM: f64 = 60.0;

/// What a column of pH may hold from milk to a sour pot, where no title says so. Assumed.
const PH: std::ops::RangeInclusive<f64> = 3.0..=7.6;

/// What may be a temperature, °C or °F; sensors that are not connected tell more or less. Assumed.
const WARMTH: std::ops::RangeInclusive<f64> = -40.0..=260.0;

/// What was found.
pub struct Found {
    pub roles: Vec<Role>,
    pub degrees: Degrees,
    pub doubts: Vec<Doubt>,
}

/// One column of the sample.
struct Column {
    at: usize,
    shape: Shape,
    title: String,
    hint: Option<Role>,
    numbers: Vec<f64>,
    /// Cells that are a time of the calendar though they are numbers, as a share.
    counted: f64,
    /// All are days such as "20261130".
    compact: bool,
    decimal: Decimal,
}

impl Column {
    fn of(table: &Table, at: usize, decimal: Decimal, titles: &[&Row]) -> Self {
        let joined: Vec<&str> =
            titles.iter().filter_map(|row| row.cells.get(at)).map(|(cell, _)| cell.as_ref()).collect();
        let title = words(&joined.join(" "));
        let cells = || table.column(at).filter(|(_, shape)| *shape != Shape::Empty).map(|(cell, _)| cell);
        let counted = cells().filter(|cell| time::moment(cell, DayOrder::DayFirst, decimal).is_ok()).count();
        Self {
            at,
            shape: most(table.column(at).map(|(_, shape)| shape)),
            hint: hint(&title),
            title,
            numbers: cells().filter_map(|cell| number::read(cell, decimal)).map(|(value, _)| value).collect(),
            counted: counted as f64 / cells().count().max(1) as f64,
            compact: cells().all(|cell| cell.len() == 8 && cell.starts_with("20")),
            decimal,
        }
    }

    fn is_number(&self) -> bool {
        self.shape == Shape::Number
    }

    /// Whether its numbers rise, but for a few; with `falling`, or fall.
    fn rises(&self, falling: bool) -> bool {
        let steps = || self.numbers.windows(2).map(|pair| pair[1] - pair[0]);
        let (up, down) =
            (steps().filter(|step| *step > 0.0).count(), steps().filter(|step| *step < 0.0).count());
        let all = up + down;
        all > 0 && (up * 10 >= all * 9 || (falling && down * 10 >= all * 9))
    }

    /// Whether it counts rows.
    fn is_index(&self) -> bool {
        let one = |pair: &[f64]| pair[0].fract() == 0.0 && (pair[1] - pair[0] - 1.0).abs() < 1e-9;
        let near = self.numbers.windows(2).take(20).filter(|pair| one(pair)).count();
        near >= 2 && near * 10 >= self.numbers.len().min(21).saturating_sub(1) * 9
    }

    /// The middle of the numbers that may be temperatures.
    fn median(&self) -> Option<f64> {
        let mut sorted: Vec<f64> =
            self.numbers.iter().copied().filter(|value| WARMTH.contains(value)).collect();
        sorted.sort_by(f64::total_cmp);
        sorted.get(sorted.len() / 2).copied()
    }

    /// Whether its title may be that of a time.
    fn may_be_time(&self) -> bool {
        !matches!(self.hint, Some(Role::Warmth | Role::Ph | Role::Skip))
    }

    /// The unit of time in its title.
    fn span(&self) -> Option<Role> {
        match meaning(vocabulary().spans.iter(), &self.title)? {
            Span::Day => None,
            Span::Hour => Some(Role::Hours),
            Span::Minute => Some(Role::Minutes),
            Span::Second => Some(Role::Seconds),
            Span::Millisecond => Some(Role::Milliseconds),
        }
    }

    fn is_like_ph(&self) -> bool {
        !self.numbers.is_empty()
            && self.numbers.iter().all(|value| PH.contains(value))
            && self.numbers.iter().any(|value| value.fract() != 0.0)
    }
}

/// What the columns of a table hold; a doubt where none can be a time, or none a value.
pub fn of(table: &Table) -> Found {
    let titles = titles(table);
    let decimal = table.decimal();
    let columns: Vec<Column> = (0..table.width).map(|at| Column::of(table, at, decimal, &titles)).collect();
    let mut found =
        Found { roles: vec![Role::Skip; table.width], degrees: Degrees::Celsius, doubts: Vec::new() };
    let times = times(table, &columns, &mut found.doubts);
    if times.is_empty() {
        found.doubts.push(Doubt::Time);
    }
    for (at, role) in times {
        found.roles[at] = role;
    }
    let warmth = values(&columns, &mut found);
    let none = found.roles.iter().all(|role| !matches!(role, Role::Warmth | Role::Ph));
    if none && !found.doubts.contains(&Doubt::Values) {
        found.doubts.push(Doubt::Values);
    }
    if let Some(column) = warmth {
        found.degrees = degrees_of(table, column, &mut found.doubts);
    }
    found
}

/// The rows that tell what columns hold: the last above the values and, where it only has units, the one above that.
fn titles<'a, 't>(table: &'a Table<'t>) -> Vec<&'a Row<'t>> {
    let above: Vec<&Row> = table.titles().collect();
    // A row of fewer cells than commas make of the values tells nothing of single columns.
    let fits = |row: &&&Row| row.cells.len() + 1 >= table.width || table.delimiter != Delimiter::Comma;
    let is_unit = |title: &str| {
        let words = words(title);
        let one = words.trim();
        vocabulary().degrees.get(one).is_some()
            || vocabulary().spans.get(one).is_some()
            || one == "%"
            || one == "ph"
    };
    let units = |row: &Row| row.cells.iter().all(|(cell, shape)| *shape == Shape::Empty || is_unit(cell));
    let mut out: Vec<&Row> = Vec::new();
    for row in above.iter().rev().filter(fits) {
        out.insert(0, row);
        if !units(row) {
            break;
        }
    }
    out
}

/// The columns of times: as few as tell it.
fn times(table: &Table, columns: &[Column], doubts: &mut Vec<Doubt>) -> Vec<(usize, Role)> {
    let best = |is: &dyn Fn(&Column) -> bool, role: Role| {
        let of = || columns.iter().filter(|column| is(column));
        of().find(|column| column.hint == Some(role)).or_else(|| of().next())
    };
    let shaped = |shape: Shape, role: Role| best(&move |column| column.shape == shape, role);
    if let Some(moment) = shaped(Shape::Moment, Role::Time) {
        return vec![(moment.at, Role::Time)];
    }
    let clock = shaped(Shape::Clock, Role::Clock);
    let compact = |column: &Column| column.is_number() && column.compact && column.may_be_time();
    let day = shaped(Shape::Day, Role::Day).or_else(|| best(&compact, Role::Day));
    if let Some(day) = day {
        return [Some((day.at, Role::Day)), clock.map(|clock| (clock.at, Role::Clock))]
            .into_iter()
            .flatten()
            .collect();
    }
    let counted = |c: &Column| {
        c.is_number() && c.counted >= 0.9 && c.may_be_time() && (c.rises(true) || c.hint.is_some())
    };
    if let Some(counted) = best(&counted, Role::Time) {
        return vec![(counted.at, Role::Time)];
    }
    if let Some(elapsed) = shaped(Shape::Elapsed, Role::Elapsed) {
        return vec![(elapsed.at, Role::Elapsed)];
    }
    let spans = spans(columns);
    if !spans.is_empty() {
        return spans;
    }
    if let Some(clock) = clock {
        return vec![(clock.at, if since_start(table, clock) { Role::Elapsed } else { Role::Clock })];
    }
    let rising = |column: &Column| column.is_number() && column.may_be_time() && column.rises(false);
    let Some(column) = best(&rising, Role::Elapsed).or_else(|| best(&rising, Role::Time)) else {
        return Vec::new();
    };
    doubts.push(Doubt::TimeUnit);
    vec![(column.at, unit(column))]
}

/// Numbers whose titles name hours, minutes or seconds: all of them where they add up, else the first.
fn spans(columns: &[Column]) -> Vec<(usize, Role)> {
    let named = columns.iter().filter(|column| column.is_number() && column.may_be_time());
    let mut out: Vec<(usize, Role)> = Vec::new();
    let mut add_up = true;
    for (column, role) in named.filter_map(|column| Some((column, column.span()?))) {
        let below = |value: &f64| value.fract() == 0.0 && (0.0..60.0).contains(value);
        add_up &= role == Role::Hours || column.numbers.iter().all(below);
        add_up &= out.iter().all(|(_, own)| *own != role);
        out.push((column.at, role));
    }
    if !add_up {
        out.truncate(1);
    }
    out
}

/// Whether a column of clocks counts from a start: its title says so, it goes past a day, or its first value is one step.
fn since_start(table: &Table, column: &Column) -> bool {
    let cells: Vec<(&str, Shape)> =
        table.column(column.at).filter(|(_, shape)| matches!(shape, Shape::Clock | Shape::Elapsed)).collect();
    let seconds =
        |at: usize| cells.get(at).and_then(|(cell, _)| time::span(cell, Role::Elapsed, column.decimal).ok());
    let early = seconds(0).zip(seconds(1)).is_some_and(|(first, second)| first <= (second - first) * 1.01);
    column.hint == Some(Role::Elapsed) || early || cells.iter().any(|(_, shape)| *shape == Shape::Elapsed)
}

/// The unit of numbers that rise, where nothing says it: parts of one are hours. More than a hundred hours in all, or four
/// from one row to the next, are of the next smaller unit. Assumed, and told as a doubt.
fn unit(column: &Column) -> Role {
    let numbers = &column.numbers;
    let total = numbers.last().zip(numbers.first()).map_or(0.0, |(last, first)| last - first);
    let step = numbers.get(1).zip(numbers.first()).map_or(0.0, |(next, first)| next - first);
    if numbers.iter().any(|value| value.fract() != 0.0) && total < DAY_S / 60.0 {
        Role::Hours
    } else if total > 360_000.0 || (step >= 240.0 && step % 1000.0 == 0.0) {
        Role::Milliseconds
    } else if total > 6000.0 || step >= 240.0 {
        Role::Seconds
    } else {
        Role::Minutes
    }
}

/// Sets the columns of values; the column of temperatures.
fn values<'c>(columns: &'c [Column], found: &mut Found) -> Option<&'c Column> {
    let free: Vec<&Column> =
        columns.iter().filter(|column| column.is_number() && found.roles[column.at] == Role::Skip).collect();
    let hinted = |role: Role| free.iter().copied().filter(move |column| column.hint == Some(role));
    let (mut warmth, mut ph) = (hinted(Role::Warmth).next(), hinted(Role::Ph).next());
    if hinted(Role::Warmth).nth(1).is_some() {
        found.doubts.push(Doubt::SeveralWarmths);
    }
    // Titles that tell nothing: what the numbers look like.
    let blank = |column: &&Column| {
        !matches!(column.hint, Some(Role::Skip | Role::Warmth | Role::Ph)) && !column.is_index()
    };
    let left: Vec<&Column> = free.iter().copied().filter(|column| blank(column)).collect();
    if warmth.is_none() {
        let fits = |column: &&Column| column.median().is_some();
        let sour = |column: &Column| column.is_like_ph() && ph.is_none();
        let sure = left.iter().copied().find(|column| fits(column) && !sour(column));
        warmth = sure;
        if warmth.is_some() && left.len() > 1 && ph.is_none() {
            found.doubts.push(Doubt::Values);
        }
    }
    if ph.is_none() && !hinted(Role::Warmth).any(|_| true) {
        ph = left.iter().copied().find(|column| column.is_like_ph());
        if ph.is_some() && !found.doubts.contains(&Doubt::Values) {
            found.doubts.push(Doubt::Values);
        }
    }
    for (column, role) in [(warmth, Role::Warmth), (ph, Role::Ph)] {
        if let Some(column) = column {
            found.roles[column.at] = role;
        }
    }
    warmth
}

/// The degrees of a column of temperatures: by its title, else by units in its cells, else by how high they are.
fn degrees_of(table: &Table, column: &Column, doubts: &mut Vec<Doubt>) -> Degrees {
    if let Some(told) = meaning(vocabulary().degrees.iter(), &column.title) {
        return *told;
    }
    let units = || {
        let unit = |(cell, _)| number::read(cell, column.decimal).and_then(|(_, unit)| degrees(unit));
        table.column(column.at).filter_map(unit)
    };
    let count = |wanted: Degrees| units().filter(|own| *own == wanted).count();
    let (c, f) = (count(Degrees::Celsius), count(Degrees::Fahrenheit));
    if c + f > 0 {
        return if f > c { Degrees::Fahrenheit } else { Degrees::Celsius };
    }
    if column.median().is_some_and(|median| median > FAHRENHEIT_FROM) {
        doubts.push(Doubt::Degrees);
        return Degrees::Fahrenheit;
    }
    Degrees::Celsius
}
