//! Amounts as people write them, "1½ tbsp" or "10 g/L", and back.

use std::sync::LazyLock;

use super::{Measure, SpoonSet};
use crate::lexicon::{self, Lexicon};
use crate::{Note, number};

/// An amount as typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A number alone: it is in the unit of its field.
    Plain(f64),
    /// So many for the whole design.
    Total(f64, Measure),
    /// So many to a litre.
    PerLitre(f64, Measure),
}

/// The text of the shipped spellings.
const TEXT: &str = include_str!("../../../assets/measure_words.ron");

/// Spellings of the measures, without "level" and "heaped".
static SPELLINGS: LazyLock<Lexicon<Measure>> = LazyLock::new(|| lexicon::shipped(TEXT));

/// Signs for parts of one.
const PARTS: [(char, f64); 9] = [
    ('¼', 0.25),
    ('½', 0.5),
    ('¾', 0.75),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('⅛', 0.125),
    ('⅜', 0.375),
    ('⅝', 0.625),
    ('⅞', 0.875),
];

/// Measures that a mend names.
const EXAMPLES: &str = "Type it like 12.7 g, 1½ tbsp, 2 heaped tsp, 250 mL, 1 knife tip or 10 g/L";

/// Reads an amount: number (point or comma, "1½", "1 1/2", "a"), then a measure, then perhaps "/L".
///
/// What stands in brackets at the end is taken for an explanation and left out.
///
/// # Errors
/// A note on `field` with the mend: no number, less than nothing, a comma that may part thousands, a word that is no
/// measure, or a measure that `set` does not have.
pub fn parse(field: &str, text: &str, set: SpoonSet) -> Result<Amount, Note> {
    let text = plain_text(text);
    let error = |title: String, mend: &str| Note {
        sentence: format!("You typed “{text}”"),
        ..Note::error(field, title, mend)
    };
    if text.is_empty() {
        return Err(Note::error(field, "Nothing was typed", EXAMPLES));
    }
    let (count, rest) = match leading_number(&text) {
        Ok(Some(found)) => found,
        Ok(None) => return Err(error("There is no number in the amount".to_owned(), EXAMPLES)),
        Err(title) => return Err(error(title.to_owned(), "Write 1.25 or 1250, and parts as 1/2 or ½")),
    };
    if count < 0.0 {
        return Err(error("An amount is not less than nothing".to_owned(), "Type 0 or more"));
    }
    let (unit, per_litre) = without_litre(rest.trim());
    if unit.is_empty() && !per_litre {
        return Ok(Amount::Plain(count));
    }
    let Some(measure) = measure(unit) else {
        return Err(Note::error(
            field,
            format!("I don't know “{}”", rest.trim()),
            "Try 800 mL or 12 g, or choose a measure under the amount",
        ));
    };
    if !measure.in_set(set) {
        let title = format!("The {} set has no {}", set.words(), measure.word(false));
        return Err(error(title, "Choose other spoons in Kitchen and settings, or type mL or g"));
    }
    Ok(if per_litre { Amount::PerLitre(count, measure) } else { Amount::Total(count, measure) })
}

/// The amount to six figures, quarters of household measures as signs; [`parse`] reads it back.
pub fn format(amount: Amount) -> String {
    amount.text(6)
}

impl Amount {
    /// The amount to so many significant figures.
    pub fn text(self, figures: usize) -> String {
        match self {
            Self::Plain(count) => count_text(count, figures, false),
            // A part of a packet is told as people share it out.
            Self::Total(count, Measure::Packet) if let Some(parts) = whole_parts(count) => {
                format!("1/{parts}{}packet", number::NBSP)
            }
            Self::Total(count, m) => {
                let number = count_text(count, figures, m.household());
                let several = number::figures(count, figures).parse().unwrap_or(count) > 1.0;
                format!("{number}{}{}", number::NBSP, m.word(several).replace(' ', "\u{a0}"))
            }
            Self::PerLitre(count, m) => format!("{}/L", Self::Total(count, m).text(figures)),
        }
    }
}

/// Into how many equal parts one is shared where this is one of them: a half to a twentieth.
fn whole_parts(count: f64) -> Option<u32> {
    (2..=20).find(|parts| (count * f64::from(*parts) - 1.0).abs() < 1e-6)
}

