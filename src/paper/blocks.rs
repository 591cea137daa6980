//! The blocks of a sheet as pieces for a column.

use potset_base::palette::PRINT_SOFT;
use potset_export::layout::shared_room;
use potset_export::svg::Type;
use potset_report::card::{Block, Body, Line, Part, StepLine, Table};

use crate::piece::{Hand, Mark, Piece, Run, texts};

/// Width of a hairline, points.
pub const HAIR: f64 = 0.5;

/// Most lines of one row or step that stay together.
const TOGETHER: usize = 12;

/// A block with its title.
pub fn block(hand: &mut Hand, block: &Block, room: f64) -> Vec<Piece> {
    let mut all = title(hand, block.part.title(), room);
    all.extend(match &block.body {
        Body::Lines(lines) => {
            let set = if block.part == Part::Cautions { hand.small() } else { hand.ink() };
            lines.iter().flat_map(|one| line(hand, one, set, room)).collect::<Vec<_>>()
        }
        Body::Table(table) => rows(hand, table, room),
        Body::Steps(all) => steps(hand, all, room),
        Body::Room(count) => blank(hand, *count, room),
    });
    all
}

/// A title with a line above it; it stays with what comes after it.
pub fn title(hand: &mut Hand, words: &str, room: f64) -> Vec<Piece> {
    let set = hand.title();
    let down = 0.4 * hand.body;
    let rule = Mark::Line(vec![(0.0, 0.0), (room, 0.0)], set.color, 1.0, &[]);
    let lines = hand.wrap(&[(words.to_owned(), set)], room);
    let mut all = vec![Piece::space(0.6 * hand.body)];
    for (i, line) in lines.into_iter().enumerate() {
        let above = if i == 0 { down } else { 0.0 };
        let mut marks = texts(line, (0.0, above + set.size));
        if i == 0 {
            marks.push(rule.clone());
        }
        all.push(Piece { height: above + 1.35 * set.size, keep: true, marks, ..Piece::default() });
    }
    all
}

/// A paragraph: what it is about in strong type, the words, and their source.
fn line(hand: &mut Hand, line: &Line, set: Type, room: f64) -> Vec<Piece> {
    let mut runs: Vec<Run> = Vec::new();
    if !line.lead.is_empty() {
        runs.push((format!("{}.", line.lead.trim_end_matches('.')), set.bold()));
    }
    runs.push((line.words.clone(), set));
    if !line.source.is_empty() {
        runs.push((format!("({})", line.source), hand.soft()));
    }
    let mut all = hand.paragraph(&runs, (0.0, room));
    if let Some(last) = all.last_mut() {
        last.height += 0.3 * hand.body;
    }
    all
}

/// Lines to write on by hand.
fn blank(hand: &Hand, count: u8, room: f64) -> Vec<Piece> {
    let tall = WRITTEN.max(1.8 * hand.body);
    let rule = Mark::Line(vec![(0.0, tall), (room, tall)], PRINT_SOFT, HAIR, &[]);
    (0..count).map(|_| Piece { height: tall, marks: vec![rule.clone()], ..Piece::default() }).collect()
}

/// From one line of handwriting to the next, points. Source: common practice, ruled paper has 7 to 8 mm.
const WRITTEN: f64 = 21.0;

/// Numbered steps; when a step is stands where it is another time than that of the step before.
fn steps(hand: &mut Hand, steps: &[StepLine], room: f64) -> Vec<Piece> {
    let mut all = Vec::new();
    let mut last = "";
    for (i, one) in steps.iter().enumerate() {
        let when = if one.when == last { "" } else { one.when.as_str() };
        last = &one.when;
        all.extend(step(hand, (i + 1, when), one, room));
    }
    all
}

