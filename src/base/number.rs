//! Numbers in words and back: significant figures, fixed decimals, quarters, clock times, decimal comma.

use crate::units;

/// No-break space between a number and its unit.
pub const NBSP: char = '\u{a0}';

/// True minus sign.
pub const MINUS: char = '\u{2212}';

fn with_true_minus(text: &str) -> String {
    // "-0.0" rounds to nothing: show it without a sign.
    let digits = text.trim_start_matches('-');
    let nothing = digits.chars().all(|c| matches!(c, '0' | '.'));
    if text.starts_with('-') && !nothing { format!("{MINUS}{digits}") } else { digits.to_owned() }
}

/// Rounded half away from nought, as it is written: 3.25 becomes 3.3. The last binary digit does not decide, so the value is
/// moved by it, outwards, before it is printed.
fn rounded(value: f64, decimals: usize) -> String {
    let value = if value < 0.0 { value.next_down() } else { value.next_up() };
    format!("{value:.decimals$}")
}

/// A number with fixed decimals; an en dash for what is not a number.
pub fn fixed(value: f64, decimals: usize) -> String {
    if value.is_finite() { with_true_minus(&rounded(value, decimals)) } else { "–".to_owned() }
}

/// The shortest faithful form, for data and hovers: up to six significant figures, no trailing zeros.
pub fn plain(value: f64) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let size = value.abs();
    if size != 0.0 && !(1e-4..1e7).contains(&size) {
        return with_true_minus(&format!("{value:e}"));
    }
    let decimals = if size == 0.0 { 0 } else { decimals_for(size, 6) };
    let text = rounded(value, decimals);
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text };
    with_true_minus(&text)
}

/// A number to `figures` significant figures, without an exponent.
pub fn figures(value: f64, figures: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let decimals = if value == 0.0 { 0 } else { decimals_for(value.abs(), figures) };
    fixed(value, decimals)
}

/// A number to three figures; what is smaller than a thousandth only said to be so.
pub fn rough(value: f64) -> String {
    if value > 0.0 && value < 1e-3 { "under 0.001".to_owned() } else { figures(value, 3) }
}

fn decimals_for(size: f64, figures: usize) -> usize {
    let mut before = 1;
    let mut bound = 10.0;
    while size >= bound && before < 12 {
        before += 1;
        bound *= 10.0;
    }
    let mut lead = 0;
    let mut small = size;
    while small < 1.0 && lead < 12 {
        lead += 1;
        small *= 10.0;
    }
    if size >= 1.0 { figures.saturating_sub(before) } else { figures + lead - 1 }
}

/// A number with its unit, as it is said here ([`units::scale`]).
///
/// - `decimals` — in its own unit
pub fn with_unit(value: f64, decimals: usize, unit: &str) -> String {
    let scale = units::scale(unit);
    let text = fixed(scale.shown(value), scale.decimals(decimals));
    if unit.is_empty() { text } else { format!("{text}{NBSP}{}", scale.unit) }
}

/// Quarters as a mixed number: 6 quarters are "1½".
pub fn quarters(quarters: f64) -> String {
    let whole = (quarters / 4.0).floor();
    let part = ["", "¼", "½", "¾"];
    let rest = quarters - 4.0 * whole;
    let part = if rest < 0.5 {
        part[0]
    } else if rest < 1.5 {
        part[1]
    } else if rest < 2.5 {
        part[2]
    } else {
        part[3]
    };
    if whole > 0.0 { format!("{}{part}", fixed(whole, 0)) } else { part.to_owned() }
}

/// A count of cups or spoons as people measure it: to the nearest quarter or third, under a fifth to the nearest eighth, from
/// ten on whole. With the count that is then said.
pub fn parts(count: f64) -> (String, f64) {
    const PARTS: [(f64, &str); 7] =
        [(0.0, ""), (0.25, "¼"), (1.0 / 3.0, "⅓"), (0.5, "½"), (2.0 / 3.0, "⅔"), (0.75, "¾"), (1.0, "")];
    if count.is_nan() || count >= 9.9 {
        return (fixed(count, 0), count.round());
    }
    if count < 0.19 {
        return if count < 0.0625 { ("0".to_owned(), 0.0) } else { ("⅛".to_owned(), 0.125) };
    }
    let whole = count.floor();
    let off = |part: &f64| (count - whole - part).abs();
    let near = PARTS.into_iter().min_by(|(a, _), (b, _)| off(a).total_cmp(&off(b)));
    let (part, sign) = near.unwrap_or((0.0, ""));
    let whole = if part < 1.0 { whole } else { whole + 1.0 };
    let part = if part < 1.0 { part } else { 0.0 };
    let text = if whole > 0.0 { format!("{}{sign}", fixed(whole, 0)) } else { sign.to_owned() };
    (text, whole + part)
}