fn count_text(count: f64, figures: usize, in_quarters: bool) -> String {
    let text = number::figures(count, figures);
    // By what is printed, so that it is printed the same when it has been read back.
    let shown: f64 = text.parse().unwrap_or(count);
    let quarters = (shown * 4.0).round();
    // A third is told where it is just one: "⅓" is read back as that.
    let thirds = (count * 3.0).round();
    if in_quarters && thirds % 3.0 != 0.0 && thirds < 29.0 && (count * 3.0 - thirds).abs() < 1e-6 {
        return number::parts(count).0;
    }
    if in_quarters && (1.0..400.0).contains(&quarters) && (shown * 4.0 - quarters).abs() < 1e-9 {
        return number::quarters(quarters);
    }
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Lower case, one kind of space and minus, no bracket at the end, no full stop after a word.
fn plain_text(text: &str) -> String {
    let text: String = text
        .chars()
        .flat_map(char::to_lowercase)
        .map(|c| if matches!(c, '−' | '–') { '-' } else { c })
        .collect();
    let text = match text.rfind('(') {
        Some(at) if text.trim_end().ends_with(')') => &text[..at],
        _ => &text,
    };
    text.split_whitespace().collect::<Vec<_>>().join(" ").trim_end_matches('.').to_owned()
}

/// The number at the start and what follows it.
fn leading_number(text: &str) -> Result<Option<(f64, &str)>, &'static str> {
    if let Some(part) = part_in_words(text) {
        return Ok(Some(part));
    }
    for (word, value) in [("a ", 1.0), ("an ", 1.0), ("one ", 1.0)] {
        if let Some(rest) = text.strip_prefix(word) {
            return Ok(Some((value, rest)));
        }
    }
    let (number, rest) = digits(text);
    if number.is_empty() {
        return Ok(sign(text));
    }
    if let Some(below) = rest.strip_prefix('/')
        && below.starts_with(|c: char| c.is_ascii_digit())
    {
        return over(number, below).map(Some);
    }
    let mut rest = rest;
    let mut number = number.to_owned();
    // "1 000 g": a group of just three digits.
    while let Some(group) = rest
        .strip_prefix(' ')
        .map(digits)
        .filter(|(g, after)| g.len() == 3 && g.chars().all(|c| c.is_ascii_digit()) && !after.starts_with('/'))
    {
        number.push_str(group.0);
        rest = group.1;
    }
    let whole = number::parse(&number).ok_or("This number can be read in two ways, or in none")?;
    let part = rest.strip_prefix(' ').unwrap_or(rest);
    if let Some((part, after)) = sign(part) {
        return Ok(Some((whole + part, after)));
    }
    let (above, below) = digits(part);
    if let Some(below) = below.strip_prefix('/').filter(|_| !above.is_empty()) {
        let (part, after) = over(above, below)?;
        return Ok(Some((whole + part, after)));
    }
    Ok(Some((whole, rest)))
}

/// "a tenth of a packet", "half", "an eighth": the number, and the measure behind it.
fn part_in_words(text: &str) -> Option<(f64, &str)> {
    const WORDS: [(&str, f64); 7] = [
        ("half", 0.5),
        ("third", 1.0 / 3.0),
        ("quarter", 0.25),
        ("fifth", 0.2),
        ("sixth", 1.0 / 6.0),
        ("eighth", 0.125),
        ("tenth", 0.1),
    ];
    let text = ["a ", "an ", "one "].iter().find_map(|word| text.strip_prefix(word)).unwrap_or(text);
    let (value, rest) = WORDS.iter().find_map(|(word, value)| Some((*value, text.strip_prefix(word)?)))?;
    if !rest.is_empty() && !rest.starts_with(' ') {
        return None;
    }
    let of = [" of a ", " of an ", " of the ", " of one ", " a ", " an "];
    Some((value, of.iter().find_map(|word| rest.strip_prefix(word)).unwrap_or(rest)))
}

fn digits(text: &str) -> (&str, &str) {
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+')));
    text.split_at(end.unwrap_or(text.len()))
}

fn sign(text: &str) -> Option<(f64, &str)> {
    let first = text.chars().next()?;
    let (_, value) = PARTS.iter().find(|(c, _)| *c == first)?;
    Some((*value, &text[first.len_utf8()..]))
}

