//! Numbers of cells: the file's decimal sign is known, thousands may be parted, and a unit may follow. Quicker than
//! `potset_base::number::parse`, which reads what a person types and has to ask which sign is meant.

use potset_base::number::MINUS;

use crate::layout::Decimal;

/// A number and what stands after it, without blanks; nothing where the cell begins with no number or it has no end.
pub fn read(cell: &str, decimal: Decimal) -> Option<(f64, &str)> {
    match quick(cell, decimal) {
        Some(value) => Some((value, "")),
        None => thorough(cell, decimal),
    }
}

/// Digits with at most one decimal sign, and nothing else.
fn quick(cell: &str, decimal: Decimal) -> Option<f64> {
    let mut out = [0_u8; 24];
    let own = out.get_mut(..cell.len())?;
    let mut signs = 0;
    for (at, (byte, to)) in cell.bytes().zip(own.iter_mut()).enumerate() {
        *to = match (byte, decimal) {
            (b'0'..=b'9', _) => byte,
            (b'-', _) if at == 0 => byte,
            (b'.', Decimal::Point) | (b',', Decimal::Comma) => {
                signs += 1;
                b'.'
            }
            _ => return None,
        };
    }
    if signs > 1 {
        return None;
    }
    std::str::from_utf8(own).ok()?.parse().ok()
}

/// The same with a sign before it, parted thousands, an exponent, the other decimal sign, and a unit behind.
fn thorough(cell: &str, decimal: Decimal) -> Option<(f64, &str)> {
    let cell = cell.trim();
    let unsigned = cell.strip_prefix(['-', MINUS, '–']);
    let body = unsigned.or_else(|| cell.strip_prefix('+')).unwrap_or(cell);
    let mut end = extent(body);
    let mut text = digits(&body[..end], decimal)?;
    if let Some(power) = exponent(&body[end..]) {
        text.push_str(&body[end..end + power]);
        end += power;
    }
    let value = text.parse::<f64>().ok().filter(|value| value.is_finite())?;
    Some((if unsigned.is_some() { -value } else { value }, body[end..].trim()))
}

/// How far digits go, with the signs between two of them; a blank belongs to them only before three more.
fn extent(body: &str) -> usize {
    let mut end = 0;
    for (at, sign) in body.char_indices() {
        let after = &body[at + sign.len_utf8()..];
        let next = after.bytes().next().is_some_and(|byte| byte.is_ascii_digit());
        match sign {
            '0'..='9' => end = at + 1,
            '.' | ',' | '\'' | '’' if next => {}
            ' ' | '\u{a0}' | '\u{202f}' | '\u{2009}' if at > 0 && three(after) => {}
            _ => break,
        }
    }
    end
}

fn three(text: &str) -> bool {
    text.bytes().take_while(u8::is_ascii_digit).count() == 3
}

/// The number as Rust writes it: groups of three joined, the decimal sign a point.
fn digits(body: &str, decimal: Decimal) -> Option<String> {
    let first = body.find(|sign: char| !sign.is_ascii_digit());
    let Some(first) = first else { return (!body.is_empty()).then(|| body.to_owned()) };
    let last = body.rfind(|sign: char| !sign.is_ascii_digit())?;
    let sign = body[last..].chars().next()?;
    let own = match decimal {
        Decimal::Point => '.',
        Decimal::Comma => ',',
    };
    let after = &body[last + sign.len_utf8()..];
    let lone = first == last;
    let grouped = after.len() == 3 && (1..=3).contains(&first) && !body.starts_with('0');
    let parts = match sign {
        '.' | ',' if lone && sign != own && grouped => false,
        '.' | ',' => body.matches(sign).count() == 1,
        _ => false,
    };
    let whole = if parts { &body[..last] } else { body };
    let mut out = String::with_capacity(body.len());
    for (at, group) in whole.split(|sign: char| !sign.is_ascii_digit()).enumerate() {
        let fits = if at == 0 { first <= 3 || parts && lone } else { group.len() == 3 };
        if !fits {
            return None;
        }
        out.push_str(group);
    }
    if parts {
        out.push('.');
        out.push_str(after);
    }
    Some(out)
}

/// How long an exponent is at the start of a text.
fn exponent(text: &str) -> Option<usize> {
    let rest = text.strip_prefix(['e', 'E'])?;
    let digits = rest.strip_prefix(['-', '+']).unwrap_or(rest);
    let count = digits.bytes().take_while(u8::is_ascii_digit).count();
    (count > 0).then(|| 1 + rest.len() - digits.len() + count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_either_sign() {
        use Decimal::{Comma, Point};
        for (cell, decimal, found) in [
            ("41.2", Point, Some((41.2, ""))),
            ("41,2", Comma, Some((41.2, ""))),
            // The other sign, where it can only be one.
            ("41,2", Point, Some((41.2, ""))),
            ("41.25", Comma, Some((41.25, ""))),
            ("0,125", Point, Some((0.125, ""))),
            // Three digits behind the other sign are thousands.
            ("1,250", Point, Some((1250.0, ""))),
            ("1.250", Comma, Some((1250.0, ""))),
            ("1.250", Point, Some((1.25, ""))),
            ("1,234,567.5", Point, Some((1_234_567.5, ""))),
            ("1.234.567,5", Comma, Some((1_234_567.5, ""))),
            ("1 234,5", Comma, Some((1234.5, ""))),
            ("1'234.5", Point, Some((1234.5, ""))),
            ("-0.5", Point, Some((-0.5, ""))),
            ("\u{2212}3", Point, Some((-3.0, ""))),
            ("+7", Point, Some((7.0, ""))),
            (".5", Point, Some((0.5, ""))),
            ("4.", Point, Some((4.0, ""))),
            ("4.12e1", Point, Some((41.2, ""))),
            ("41.2 °C", Point, Some((41.2, "°C"))),
            ("41,2°C", Comma, Some((41.2, "°C"))),
            ("106 F", Point, Some((106.0, "F"))),
            ("5min", Point, Some((5.0, "min"))),
            ("1e999", Point, None),
            ("30.11.2026", Point, None),
            ("12,34,567", Point, None),
            ("---", Point, None),
            ("-", Point, None),
            (".", Point, None),
            ("", Point, None),
            ("NaN", Point, None),
            ("inf", Point, None),
            ("ERR", Point, None),
        ] {
            assert_eq!(read(cell, decimal), found, "{cell} {decimal:?}");
        }
    }

    #[test]
    fn the_quick_way_and_the_thorough_one_agree() {
        for cell in ["0", "41", "41.2", "-127", "-0.5", "1764527400", "4.0000", "007.5"] {
            let quick = quick(cell, Decimal::Point);
            assert_eq!(thorough(cell, Decimal::Point).map(|(value, _)| value), quick, "{cell}");
        }
    }
}
