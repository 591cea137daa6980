//! Sentences that were written in °C, said as this kitchen says warmth: the pantry's, the program's own, and notes in designs.
//!
//! The text stays as it was written: "keep it at 80-85 °C". A number before "°C" is a warmth, and so is the one that a dash or
//! "to" joins to it. After "by" or "a jump of about", and before "warmer" or "cooler", it is a difference of two. Nothing else
//! is read: a "°C" without a number before it ("per °C") stays as it is. What comes out is whole.

use super::{APART, Degrees, Units, WARMTH, scale, speak, spoken};
use crate::number::{MINUS, NBSP, fixed, parse};

/// Words before a number that is a difference of two warmths, and those after it.
const DIFFERS: [&str; 3] = ["by", "by about", "a jump of about"];
const COMPARED: [&str; 2] = [" warmer", " cooler"];

/// The sentence with its warmths as they are said here.
pub fn prose(text: &str) -> String {
    match spoken().degrees {
        Degrees::Celsius => text.to_owned(),
        Degrees::Fahrenheit => turned(text, |_, said, _| said),
    }
}

/// The sentence with its warmths in both degrees, those that are said here first: "42 °C (108 °F)".
pub fn both(text: &str) -> String {
    let here = spoken();
    let _speaking = speak(Units { degrees: Degrees::Fahrenheit, ..here });
    let other = Degrees::Fahrenheit.words();
    // Who wrote it may have put the other degrees beside it.
    let stands = |after: &str| {
        after
            .strip_prefix(" (")
            .and_then(|rest| rest.split_once(')'))
            .is_some_and(|(beside, _)| beside.ends_with(other))
    };
    turned(text, |written, said, after| match here.degrees {
        _ if stands(after) => written.to_owned(),
        Degrees::Celsius => format!("{written} ({said})"),
        Degrees::Fahrenheit => format!("{said} ({written})"),
    })
}

/// The sentence with each warmth put in other words, from how it is written, how it is said here, and what stands after it.
fn turned(text: &str, words: impl Fn(&str, String, &str) -> String) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(WARMTH) {
        let (before, after) = (&rest[..at], &rest[at + WARMTH.len()..]);
        match warmths(before, after) {
            Some((lead, said)) => {
                out.push_str(lead);
                out.push_str(&words(&rest[lead.len()..at + WARMTH.len()], said, after));
            }
            None => {
                out.push_str(before);
                out.push_str(WARMTH);
            }
        }
        rest = after;
    }
    out + rest
}

/// What stands before the last number or two of a text, and those as they are said with their unit; nothing where no number
/// ends the text.
///
/// - `after` — what follows the unit.
fn warmths<'a>(text: &'a str, after: &str) -> Option<(&'a str, String)> {
    let spaced = text.trim_end_matches([' ', NBSP]);
    let space = &text[spaced.len()..];
    let (lead, high) = last_number(spaced)?;
    let (lead, low) = match joined(lead).and_then(|(lead, join)| Some((last_number(lead)?, join))) {
        Some(((lead, low), join)) => (lead, Some((low, join))),
        None => (lead, None),
    };
    let words = lead.trim_end();
    let apart = DIFFERS.iter().any(|word| words == *word || words.ends_with(&format!(" {word}")))
        || COMPARED.iter().any(|word| after.starts_with(word));
    let scale = scale(if apart { APART } else { WARMTH });
    let said = |c: f64| fixed(scale.shown(c), 0);
    let low = low.map_or_else(String::new, |(low, join)| format!("{}{join}", said(low)));
    Some((lead, format!("{low}{}{space}{}", said(high), scale.unit)))
}

/// The number at the end of a text, and what stands before it. A dash before it is a minus only where no number stands before
/// that.
fn last_number(text: &str) -> Option<(&str, f64)> {
    let start = text.rfind(|c: char| !(c.is_ascii_digit() || c == '.')).map_or(0, |at| at + 1);
    let start = (start..=text.len()).find(|at| text.is_char_boundary(*at))?;
    let value = parse(&text[start..])?;
    let before = &text[..start];
    let minus = ['-', MINUS].iter().find_map(|sign| before.strip_suffix(*sign));
    match minus.filter(|lead| !lead.ends_with(|c: char| c.is_ascii_digit())) {
        Some(lead) => Some((lead, -value)),
        None => Some((before, value)),
    }
}

/// What joins two numbers of a span, off the end of a text.
fn joined(text: &str) -> Option<(&str, &str)> {
    ["-", "–", " to ", " and "].into_iter().find_map(|join| Some((text.strip_suffix(join)?, join)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_degrees_stand_beside_each_other() {
        let text = "Warm to 42\u{a0}°C, never above 90-95 °C; cooler by 5 °C";
        assert_eq!(
            both(text),
            "Warm to 42\u{a0}°C (108\u{a0}°F), never above 90-95 °C (194-203 °F); cooler by 5 °C (9 °F)"
        );
        let _speaking = speak(Units { degrees: Degrees::Fahrenheit, ..Units::default() });
        assert_eq!(both("at 42 °C."), "at 108 °F (42 °C).");
        assert_eq!(both("per °C"), "per °C");
        assert_eq!(both("at 42 °C (108 °F)"), "at 42 °C (108 °F)");
    }

    #[test]
    fn a_sentence_in_celsius_is_said_in_fahrenheit() {
        let _speaking = speak(Units { degrees: Degrees::Fahrenheit, ..Units::default() });
        for (written, said) in [
            ("At 50 °C a culture stops", "At 122 °F a culture stops"),
            (
                "85 °C for 20 to 30 min, or 90-95 °C for 5 min",
                "185 °F for 20 to 30 min, or 194-203 °F for 5 min",
            ),
            ("Usual 37 to 43\u{a0}°C (common practice)", "Usual 99 to 109\u{a0}°F (common practice)"),
            ("from 32–45 °C down", "from 90–113 °F down"),
            ("Keep it frozen at -18 °C.", "Keep it frozen at 0 °F."),
            ("at \u{2212}40 °C", "at \u{2212}40 °F"),
            (
                "Glass bursts at a jump of about 50 °C (from memory).",
                "Glass bursts at a jump of about 90 °F (from memory).",
            ),
            ("cooler by 5 °C", "cooler by 9 °F"),
            ("cells are lost 10 °C warmer", "cells are lost 18 °F warmer"),
            ("it goes by 40 g, at 40 °C", "it goes by 40 g, at 104 °F"),
            ("loss per °C of over-heating", "loss per °C of over-heating"),
            ("37.5 °C", "100 °F"),
            ("no warmth at all", "no warmth at all"),
        ] {
            assert_eq!(prose(written), said);
        }
    }

    #[test]
    fn a_metric_kitchen_reads_what_was_written() {
        assert_eq!(prose("90-95 °C for 5 min"), "90-95 °C for 5 min");
    }
}