fn over<'a>(above: &str, below: &'a str) -> Result<(f64, &'a str), &'static str> {
    let (below, rest) = digits(below);
    let wrong = "This is not a part of one";
    let above: u32 = above.parse().map_err(|_| wrong)?;
    let below: u32 = below.parse().map_err(|_| wrong)?;
    if below == 0 { Err(wrong) } else { Ok((f64::from(above) / f64::from(below), rest)) }
}

/// Takes "/L", "per litre" or "a litre" off the end.
fn without_litre(text: &str) -> (&str, bool) {
    for litre in ["litre", "liter", "l"] {
        let Some(unit) = text.strip_suffix(litre) else { continue };
        for per in ["/", "per", " a"] {
            if let Some(unit) = unit.trim_end().strip_suffix(per) {
                return (unit.trim(), true);
            }
        }
    }
    (text, false)
}

fn measure(words: &str) -> Option<Measure> {
    let heaped = ["heaped ", "heaping "].iter().find_map(|word| words.strip_prefix(word));
    let name = heaped.or_else(|| words.strip_prefix("level ")).unwrap_or(words);
    let found = *SPELLINGS.get(name)?;
    if heaped.is_none() {
        return Some(found);
    }
    match found {
        Measure::Teaspoon => Some(Measure::HeapedTeaspoon),
        Measure::Dessertspoon => Some(Measure::HeapedDessertspoon),
        Measure::Tablespoon => Some(Measure::HeapedTablespoon),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shipped_spellings_are_read_strictly_and_counted() {
        let all: Lexicon<Measure> = lexicon::options().from_str(TEXT).unwrap();
        assert_eq!(all.iter().count(), 65);
        let twice = TEXT.replacen("\"lbs\"", "\"oz\"", 1);
        assert!(lexicon::options().from_str::<Lexicon<Measure>>(&twice).is_err());
    }

    #[test]
    fn parts_of_a_packet_are_read_and_said_as_people_share_it_out() {
        let packet = |text: &str| parse("culture", text, SpoonSet::Metric);
        for text in ["1/10 packet", "a tenth of a packet", "0.1 packets", "1/10 sachet"] {
            assert_eq!(packet(text).unwrap(), Amount::Total(0.1, Measure::Packet), "{text}");
        }
        assert_eq!(Amount::Total(0.1, Measure::Packet).text(3), "1/10\u{a0}packet");
        assert_eq!(Amount::Total(0.37, Measure::Packet).text(3), "0.37\u{a0}packet");
        assert_eq!(packet("half a cup").unwrap(), Amount::Total(0.5, Measure::Cup));
        assert!(packet("half-fat").is_err() && packet("tenths").is_err());
    }

    fn read(text: &str) -> Amount {
        parse("sugar", text, SpoonSet::Metric).unwrap()
    }

    #[test]
    fn amounts_are_read_as_people_write_them() {
        use Measure::{Cup, Gram, HeapedTeaspoon, KnifeTip, Litre, Millilitre, Pinch, Tablespoon, Teaspoon};
        assert_eq!(read("12.7 g"), Amount::Total(12.7, Gram));
        assert_eq!(read("1½ tbsp"), Amount::Total(1.5, Tablespoon));
        assert_eq!(read("2 heaped tsp"), Amount::Total(2.0, HeapedTeaspoon));
        assert_eq!(read("2 level Teaspoons"), Amount::Total(2.0, Teaspoon));
        assert_eq!(read("1 1/2 cups"), Amount::Total(1.5, Cup));
        assert_eq!(read("3/4 tsp."), Amount::Total(0.75, Teaspoon));
        assert_eq!(read("1 knife tip"), Amount::Total(1.0, KnifeTip));
        assert_eq!(read("a pinch"), Amount::Total(1.0, Pinch));
        assert_eq!(read("half a cup"), Amount::Total(0.5, Cup));
        assert_eq!(read("250 ml"), Amount::Total(250.0, Millilitre));
        assert_eq!(read("0,5 L"), Amount::Total(0.5, Litre));
        assert_eq!(read("0,025 g"), Amount::Total(0.025, Gram));
        assert_eq!(read("1 000 g"), Amount::Total(1000.0, Gram));
        assert_eq!(read("10 g/L"), Amount::PerLitre(10.0, Gram));
        assert_eq!(read("10 g per litre"), Amount::PerLitre(10.0, Gram));
        assert_eq!(read("1 tbsp a litre"), Amount::PerLitre(1.0, Tablespoon));
        assert_eq!(read("2 tbsp (15 mL)"), Amount::Total(2.0, Tablespoon));
        assert_eq!(read(" 17,5 "), Amount::Plain(17.5));
    }

    #[test]
    fn what_cannot_be_read_names_field_and_mend() {
        for (text, said) in [
            ("", "Nothing"),
            ("tbsp", "no number"),
            ("2 spoons", "I don't know"),
            ("2 heaped cups", "I don't know"),
            ("-1 g", "less than nothing"),
            ("1,250 g", "two ways"),
            ("1.2.3 g", "two ways"),
            ("1/0 tsp", "not a part"),
            ("1 pint", "has no pint"),
            ("5 /L", "I don't know"),
            ("5 g/kg", "I don't know"),
        ] {
            let note = parse("Sugar", text, SpoonSet::Metric).unwrap_err();
            assert_eq!(note.field, "Sugar");
            assert!(note.title.contains(said), "{text}: {note}");
            assert!(!note.mend.is_empty());
        }
        assert!(parse("Sugar", "1 pint", SpoonSet::Imperial).is_ok());
    }

    #[test]
    fn amounts_are_printed_in_quarters_where_they_are_some() {
        assert_eq!(format(Amount::Total(1.5, Measure::Tablespoon)), "1½\u{a0}tbsp");
        assert_eq!(format(Amount::Total(2.0, Measure::HeapedTeaspoon)), "2\u{a0}heaped\u{a0}tsp");
        assert_eq!(format(Amount::Total(1.5, Measure::Gram)), "1.5\u{a0}g");
        assert_eq!(format(Amount::Total(0.333, Measure::Cup)), "0.333\u{a0}cup");
        assert_eq!(format(Amount::Total(5.0 / 3.0, Measure::Cup)), "1⅔\u{a0}cups");
        assert_eq!(read("1⅔ cups"), Amount::Total(1.0 + 2.0 / 3.0, Measure::Cup));
        assert_eq!(format(Amount::PerLitre(10.0, Measure::Gram)), "10\u{a0}g/L");
        assert_eq!(format(Amount::Plain(0.0)), "0");
    }
}
