//! Values as they are typed and shown: number, no-break space, unit. What cannot be taken is told, never bent into shape.

use std::ops::RangeInclusive;

use egui::{Context, Id};

use crate::theme;
use potset_base::Note;
use potset_base::number::in_unit;
use potset_base::units;

/// The unit after a no-break space; a percent sign and words alike.
pub fn spaced(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!("\u{a0}{}", unit.replace(' ', "\u{a0}")) }
}

/// Reads a typed value within a range; value and range are in the unit's own numbers, whatever is said here.
///
/// # Errors
/// A note on `name` where it is no number of this unit, or outside of the range.
pub fn read(
    name: &str,
    text: &str,
    unit: &str,
    range: &RangeInclusive<f64>,
    decimals: usize,
) -> Result<f64, Note> {
    let (low, high) = (*range.start(), *range.end());
    let scale = units::scale(unit);
    let plain = |v: f64| {
        format!("{}{}", theme::number(scale.shown(v), 0..=scale.decimals(decimals)), spaced(scale.unit))
    };
    let mend = format!("Give {} to {}", plain(low), plain(high));
    let Some(value) = in_unit(text, unit) else {
        let unit = scale.unit;
        let unit = if unit.is_empty() { "a number".to_owned() } else { format!("a number in {unit}") };
        return Err(Note::error(name, format!("“{}” is not {unit}", text.trim()), mend));
    };
    if range.contains(&value) {
        return Ok(value);
    }
    let way = if value > high { "more" } else { "less" };
    Err(Note::error(name, format!("{} is {way} than allowed", plain(value)), mend))
}

fn place() -> Id {
    Id::unique("refused")
}

/// Tells why something typed was not taken; the shell shows it.
pub fn refuse(ctx: &Context, note: Note) {
    ctx.data_mut(|d| d.insert_temp(place(), Some(note)));
}

/// What was refused since it was asked last.
pub fn refused(ctx: &Context) -> Option<Note> {
    ctx.data_mut(|d| d.remove_temp::<Option<Note>>(place())).flatten()
}

/// As [`in_unit`], and numbers with a power of ten as well: "3e9", "3·10⁹". A cited figure is shown and typed in its own unit,
/// as its source gives it, in every kitchen.
pub fn parse_any(text: &str, unit: &str) -> Option<f64> {
    let _own = units::speak(units::Units::default());
    let plain: String = (text.chars().filter(|sign| !sign.is_whitespace()))
        .map(|sign| match sign {
            '−' | '–' | '⁻' => '-',
            ',' => '.',
            other => {
                let raised = "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().position(|r| r == other);
                raised
                    .and_then(|d| u32::try_from(d).ok())
                    .and_then(|d| char::from_digit(d, 10))
                    .unwrap_or(other)
            }
        })
        .collect();
    let unit_there: String = unit.chars().filter(|sign| !sign.is_whitespace()).collect();
    let bare = plain.strip_suffix(unit_there.as_str()).unwrap_or(&plain);
    let (size, power) = bare.split_once("·10").or_else(|| bare.split_once('e')).unwrap_or(("", ""));
    let powered = (!size.is_empty()).then(|| format!("{size}e{power}").parse::<f64>().ok()).flatten();
    powered.filter(|v| v.is_finite()).or_else(|| in_unit(text, unit))
}

/// A name with its unit, for a field: "fat, g/100 g".
pub fn named(name: &str, unit: &str) -> String {
    if unit.is_empty() { name.to_owned() } else { format!("{name}, {unit}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_of_ten_are_read() {
        assert_eq!(parse_any("3e9", "cfu/g"), Some(3e9));
        assert_eq!(parse_any("3·10⁹ cfu/g", "cfu/g"), Some(3e9));
        assert_eq!(parse_any("2,5e−4", ""), Some(2.5e-4));
        assert_eq!(parse_any("2·10⁻⁴", ""), Some(2e-4));
        assert_eq!(parse_any("17,5 g/100 g", "g/100 g"), Some(17.5));
        assert_eq!(parse_any("e9", ""), None);
        assert_eq!(parse_any("a lot", "g"), None);
    }

    #[test]
    fn typed_values_are_read_as_people_write_them() {
        assert_eq!(in_unit("12,5", "g/L"), Some(12.5));
        assert_eq!(in_unit(" −4.5\u{a0}°C", "°C"), Some(-4.5));
        assert_eq!(in_unit("40 c", "°C"), Some(40.0));
        assert_eq!(in_unit("16 g / L", "g/L"), Some(16.0));
        assert_eq!(in_unit("16 g", "g/L"), Some(16.0));
        assert_eq!(in_unit("3 tbsp", "g/L"), None);
        assert_eq!(in_unit("1.234,5", "g"), None);
        assert_eq!(in_unit("", "g"), None);
        assert_eq!(in_unit("nan", ""), None);
    }

    #[test]
    fn what_is_out_of_reach_or_no_number_is_refused_with_the_reach() {
        let read = |text: &str| read("Hold at", text, "°C", &(15.0..=60.0), 1);
        assert_eq!(read("41,5"), Ok(41.5));
        assert!(
            (read("104 F").unwrap() - 40.0).abs() < 1e-9 && (read("104 °F").unwrap() - 40.0).abs() < 1e-9
        );
        let hot = read("300").unwrap_err();
        assert_eq!((hot.field.as_str(), hot.title.contains("more than allowed")), ("Hold at", true));
        assert!(hot.mend.contains("15") && hot.mend.contains("60"));
        assert!(read("-3").unwrap_err().title.contains("less"));
        assert!(read("warm").unwrap_err().title.contains("“warm” is not a number in °C"));
    }

    #[test]
    fn a_kitchen_in_fahrenheit_types_and_is_answered_in_it() {
        let _speaking =
            units::speak(units::Units { degrees: units::Degrees::Fahrenheit, ..Default::default() });
        let read = |text: &str| read("Hold at", text, "°C", &(15.0..=60.0), 1);
        for (text, c) in [("104", 40.0), ("104 F", 40.0), ("40 C", 40.0), ("40 °C", 40.0), ("59", 15.0)] {
            assert_eq!(read(text), Ok(c), "{text}");
        }
        let cold = read("40").unwrap_err();
        assert!(cold.title.starts_with("40\u{a0}°F is less"), "{cold}");
        assert_eq!(cold.mend, "Give 59\u{a0}°F to 140\u{a0}°F");
        assert!(read("warm").unwrap_err().title.contains("not a number in °F"));
        assert_eq!(in_unit("1.8", units::APART), Some(1.0));
        assert_eq!(in_unit("1 C", units::APART), Some(1.0));
        assert_eq!(in_unit("12 F", "g/L"), None);
    }

    #[test]
    fn shown_values_are_read_back() {
        for unit in ["", "g/L", "°C", "× packet", "%", "µg"] {
            assert_eq!(in_unit(&format!("−4.5{}", spaced(unit)), unit), Some(-4.5), "{unit}");
        }
    }
}
