//! A list of ingredients taken apart at its commas and brackets.

use super::vocabulary::vocabulary;

/// A character with the line that it stands on.
pub type Lettered = (char, usize);

/// One entry between two commas: the words outside its brackets, and what each bracket holds.
#[derive(Clone, Debug, Default)]
pub struct Piece {
    pub text: String,
    pub groups: Vec<Vec<Lettered>>,
    pub line: usize,
    /// The sign that ended it.
    pub ended_by: char,
}

/// Brackets inside brackets that are followed; deeper ones count as commas.
pub const DEEPEST: usize = 6;

/// Takes a list apart. Returns the pieces and whether all brackets closed.
pub fn pieces(list: &[Lettered], depth: usize, keeps_colon: &dyn Fn(&str) -> bool) -> (Vec<Piece>, bool) {
    let mut all = Vec::new();
    let mut piece = Piece::default();
    let mut closed = true;
    let mut at = 0;
    while let Some(&(c, line)) = list.get(at) {
        if piece.line == 0 && !c.is_whitespace() {
            piece.line = line;
        }
        match c {
            '(' | '[' | '{' if depth < DEEPEST => {
                let end = closing(list, at);
                closed &= end.is_some();
                let end = end.unwrap_or(list.len());
                piece.groups.push(list[at + 1..end].to_vec());
                piece.text.push(' ');
                at = end;
            }
            ')' | ']' | '}' => {
                // Closed more often than opened.
                closed &= depth >= DEEPEST;
                end(&mut all, &mut piece, ',');
            }
            '(' | '[' | '{' | ';' | '•' | '·' | '|' => end(&mut all, &mut piece, c),
            ',' | '.' if !between_digits(list, at) && (c == ',' || !abbreviates(&piece.text)) => {
                end(&mut all, &mut piece, c);
            }
            ':' if !keeps_colon(piece.text.trim()) => end(&mut all, &mut piece, c),
            '&' => end(&mut all, &mut piece, c),
            ' ' if joins(list, at, &piece.text) => {
                end(&mut all, &mut piece, '&');
                at += 4;
            }
            c => piece.text.push(c),
        }
        at += 1;
    }
    end(&mut all, &mut piece, ',');
    (all, closed)
}

fn end(all: &mut Vec<Piece>, piece: &mut Piece, by: char) {
    let mut done = std::mem::take(piece);
    done.ended_by = by;
    if !done.text.trim().is_empty() || !done.groups.is_empty() {
        all.push(done);
    }
}

/// Where the bracket at `from` closes, whatever its shape.
fn closing(list: &[Lettered], from: usize) -> Option<usize> {
    let mut depth = 0_usize;
    for (at, (c, _)) in list.iter().enumerate().skip(from) {
        match c {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => {
                depth -= 1;
                if depth == 0 {
                    return Some(at);
                }
            }
            _ => {}
        }
    }
    None
}

fn between_digits(list: &[Lettered], at: usize) -> bool {
    let digit = |i: usize| list.get(i).is_some_and(|(c, _)| c.is_ascii_digit());
    at > 0 && digit(at - 1) && digit(at + 1)
}

/// "min. 60 %", "approx. 5 %": a point that ends no piece.
fn abbreviates(text: &str) -> bool {
    text.split_whitespace().last().is_some_and(|word| vocabulary().shortened.has(word))
}

/// " and " between two names; not in "mono- and diglycerides".
fn joins(list: &[Lettered], at: usize, before: &str) -> bool {
    let matches =
        " and ".chars().enumerate().all(|(i, c)| list.get(at + i).is_some_and(|(have, _)| *have == c));
    matches
        && !before.ends_with('-')
        && !before.trim().is_empty()
        && before.split_whitespace().last() != Some("mono")
}
