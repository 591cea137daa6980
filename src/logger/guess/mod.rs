//! How a file is most likely to be read: its delimiter, its columns, its units, and what it does not settle.

mod columns;
mod dates;
mod shape;

use std::borrow::Cow;
use std::collections::BTreeMap;

use potset_base::Note;

use self::shape::Shape;
use crate::cells::split;
use crate::layout::{Decimal, Delimiter, Doubt, Layout, Role};
use crate::text;

/// Rows at the start of a file that are looked at one by one, and rows that are picked from all the others.
const FIRST: usize = 200;
const LATER: usize = 400;

/// Rows by which delimiters are compared.
const COMPARED: usize = 120;

/// Columns that are looked at.
const COLUMNS: usize = 600;

/// Rows of titles above the values that may tell what columns hold: titles, and units below them.
const TITLES: usize = 3;

/// How a file is most likely to be read. [`Layout::doubts`] has what a person should look at.
///
/// # Errors
/// A note where the file is empty or no text, and where it has no rows of a time and a value.
pub fn guess(bytes: &[u8]) -> Result<Layout, Note> {
    let text = text::decode(bytes);
    let sample = sample(&text);
    if sample.is_empty() {
        return Err(Note::error("file", "The file holds no rows", "Export it from the logger once more"));
    }
    let (delimiter, _) = candidates(&sample)
        .into_iter()
        .map(|delimiter| (delimiter, Table::of(&sample[..sample.len().min(COMPARED)], delimiter).worth()))
        .fold((Delimiter::Comma, 0.0), |best, next| if next.1 > best.1 + 1e-9 { next } else { best });
    let table = Table::of(&sample, delimiter);
    if table.values.is_empty() {
        return Err(nothing(&text));
    }
    let found = columns::of(&table);
    let mut doubts = found.doubts;
    let (order, sure) = dates::order(&table, &found.roles);
    if !sure {
        doubts.push(Doubt::DayOrder);
    }
    let decimal = table.decimal();
    if delimiter == Delimiter::Comma && table.commas_twice() {
        doubts.push(Doubt::Commas);
    }
    let first_row = table.first_row(&found.roles);
    Ok(Layout { delimiter, decimal, first_row, columns: found.roles, degrees: found.degrees, order, doubts })
}

/// Why there are no rows to read.
fn nothing(text: &str) -> Note {
    let looked: Vec<char> = text.chars().take(20_000).collect();
    let odd = looked.iter().filter(|sign| text::is_control(**sign) && !matches!(sign, '\n' | '\r')).count();
    if odd * 20 > looked.len() {
        return Note::error(
            "file",
            "This is not a file of text",
            "Export it from the logger as CSV or as text",
        );
    }
    let title = "I find no row with a time and a value";
    Note::error("file", title, "Export both columns, or choose what parts them")
}

/// Rows that are not blank, with their number in the file: those at the start, and some of all others.
fn sample(text: &str) -> Vec<(usize, &str)> {
    let full = |line: &&str| !line.trim().is_empty();
    let all: Vec<(usize, &str)> = text::lines(text)
        .enumerate()
        .map(|(at, line)| (at + 1, line))
        .filter(|(_, line)| full(line))
        .collect();
    let (first, later) = all.split_at(all.len().min(FIRST));
    let every = later.len().div_ceil(LATER).max(1);
    first.iter().chain(later.iter().step_by(every)).copied().collect()
}

/// The usual delimiters, and other signs that stand in most rows.
fn candidates(sample: &[(usize, &str)]) -> Vec<Delimiter> {
    let mut counts: BTreeMap<char, usize> = BTreeMap::new();
    let looked = &sample[..sample.len().min(COMPARED)];
    for (_, line) in looked {
        let mut signs: Vec<char> = line.chars().take(400).filter(char::is_ascii_punctuation).collect();
        signs.sort_unstable();
        signs.dedup();
        for sign in signs {
            *counts.entry(sign).or_default() += 1;
        }
    }
    let usual = Delimiter::USUAL.map(Delimiter::sign);
    let used = |sign: char| usual.contains(&sign) || "+-.:/%\"'()[]_".contains(sign);
    let others = counts.into_iter().filter(|(sign, count)| !used(*sign) && count * 2 > looked.len());
    Delimiter::USUAL.into_iter().chain(others.map(|(sign, _)| Delimiter::Other(sign))).collect()
}

/// One row of the sample, parted.
struct Row<'a> {
    /// Number in the file, from 1.
    row: usize,
    cells: Vec<(Cow<'a, str>, Shape)>,
}

