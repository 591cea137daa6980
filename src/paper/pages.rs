//! How pieces flow over columns and pages: one page where they fit, further pages where not, nothing cut off.

use potset_base::palette::{PAPER, PRINT_SOFT};
use potset_export::svg::{Anchor, Drawing};
use potset_report::card::{Part, Sheet};

use crate::blocks::{HAIR, block};
use crate::chart;
use crate::head::head;
use crate::piece::{Hand, Piece, height, texts};
use crate::size::Size;

/// A piece on its page, points from the top left.
struct Placed {
    page: usize,
    at: (f64, f64),
    piece: Piece,
}

/// The pages of a sheet. The largest type that needs the fewest pages is taken.
pub fn pages(sheet: &Sheet, size: Size) -> Vec<Drawing> {
    let mut best: Option<Layout> = None;
    for body in size.bodies() {
        let laid = Layout::of(sheet, size, *body);
        let one = laid.pages == 1;
        if best.as_ref().is_none_or(|best| laid.pages < best.pages) {
            best = Some(laid);
        }
        if one {
            break;
        }
    }
    best.map_or_else(Vec::new, |laid| laid.drawn(sheet))
}

/// A sheet laid out in one size of type.
struct Layout {
    hand: Hand,
    placed: Vec<Placed>,
    pages: usize,
    foot: Vec<Piece>,
}

/// Where the next piece goes in a column.
struct Column {
    page: usize,
    left: f64,
    y: f64,
    /// Where a page of it begins and ends.
    top: f64,
    bottom: f64,
}

impl Column {
    /// Places pieces one after the other; what is to stay together does, unless a page is too short for it.
    fn flow(&mut self, pieces: Vec<Piece>, placed: &mut Vec<Placed>) {
        let mut rest = pieces.into_iter().peekable();
        while rest.peek().is_some() {
            let mut group = Vec::new();
            for piece in rest.by_ref() {
                let more = piece.keep;
                group.push(piece);
                if !more {
                    break;
                }
            }
            let whole = height(&group);
            if self.y + whole > self.bottom && whole <= self.bottom - self.top {
                self.turn();
            }
            for piece in group {
                if self.y + piece.height > self.bottom {
                    self.turn();
                }
                if piece.space && self.y <= self.top {
                    continue;
                }
                let (page, at) = (self.page, (self.left, self.y));
                self.y += piece.height;
                placed.push(Placed { page, at, piece });
            }
        }
    }

    /// On to the next page.
    fn turn(&mut self) {
        self.page += 1;
        self.y = self.top;
    }
}

impl Layout {
    fn of(sheet: &Sheet, size: Size, body: f64) -> Self {
        let mut hand = Hand::new(size, body);
        let ((wide, tall), margin) = (size.points(), size.margin());
        let room = wide - 2.0 * margin;
        let foot = foot(&mut hand, sheet, room);
        let bottom = tall - margin - height(&foot);
        let mut placed = Vec::new();
        let mut whole = Column { page: 0, left: margin, y: margin, top: margin, bottom };
        whole.flow(head(&mut hand, sheet, room), &mut placed);
        let count = size.columns();
        let gap = 2.2 * body;
        let each = (room - gap * (count - 1) as f64) / count as f64;
        let streams = streams(&mut hand, sheet, each, count);
        let mut pages = whole.page + 1;
        for (k, stream) in streams.into_iter().enumerate() {
            let left = margin + k as f64 * (each + gap);
            let mut column = Column { left, ..whole };
            column.flow(stream, &mut placed);
            pages = pages.max(column.page + 1);
        }
        Self { hand, placed, pages, foot }
    }

    fn drawn(self, sheet: &Sheet) -> Vec<Drawing> {
        let size = self.hand.size;
        let ((wide, tall), margin) = (size.points(), size.margin());
        let mut all: Vec<Drawing> = (0..self.pages).map(|_| Drawing::new(wide, tall, PAPER)).collect();
        for one in &self.placed {
            one.piece.draw(&mut all[one.page], one.at);
        }
        let top = tall - margin - height(&self.foot);
        let soft = self.hand.soft();
        let count = self.pages;
        for (i, page) in all.iter_mut().enumerate() {
            page.line(&[(margin, top), (wide - margin, top)], PRINT_SOFT, HAIR, &[]);
            let mut y = top;
            for piece in &self.foot {
                piece.draw(page, (margin, y));
                y += piece.height;
            }
            let words = number(sheet, i + 1, count);
            // On the first line of the foot, which leaves room for it.
            page.text(
                (wide - margin, top + FOOT * self.hand.body + soft.size),
                &words,
                soft.anchored(Anchor::End),
            );
        }
        all
    }
}