/// Hours as "9 h", "9 h 30 min" or "45 min".
pub fn hours(hours: f64) -> String {
    if !hours.is_finite() {
        return "–".to_owned();
    }
    let minutes = (hours.abs() * 60.0).round();
    let (whole, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
    let sign = if hours < 0.0 && minutes > 0.0 { MINUS.to_string() } else { String::new() };
    if whole < 1.0 {
        format!("{sign}{rest:.0}{NBSP}min")
    } else if rest < 1.0 {
        format!("{sign}{whole:.0}{NBSP}h")
    } else {
        format!("{sign}{whole:.0}{NBSP}h {rest:.0}{NBSP}min")
    }
}

/// Reads a number as typed: decimal point or comma, true minus, spaces and a trailing unit are accepted.
///
/// Returns `None` when there is no number, or when a comma could mean thousands: just three digits after it, and
/// before it something else than a lone nought ("1,250", but not "0,025").
pub fn parse(text: &str) -> Option<f64> {
    let text: String = text
        .trim()
        .chars()
        .filter(|c| !matches!(c, '\u{a0}' | '\u{202f}' | '\u{2009}' | ' ' | '_'))
        .map(|c| if c == MINUS { '-' } else { c })
        .collect();
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+')))
        .unwrap_or(text.len());
    let number = &text[..end];
    let number = match (number.find(','), number.find('.')) {
        (Some(_), Some(_)) => return None,
        (Some(at), None) => {
            let after = number.len() - at - 1;
            let thousands = after == 3 && number[..at].trim_start_matches(['-', '+']) != "0";
            if thousands || number.matches(',').count() > 1 {
                return None;
            }
            number.replace(',', ".")
        }
        _ => number.to_owned(),
    };
    number.parse::<f64>().ok().filter(|v| v.is_finite())
}

/// Round numbers within a span, at most about so many: ticks of an axis.
pub fn round_values((from, to): (f64, f64), about: f64) -> Vec<f64> {
    let raw = (to - from) / about.max(2.0);
    let power = 10_f64.powf(raw.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|m| m * power).find(|s| *s >= raw).unwrap_or(power);
    let first = (from / step - 1e-9).ceil();
    (0..200_u8).map(|k| (first + f64::from(k)) * step).take_while(|v| *v <= to + 1e-9 * step.abs()).collect()
}

/// Ticks of an axis in a unit: numbers that are round as they are said here, each with its text.
pub fn ticks((from, to): (f64, f64), about: f64, unit: &str) -> Vec<(f64, String)> {
    let scale = units::scale(unit);
    let shown = round_values((scale.shown(from), scale.shown(to)), about);
    shown.into_iter().map(|v| (scale.back(v), plain(v))).collect()
}

/// Reads a typed value as [`parse`] does, with nothing after it but its unit's own words, and gives it in its own unit.
///
/// A number alone is in the unit that is said here ([`units::scale`]). A warmth can be typed in °C and in °F everywhere. Any
/// other word is refused, so that a value in another unit is not taken for this one.
pub fn in_unit(text: &str, unit: &str) -> Option<f64> {
    let plain = |text: &str| -> String {
        (text.chars().filter(|sign| !sign.is_whitespace()))
            .map(|sign| match sign {
                '−' | '–' => '-',
                'μ' => 'µ',
                other => other,
            })
            .flat_map(char::to_lowercase)
            .collect()
    };
    let scale = units::scale(unit);
    let (text, said) = (plain(text), plain(scale.unit));
    let end = text
        .find(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '-' | '+' | '.' | ',')))
        .unwrap_or(text.len());
    let (number, words) = text.split_at(end);
    let bare = said.trim_start_matches('°');
    // How the unit of a culture was written before.
    let words = if words == "×packetrate" { "×packet" } else { words };
    let degrees = units::typed_degrees(words).and_then(|degrees| units::scale_in(unit, degrees));
    if !(words.is_empty() || words == bare || said.starts_with(words) || degrees.is_some()) {
        return None;
    }
    Some(degrees.unwrap_or(scale).back(parse(number)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dose_in_its_old_unit_is_still_read() {
        for text in ["1.5 × packet rate", "1.5 × packet", "1.5 ×", "1.5"] {
            assert_eq!(in_unit(text, "× packet"), Some(1.5), "{text}");
        }
    }

    #[test]
    fn shapes() {
        assert_eq!(fixed(-0.04, 1), "0.0");
        assert_eq!(fixed(-1.26, 1), "\u{2212}1.3");
        for (value, decimals, words) in [
            (3.25, 1, "3.3"),
            (21.25, 1, "21.3"),
            (0.15, 1, "0.2"),
            (2.5, 0, "3"),
            (-0.125, 2, "\u{2212}0.13"),
            (3.249, 1, "3.2"),
            (0.0, 1, "0.0"),
        ] {
            assert_eq!(fixed(value, decimals), words, "{value}");
        }
        assert_eq!(plain(0.0), "0");
        assert_eq!(fixed(f64::NAN, 1), "–");
        assert_eq!(plain(0.03), "0.03");
        assert_eq!(plain(5e5), "500000");
        assert_eq!(plain(3e9), "3e9");
        assert_eq!(figures(0.0347, 2), "0.035");
        assert_eq!(figures(1234.0, 2), "1234");
        assert_eq!(figures(5.678, 2), "5.7");
        assert_eq!(
            (rough(1e-6), rough(0.0), rough(0.25)),
            ("under 0.001".to_owned(), "0".to_owned(), "0.250".to_owned())
        );
        assert_eq!(quarters(6.0), "1½");
        assert_eq!(quarters(13.0), "3¼");
        assert_eq!(hours(9.5), "9\u{a0}h 30\u{a0}min");
        assert_eq!(hours(0.75), "45\u{a0}min");
    }

    #[test]
    fn cups_and_spoons_are_said_in_thirds_and_quarters() {
        for (count, words) in [
            (0.03, "0"),
            (0.1, "⅛"),
            (0.25, "¼"),
            (0.3, "⅓"),
            (0.34, "⅓"),
            (0.95, "1"),
            (1.69, "1⅔"),
            (3.381, "3⅓"),
            (4.23, "4¼"),
            (9.95, "10"),
            (12.4, "12"),
        ] {
            let (text, said) = parts(count);
            assert_eq!(text, words, "{count}");
            assert!((said - count).abs() <= 0.125 || count > 9.9, "{count} is said as {said}");
        }
    }

    #[test]
    fn typed_numbers() {
        assert_eq!(parse("12,5 g/L"), Some(12.5));
        assert_eq!(parse(" 12.5"), Some(12.5));
        assert_eq!(parse("\u{2212}3"), Some(-3.0));
        assert_eq!(parse("1,250"), None);
        assert_eq!(parse("0,025"), Some(0.025));
        assert_eq!(parse("1.250,5"), None);
        assert_eq!(parse("abc"), None);
        assert_eq!(parse("nan"), None);
    }

    #[test]
    fn what_is_printed_is_read_back() {
        for i in -2000..2000 {
            let value = f64::from(i) * 0.137;
            let text = fixed(value, 2);
            let back = parse(&text).unwrap();
            assert!((back - value).abs() <= 0.005 + 1e-9, "{text}");
        }
    }

    #[test]
    fn round_values_lie_within() {
        assert_eq!(round_values((6.0, 30.0), 5.0), [10.0, 15.0, 20.0, 25.0, 30.0]);
        assert_eq!(round_values((0.0, 1.0), 5.0), [0.0, 0.2, 0.4, 0.6000000000000001, 0.8, 1.0]);
        assert!(round_values((36.0, 36.4), 2.0).iter().all(|v| (36.0..=36.4).contains(v)));
    }
}