impl Row<'_> {
    fn count(&self, is: impl Fn(Shape) -> bool) -> usize {
        self.cells.iter().filter(|(_, shape)| is(*shape)).count()
    }

    /// Whether it has a time and a value, or two numbers.
    fn is_full(&self) -> bool {
        self.count(Shape::is_value) >= 2
    }
}

/// The rows of the sample, parted by a delimiter.
struct Table<'a> {
    delimiter: Delimiter,
    rows: Vec<Row<'a>>,
    /// Places of the rows that hold values.
    values: Vec<usize>,
    /// Columns that most of them have.
    width: usize,
}

impl<'a> Table<'a> {
    fn of(sample: &[(usize, &'a str)], delimiter: Delimiter) -> Self {
        let mut cells = Vec::new();
        let mut row = |&(row, line): &(usize, &'a str)| {
            split(line, delimiter, &mut cells);
            let shaped = cells.drain(..).take(COLUMNS).map(|cell| {
                let shape = shape::of(&cell);
                (cell, shape)
            });
            Row { row, cells: shaped.collect() }
        };
        let rows: Vec<Row> = sample.iter().map(&mut row).collect();
        let mut widths: BTreeMap<usize, usize> = BTreeMap::new();
        for row in rows.iter().filter(|row| row.is_full()) {
            *widths.entry(row.cells.len()).or_default() += 1;
        }
        let most = widths.values().max().copied().unwrap_or(0);
        let width = widths.iter().find(|(_, count)| **count == most).map_or(0, |(width, _)| *width);
        let full = |at: &usize| rows[*at].is_full() && rows[*at].cells.len() >= width;
        let values = (0..rows.len()).filter(full).collect();
        Self { delimiter, rows, values, width }
    }

    fn values(&self) -> impl Iterator<Item = &Row<'a>> {
        self.values.iter().map(|at| &self.rows[*at])
    }

    /// Cells of a column in the rows of values.
    fn column(&self, at: usize) -> impl Iterator<Item = (&str, Shape)> {
        self.values().filter_map(move |row| row.cells.get(at)).map(|(cell, shape)| (cell.as_ref(), *shape))
    }

    /// How well the delimiter reads the file: rows of values, each by the share of its cells that are values.
    fn worth(&self) -> f64 {
        let share = |row: &Row| {
            let filled = row.cells.len() - row.count(|shape| shape == Shape::Empty);
            row.count(Shape::is_value) as f64 / filled.max(1) as f64
        };
        self.values().map(share).sum()
    }

    /// The decimal sign of most numbers.
    fn decimal(&self) -> Decimal {
        let (mut points, mut commas) = (0_usize, 0_usize);
        let numbers = self.values().flat_map(|row| &row.cells).filter(|(_, shape)| *shape == Shape::Number);
        for (cell, _) in numbers {
            match cell.rfind(['.', ',']).map(|at| &cell[at..=at]) {
                Some(".") => points += 1,
                Some(_) => commas += 1,
                None => {}
            }
        }
        if commas > points { Decimal::Comma } else { Decimal::Point }
    }

    /// Whether rows have more columns than their titles, and no number has decimals: commas may part the decimals too.
    fn commas_twice(&self) -> bool {
        let titled = self.titles().last().map_or(0, |row| row.cells.len());
        let whole = |(cell, shape): &(Cow<str>, Shape)| *shape != Shape::Number || !cell.contains(['.', ',']);
        titled > 1 && titled < self.width && self.values().all(|row| row.cells.iter().all(whole))
    }

    /// Rows above the first row of values that have two cells or more, the last few.
    fn titles(&self) -> impl Iterator<Item = &Row<'a>> {
        let above = &self.rows[..self.values.first().copied().unwrap_or(0)];
        let words = |row: &&Row| row.cells.len() - row.count(|shape| shape == Shape::Empty) >= 2;
        above[above.len().saturating_sub(TITLES)..].iter().filter(words)
    }

    /// The first row whose time has the shape of the times below: one with a fault is no title.
    fn first_row(&self, roles: &[Role]) -> usize {
        let is_time = |role: &Role| !matches!(role, Role::Skip | Role::Warmth | Role::Ph);
        let time = roles.iter().position(is_time).unwrap_or(0);
        let usual = shape::most(self.column(time).map(|(_, shape)| shape));
        let begins = |row: &&Row| {
            row.cells.len() >= self.width.min(2)
                && row.cells.get(time).is_some_and(|(_, shape)| *shape == usual)
        };
        self.rows.iter().find(begins).map_or(1, |row| row.row)
    }
}