/// Room between the line of the foot and its words, in sizes of the running type.
const FOOT: f64 = 0.45;

/// "code 7K2M9Q · 1 of 2".
fn number(sheet: &Sheet, page: usize, of: usize) -> String {
    format!("{} · {page} of {of}", sheet.tag)
}

/// The foot of each page: the caution, and room for code and page at its right.
fn foot(hand: &mut Hand, sheet: &Sheet, room: f64) -> Vec<Piece> {
    let soft = hand.soft();
    // As wide as with two figures.
    let right = hand.width(&number(sheet, 88, 88), soft);
    let mut all = vec![Piece { height: FOOT * hand.body, ..Piece::default() }];
    let beside = room - right - 2.0 * hand.body;
    let lines = hand.wrap(&[(sheet.foot.clone(), soft)], beside);
    all.extend(lines.into_iter().map(|line| Piece {
        height: 1.25 * soft.size,
        marks: texts(line, (0.0, soft.size)),
        ..Piece::default()
    }));
    all
}

/// Whether a block begins the second column: what is done stands there, what is needed in the first.
const fn second(part: Part) -> bool {
    matches!(part, Part::Steps | Part::Mishaps | Part::Readings | Part::Tasks | Part::Reason)
}

/// Whether a block stands in the first column.
const fn first(part: Part) -> bool {
    matches!(
        part,
        Part::Amounts
            | Part::Culture
            | Part::Kit
            | Part::Dose
            | Part::Hold
            | Part::Hours
            | Part::WentIn
            | Part::Souring
            | Part::Guess
            | Part::Change
            | Part::Happened
            | Part::Made
            | Part::Ahead
            | Part::Shopping
    )
}

/// The blocks as so many streams.
fn streams(hand: &mut Hand, sheet: &Sheet, room: f64, count: usize) -> Vec<Vec<Piece>> {
    let mut all: Vec<Vec<Piece>> = vec![Vec::new(); count];
    let mut free = Vec::new();
    let size = hand.size;
    for one in sheet.blocks.iter().filter(|one| size.shows(one.part)) {
        let pieces = block(hand, one, room);
        let beside = matches!(one.part, Part::Steps | Part::Happened);
        let chart = sheet.chart.as_ref().filter(|_| beside && size.shows(Part::Nutrition));
        let chart = chart.map(|one| chart::chart(hand, one, room));
        match (first(one.part), second(one.part)) {
            (true, _) => all[0].extend(pieces),
            (_, true) => all[count - 1].extend(pieces),
            _ => free.push(pieces),
        }
        free.extend(chart);
    }
    let last = count - 1;
    let seconds = parted(&all.iter().map(|pieces| height(pieces)).collect::<Vec<_>>(), &free);
    for (i, pieces) in free.into_iter().enumerate() {
        all[if seconds >> i & 1 == 1 { last } else { 0 }].extend(pieces);
    }
    all
}

/// Most blocks that are tried in either column; further ones go to the first.
const TRIED: usize = 10;

/// Which of the free blocks go to the second column, a bit each, so that the longer column is as short as can be.
fn parted(fixed: &[f64], free: &[Vec<Piece>]) -> usize {
    let [first, second] = fixed else { return 0 };
    let heights: Vec<f64> = free.iter().map(|pieces| height(pieces)).collect();
    let whole: f64 = heights.iter().sum();
    let longer = |bits: usize| {
        let there: f64 = heights.iter().enumerate().filter(|(i, _)| bits >> i & 1 == 1).map(|(_, h)| h).sum();
        (first + whole - there).max(second + there)
    };
    (0..1 << free.len().min(TRIED)).min_by(|a, b| longer(*a).total_cmp(&longer(*b))).unwrap_or(0)
}