/// A step: when, what, and how one knows.
fn step(hand: &mut Hand, (number, when): (usize, &str), step: &StepLine, room: f64) -> Vec<Piece> {
    let bold = hand.ink().bold();
    let gutter = hand.width("00", bold) + 0.7 * hand.body;
    let runs = [(when.to_owned(), bold), (step.said.words.clone(), hand.ink())];
    let mut all = hand.paragraph(&runs, (gutter, room - gutter));
    if let Some(sign) = &step.sign {
        let runs = [("→".to_owned(), hand.soft()), (sign.words.clone(), hand.soft().italic())];
        all.extend(hand.paragraph(&runs, (gutter, room - gutter)));
    }
    let count = all.len();
    for piece in all.iter_mut().take(count - 1) {
        piece.keep |= count <= TOGETHER;
    }
    if let Some(first) = all.first_mut() {
        first.marks.push(Mark::Text((0.0, hand.body), number.to_string(), bold));
    }
    if let Some(last) = all.last_mut() {
        last.height += 0.3 * hand.body;
    }
    all
}

/// Widths of the columns of a table: the first has what the others leave, at least a third.
fn widths(hand: &mut Hand, table: &Table, room: f64, gap: f64) -> Vec<f64> {
    let count = table.rows.iter().chain([&table.head]).map(Vec::len).max().unwrap_or(1);
    let (ink, soft) = (hand.ink(), hand.soft());
    let mut wide = |k: usize| {
        let cells = table.rows.iter().filter_map(|row| row.get(k));
        let widest = cells.map(|cell| hand.width(cell, ink)).fold(0.0, f64::max);
        widest.max(table.head.get(k).map_or(0.0, |cell| hand.width(cell, soft)))
    };
    let others: Vec<f64> = (1..count).map(&mut wide).collect();
    let first = wide(0);
    let gaps = gap * (count - 1) as f64;
    let left = room - gaps - first.min(0.4 * room);
    let mut all = vec![0.0];
    // A little more than the widest, so that it does not turn over by a hair.
    all.extend(shared_room(&others.iter().map(|wide| wide + 0.5).collect::<Vec<_>>(), left));
    all[0] = room - gaps - all.iter().sum::<f64>();
    all
}

/// The rows of a table with lines between them, and what stands below it.
fn rows(hand: &mut Hand, table: &Table, room: f64) -> Vec<Piece> {
    let gap = 0.8 * hand.body;
    let widths = widths(hand, table, room, gap);
    let mut all = Vec::new();
    if table.head.iter().any(|cell| !cell.is_empty()) {
        let set = hand.soft();
        let mut head = row(hand, &table.head, &widths, gap, set);
        head.iter_mut().for_each(|piece| piece.keep = true);
        all.extend(head);
    }
    for cells in &table.rows {
        let set = hand.ink();
        let mut pieces = row(hand, cells, &widths, gap, set);
        if let Some(first) = pieces.first_mut() {
            first.marks.push(Mark::Line(vec![(0.0, 0.0), (room, 0.0)], PRINT_SOFT, HAIR, &[]));
        }
        all.extend(pieces);
    }
    if let Some(last) = all.last_mut().filter(|_| !table.below.is_empty()) {
        last.height += 0.4 * hand.body;
    }
    let set = hand.ink();
    all.extend(table.below.iter().flat_map(|one| line(hand, one, set, room)).collect::<Vec<_>>());
    all
}

/// One row, a piece for each line of its highest cell.
fn row(hand: &mut Hand, cells: &[String], widths: &[f64], gap: f64, set: Type) -> Vec<Piece> {
    let pad = 0.14 * hand.body;
    let mut pieces: Vec<Piece> = Vec::new();
    let mut left = 0.0;
    for (cell, wide) in cells.iter().zip(widths) {
        let lines = if cell.is_empty() { Vec::new() } else { hand.wrap(&[(cell.clone(), set)], *wide) };
        for (k, line) in lines.into_iter().enumerate() {
            if pieces.len() <= k {
                pieces.push(Piece { height: hand.line(), ..Piece::default() });
            }
            let above = if k == 0 { pad } else { 0.0 };
            pieces[k].marks.extend(texts(line, (left, above + hand.body)));
        }
        left += wide + gap;
    }
    let count = pieces.len();
    for (k, piece) in pieces.iter_mut().enumerate() {
        piece.keep = k + 1 < count && count <= TOGETHER;
        piece.height += if k == 0 { pad } else { 0.0 };
    }
    if let Some(last) = pieces.last_mut() {
        last.height += pad;
    }
    pieces
}
