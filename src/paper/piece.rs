//! What is never parted on paper: a line of text with what stands beside it; and words broken into such lines.

use std::collections::HashMap;

use potset_base::palette::{PRINT, PRINT_SOFT};
use potset_export::layout::broken;
use potset_export::svg::{Drawing, Type, width};

use crate::size::Size;

/// Something drawn, in points from the top left of its piece.
#[derive(Clone, Debug)]
pub enum Mark {
    /// A text on its base line.
    Text((f64, f64), String, Type),
    /// A line with its width and lengths of ink and gap.
    Line(Vec<(f64, f64)>, u32, f64, &'static [f32]),
}

/// What is never parted.
#[derive(Clone, Debug, Default)]
pub struct Piece {
    pub height: f64,
    /// It stands on the page of the piece after it.
    pub keep: bool,
    /// Room above it, which goes where it comes first in a column.
    pub space: bool,
    pub marks: Vec<Mark>,
}

impl Piece {
    /// Room above what comes next.
    pub fn space(height: f64) -> Self {
        Self { height, space: true, keep: true, ..Self::default() }
    }

    /// Draws it with its top left at a point.
    pub fn draw(&self, out: &mut Drawing, (left, top): (f64, f64)) {
        for mark in &self.marks {
            match mark {
                Mark::Text((x, y), words, set) => out.text((left + x, top + y), words, *set),
                Mark::Line(points, color, wide, dash) => {
                    let points: Vec<(f64, f64)> = points.iter().map(|(x, y)| (left + x, top + y)).collect();
                    out.line(&points, *color, *wide, dash);
                }
            }
        }
    }
}

/// Height of all.
pub fn height(pieces: &[Piece]) -> f64 {
    pieces.iter().map(|piece| piece.height).sum()
}

/// From one line to the next, in sizes of its type.
const LINE: f64 = 1.25;

/// Words in one type.
pub type Run = (String, Type);

/// A line of words: where each run begins.
pub type Set = Vec<(f64, String, Type)>;

/// The type of a sheet, and the widths of its words, each found once.
pub struct Hand {
    pub size: Size,
    /// Size of the running type, points.
    pub body: f64,
    /// Words at size 1, by whether they are bold and italic.
    widths: HashMap<(String, bool, bool), f64>,
}

impl Hand {
    pub fn new(size: Size, body: f64) -> Self {
        Self { size, body, widths: HashMap::new() }
    }

    /// The running type.
    pub const fn ink(&self) -> Type {
        Type::new(self.body, PRINT)
    }

    /// Smaller, in grey.
    pub const fn soft(&self) -> Type {
        let small = 0.9 * self.body;
        Type::new(if small > self.size.least() { small } else { self.size.least() }, PRINT_SOFT)
    }

    /// Titles of blocks.
    pub const fn title(&self) -> Type {
        Type::new(1.15 * self.body, PRINT).bold()
    }

    /// Small print, in black.
    pub const fn small(&self) -> Type {
        Type::new(self.soft().size, PRINT)
    }

    /// From one line to the next.
    pub const fn line(&self) -> f64 {
        LINE * self.body
    }

    /// Width of a word or of words, points.
    pub fn width(&mut self, words: &str, set: Type) -> f64 {
        let key = (words.to_owned(), set.bold, set.italic);
        set.size * *self.widths.entry(key).or_insert_with(|| width(words, Type { size: 1.0, ..set }))
    }

    /// Runs of words in lines that are no wider than `room`; a word that is wider itself is broken. Spaces that part numbers
    /// from their units hold.
    pub fn wrap(&mut self, runs: &[Run], room: f64) -> Vec<Set> {
        let mut lines: Vec<Set> = vec![Vec::new()];
        let mut end = 0.0;
        for (words, set) in runs {
            // Between a and a: a space alone has no width.
            let gap = self.width("a a", *set) - 2.0 * self.width("a", *set);
            for word in words.split([' ', '\t', '\n', '\r']).filter(|word| !word.is_empty()) {
                for piece in self.pieces(word, *set, room) {
                    let wide = self.width(&piece, *set);
                    let line = lines.last_mut().filter(|line| line.is_empty() || end + gap + wide <= room);
                    match line {
                        Some(line) => {
                            let at = if line.is_empty() { 0.0 } else { end + gap };
                            match line.last_mut().filter(|(_, _, last)| last == set) {
                                Some((_, last, _)) => {
                                    last.push(' ');
                                    last.push_str(&piece);
                                }
                                None => line.push((at, piece, *set)),
                            }
                            end = at + wide;
                        }
                        None => {
                            lines.push(vec![(0.0, piece, *set)]);
                            end = wide;
                        }
                    }
                }
            }
        }
        lines
    }

    /// A word, or its pieces if it is wider than the room.
    fn pieces(&mut self, word: &str, set: Type, room: f64) -> Vec<String> {
        if self.width(word, set) <= room { vec![word.to_owned()] } else { broken(word, set, room) }
    }

    /// A paragraph as pieces, a line each, set in by `left`. Two lines at either end stay together.
    pub fn paragraph(&mut self, runs: &[Run], (left, room): (f64, f64)) -> Vec<Piece> {
        let lines = self.wrap(runs, room);
        let count = lines.len();
        let size = runs.iter().map(|(_, set)| set.size).fold(0.0, f64::max);
        let each = |(i, line): (usize, Set)| Piece {
            height: LINE * size,
            keep: i + 1 < count && (i == 0 || i + 2 == count || count < 4),
            marks: texts(line, (left, size)),
            ..Piece::default()
        };
        lines.into_iter().enumerate().map(each).collect()
    }
}

/// A line as texts on a base line.
pub fn texts(line: Set, (left, base): (f64, f64)) -> Vec<Mark> {
    line.into_iter().map(|(x, words, set)| Mark::Text((left + x, base), words, set)).collect()
}
