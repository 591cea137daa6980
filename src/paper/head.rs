//! The head of a sheet over the whole width: name, version and code, what speaks against the pot, and the large words.

use potset_export::svg::Type;
use potset_report::card::{Large, Sheet};

use crate::blocks::HAIR;
use crate::piece::{Hand, Mark, Piece, height, texts};
use crate::size::Size;
use potset_base::palette::PRINT;

/// How many times the running type a name is: the first that needs no more than two lines, else the last.
const NAMES: [f64; 4] = [2.4, 1.9, 1.5, 1.2];

/// The head as pieces.
pub fn head(hand: &mut Hand, sheet: &Sheet, room: f64) -> Vec<Piece> {
    let mut all = name(hand, sheet, room);
    if !sheet.first.is_empty() {
        let runs = [(sheet.first_sentence(), hand.ink().bold())];
        all.push(Piece::space(0.25 * hand.body));
        all.extend(hand.paragraph(&runs, (0.0, room)));
    }
    all.extend(large(hand, &sheet.large, room));
    all
}

/// The name, large, with version and code below it.
fn name(hand: &mut Hand, sheet: &Sheet, room: f64) -> Vec<Piece> {
    let mut found = Vec::new();
    let mut set = hand.ink();
    // A wall has other things to say in large letters.
    for times in NAMES.into_iter().skip(if hand.size == Size::Wall { 2 } else { 0 }) {
        set = Type::new(times * hand.body, PRINT).bold();
        found = hand.wrap(&[(sheet.name.clone(), set)], room);
        if found.len() <= 2 {
            break;
        }
    }
    let mut all: Vec<Piece> = Vec::new();
    for line in found {
        let marks = texts(line, (0.0, set.size));
        all.push(Piece { height: 1.2 * set.size, marks, ..Piece::default() });
    }
    let soft = hand.soft();
    let tag = hand.paragraph(&[(sheet.tag.clone(), soft)], (0.0, room));
    all.extend(tag);
    all
}

/// The large words side by side, under each other where the paper is narrow.
fn large(hand: &mut Hand, words: &[Large], room: f64) -> Vec<Piece> {
    let across = if hand.size == Size::A5 { 2 } else { 4 };
    let gap = 1.2 * hand.body;
    let mut all = Vec::new();
    for row in words.chunks(across) {
        let wide = (room - gap * (across - 1) as f64) / across as f64;
        let mut piece = Piece::default();
        for (k, one) in row.iter().enumerate() {
            let left = k as f64 * (wide + gap);
            let top = 0.7 * hand.body;
            let end = cell(hand, one, (left, top), wide, &mut piece);
            piece.marks.push(Mark::Line(
                vec![(left, 0.3 * hand.body), (left + wide, 0.3 * hand.body)],
                PRINT,
                HAIR,
                &[],
            ));
            piece.height = piece.height.max(end);
        }
        all.push(piece);
    }
    if height(&all) > 0.0 {
        all.push(Piece::space(0.4 * hand.body));
    }
    all
}

/// Draws one of the large words; gives where it ends.
fn cell(hand: &mut Hand, one: &Large, (left, top): (f64, f64), wide: f64, piece: &mut Piece) -> f64 {
    let soft = hand.soft();
    let word = Type::new(1.35 * hand.body, PRINT).bold();
    let mut y = top;
    // On a wall the word alone is read.
    let quiet = if hand.size == Size::Wall { "" } else { one.quiet.as_str() };
    for (words, set) in [(one.name, soft), (one.word.as_str(), word), (quiet, soft)] {
        if words.is_empty() {
            continue;
        }
        for line in hand.wrap(&[(words.to_owned(), set)], wide) {
            piece.marks.extend(texts(line, (left, y + set.size)));
            y += 1.25 * set.size;
        }
    }
    y
}
