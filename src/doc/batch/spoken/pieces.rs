//! The line of a reading cut into numbers and words, and the words that are known.

use std::sync::LazyLock;

use serde::Deserialize;

use potset_base::lexicon::{self, Lexicon};
use potset_base::number::MINUS;
use potset_base::words::{SweetWord, TangWord, TextureWord};

/// The text of the shipped words.
pub(super) const TEXT: &str = include_str!("../../../../assets/reading_words.ron");

/// What a word of the line means.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Word {
    /// It is passed over.
    Skip,
    What(What),
    Unit(Unit),
    /// Back from now.
    Ago,
    /// Before whey or the thin layer.
    None,
    Note,
    Photo,
    By,
    /// It was taken out of the warmth.
    Stopped,
    Tang(TangWord),
    Sweet(SweetWord),
    Texture(TextureWord),
}

/// What a number is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum What {
    Ph,
    Meter,
    Strip,
    Acidity,
    Warmth,
    Spread,
    ThinLayer,
    Whey,
}

/// The unit of a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Unit {
    Celsius,
    Fahrenheit,
    /// The kitchen's own.
    Degrees,
    Lactic,
    Dornic,
    SoxhletHenkel,
    Thorner,
    Millimetre,
    Centimetre,
    Inch,
    Minute,
    Hour,
    Day,
    Star,
}

static WORDS: LazyLock<Lexicon<Word>> = LazyLock::new(|| lexicon::shipped(TEXT));

/// Most pieces that make one word together.
const LONGEST: usize = 5;

/// A number or a word.
#[derive(Clone, Debug)]
pub(super) struct Piece<'a> {
    pub raw: &'a str,
    low: String,
    /// Where it stands in the line, bytes.
    pub at: usize,
    pub number: bool,
    /// Nothing stands between the piece before and this one.
    pub glued: bool,
}

impl Piece<'_> {
    pub const fn end(&self) -> usize {
        self.at + self.raw.len()
    }
}

/// Cuts a line.
pub(super) fn pieces(text: &str) -> Vec<Piece<'_>> {
    let mut out: Vec<Piece<'_>> = Vec::new();
    let mut at = 0;
    while at < text.len() {
        let rest = &text[at..];
        let long = number_length(rest);
        let (length, number) = if long > 0 { (long, true) } else { (word_length(rest), false) };
        if length == 0 {
            at += rest.chars().next().map_or(1, char::len_utf8);
            continue;
        }
        // The point of an abbreviation or of the end of a sentence.
        let raw = &rest[..length];
        let raw = if number { raw } else { raw.trim_end_matches('.') };
        let glued = out.last().is_some_and(|last| last.end() == at);
        if !raw.is_empty() {
            out.push(Piece { raw, low: raw.to_lowercase(), at, number, glued });
        }
        at += length;
    }
    out
}

/// Whether a sign is a digit or a part of one, "½".
const fn counts(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '¼' | '½' | '¾' | '⅓' | '⅔' | '⅛')
}

/// Length of the number that a text begins with: a sign, digits and parts, and points, commas, colons, dashes and strokes between
/// digits.
fn number_length(text: &str) -> usize {
    let sign = text.chars().next().filter(|c| matches!(*c, '+' | '-' | MINUS)).map_or(0, char::len_utf8);
    let mut end = sign;
    let mut signs = text[sign..].char_indices().peekable();
    while let Some((at, c)) = signs.next() {
        let between = matches!(c, '.' | ',' | ':' | '-' | '/')
            && at > 0
            && signs.peek().is_some_and(|(_, next)| next.is_ascii_digit());
        if !(counts(c) || between) {
            break;
        }
        end = sign + at + c.len_utf8();
    }
    if end > sign { end } else { 0 }
}

/// Length of the word that a text begins with. Signs that stand alone are words.
fn word_length(text: &str) -> usize {
    let part = |c: char| !c.is_whitespace() && !counts(c) && !matches!(c, ',' | ';' | '(' | ')');
    text.find(|c| !part(c)).unwrap_or(text.len())
}

/// The longest known word that begins at a piece: what it means, and how many pieces it takes.
pub(super) fn word_at(pieces: &[Piece<'_>], at: usize) -> Option<(Word, usize)> {
    let rest = pieces.get(at..)?;
    let most = rest.iter().take(LONGEST).take_while(|piece| !piece.number).count();
    (1..=most).rev().find_map(|n| {
        let words: Vec<&str> = rest[..n].iter().map(|piece| piece.low.as_str()).collect();
        WORDS.get(&words.join(" ")).map(|word| (*word, n))
    })
}

/// The known word that is nearest to one that is not known, if one is near.
pub(super) fn nearest(word: &str) -> Option<&'static str> {
    let low = word.to_lowercase();
    let long = low.chars().count();
    let far = WORDS.iter().filter(|(own, _)| own.chars().count() > 3).map(|(own, _)| (apart(&low, own), own));
    far.min_by_key(|(far, _)| *far).filter(|(far, _)| *far <= 2 && 2 * far < long).map(|(_, own)| own)
}

/// How many letters are to be put in, taken out or changed to make one word another.
fn apart(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let change = corner + usize::from(x != *y);
            corner = row[j + 1];
            row[j + 1] = change.min(corner + 1).min(row[j] + 1);
        }
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format;

    #[test]
    fn the_shipped_words_are_read_strictly_and_counted() {
        let all: Lexicon<Word> = format::asset(TEXT).unwrap();
        let meanings = |test: fn(&Word) -> bool| all.iter().filter(|(_, word)| test(word)).count();
        assert_eq!(all.iter().count(), 117);
        for word in TangWord::ALL.map(Word::Tang) {
            assert_eq!(meanings(|own| matches!(own, Word::Tang(_))), 5, "{word:?}");
            assert!(all.usual(&word).is_some());
        }
        for word in SweetWord::ALL {
            // What a reading is told by is read back.
            assert_eq!(all.get(word.word()), Some(&Word::Sweet(word)));
        }
        for word in TextureWord::ALL {
            assert_eq!(all.get(word.word()), Some(&Word::Texture(word)));
        }
        assert!(all.iter().all(|(own, _)| own == own.to_lowercase() && own.split(' ').count() <= LONGEST));
        let more = TEXT.replacen("(ago,", "(agone,", 1);
        assert!(format::asset::<Lexicon<Word>>(&more).is_err());
    }

    #[test]
    fn a_line_is_cut_into_numbers_and_words() {
        let cut = |text: &str| -> Vec<String> {
            pieces(text).iter().map(|p| format!("{}{}", if p.number { "#" } else { "" }, p.raw)).collect()
        };
        assert_eq!(cut("21:40, 4,9; 38°C bright."), ["#21:40", "#4,9", "#38", "°C", "bright"]);
        assert_eq!(cut("+6h30 2026-11-26 18:30"), ["#+6", "h", "#30", "#2026-11-26", "#18:30"]);
        assert_eq!(cut("  - 5. \u{a0}é"), ["-", "#5", "é"]);
        assert_eq!(cut(""), [""; 0]);
    }

    #[test]
    fn a_slip_of_the_hand_finds_its_word() {
        assert_eq!(nearest("brigth"), Some("bright"));
        assert_eq!(nearest("ribons"), Some("ribbons"));
        assert_eq!(nearest("foo"), None);
        assert_eq!(nearest("xxxxx"), None);
    }
}
