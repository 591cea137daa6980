//! A line as words, numbers and signs; numbers as labels write them.

/// A piece of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Token {
    pub kind: Kind,
    /// Nothing stands between this token and the one before it.
    pub glued: bool,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// In lower case.
    Word(String),
    /// Digits with points and commas, not yet a value: what they mean hangs on the unit.
    Number(String),
    Sign(char),
}

/// A line with odd blanks, dashes and marks made plain. Doing it twice changes nothing.
pub fn clean(raw: &str) -> String {
    let plain: String = raw
        .chars()
        .filter(|c| !matches!(c, '\u{200b}'..='\u{200d}' | '\u{feff}' | '\u{ad}'))
        .map(|c| match c {
            c if c.is_whitespace() || c.is_control() => ' ',
            '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
            '\u{2018}' | '\u{2019}' => '\'',
            '\u{201c}' | '\u{201d}' => '"',
            '≤' => '<',
            'μ' => 'µ',
            c => c,
        })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Takes a clean line apart.
pub fn tokens(line: &str) -> Vec<Token> {
    let chars: Vec<char> = line.to_lowercase().chars().collect();
    let mut all = Vec::new();
    let mut at = 0;
    let mut glued = false;
    while at < chars.len() {
        let c = chars[at];
        if c.is_whitespace() {
            (at, glued) = (at + 1, false);
            continue;
        }
        let from = at;
        let kind = if c.is_ascii_digit() {
            at = end_of_number(&chars, at);
            Kind::Number(chars[from..at].iter().collect())
        } else if c.is_alphabetic() || c == 'µ' {
            while at < chars.len() && (chars[at].is_alphabetic() || chars[at] == '\'') {
                at += 1;
            }
            at = at.max(from + 1);
            Kind::Word(chars[from..at].iter().collect())
        } else {
            at += 1;
            Kind::Sign(c)
        };
        all.push(Token { kind, glued: glued && from > 0 });
        glued = true;
    }
    all
}

/// Where the digits end; a point or comma belongs to them if a digit follows.
fn end_of_number(chars: &[char], from: usize) -> usize {
    let digit = |at: usize| chars.get(at).is_some_and(char::is_ascii_digit);
    let mut at = from;
    while digit(at) || (matches!(chars.get(at), Some('.' | ',')) && digit(at + 1)) {
        at += 1;
    }
    at
}

/// How a comma or point with three digits behind it is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thousands {
    /// Grams per 100 g never reach a thousand: always a decimal sign.
    Never,
    /// Milligrams: a comma sets off thousands, a point does not.
    Comma,
    /// Energy: either sets off thousands.
    Either,
}

/// The value of digits. A leading nought makes the sign a decimal one in any case ("0,125").
pub fn value(digits: &str, thousands: Thousands) -> Option<f64> {
    let marks: Vec<(usize, char)> = digits.char_indices().filter(|(_, c)| matches!(c, '.' | ',')).collect();
    let grouped = |text: &str, sign: char| {
        let mut groups = text.split(sign);
        let first = groups.next().unwrap_or_default();
        (1..=3).contains(&first.len()) && !first.starts_with('0') && groups.all(|g| g.len() == 3)
    };
    let plain = match marks.as_slice() {
        [] => digits.to_owned(),
        [(_, sign)] => {
            let sets_off = match thousands {
                Thousands::Never => false,
                Thousands::Comma => *sign == ',',
                Thousands::Either => true,
            };
            if sets_off && grouped(digits, *sign) {
                digits.replace(*sign, "")
            } else {
                digits.replace(',', ".")
            }
        }
        [.., (_, before), (last, sign)] if before != sign => {
            // "1.250,5": the last sign is the decimal one, the others set off thousands.
            let (whole, part) = digits.split_at(*last);
            if whole.contains(*sign) || !grouped(whole, *before) {
                return None;
            }
            format!("{}.{}", whole.replace(*before, ""), &part[1..])
        }
        [(_, sign), ..] => {
            if thousands == Thousands::Never || !grouped(digits, *sign) {
                return None;
            }
            digits.replace(*sign, "")
        }
    };
    plain.parse::<f64>().ok().filter(|v| v.is_finite() && *v <= 1e6)
}

/// The words of a line, for a match by whole words.
pub fn words(line: &str) -> Vec<String> {
    tokens(line).into_iter().filter_map(|t| if let Kind::Word(w) = t.kind { Some(w) } else { None }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_labels() {
        for (text, thousands, want) in [
            ("21,3", Thousands::Never, Some(21.3)),
            ("0,125", Thousands::Comma, Some(0.125)),
            ("1,250", Thousands::Comma, Some(1250.0)),
            ("1,250", Thousands::Never, Some(1.25)),
            ("1.250", Thousands::Comma, Some(1.25)),
            ("1.250", Thousands::Either, Some(1250.0)),
            ("1.250,5", Thousands::Either, Some(1250.5)),
            ("1,250.5", Thousands::Comma, Some(1250.5)),
            ("1.2.3", Thousands::Never, None),
            ("99999999", Thousands::Never, None),
        ] {
            assert_eq!(value(text, thousands), want, "{text} {thousands:?}");
        }
    }

    #[test]
    fn a_line_comes_apart() {
        let kinds: Vec<Kind> = tokens("Fat 12g15%").into_iter().map(|t| t.kind).collect();
        let word = |w: &str| Kind::Word(w.to_owned());
        let number = |n: &str| Kind::Number(n.to_owned());
        assert_eq!(kinds, [word("fat"), number("12"), word("g"), number("15"), Kind::Sign('%')]);
        assert_eq!(clean(" Fat\u{a0}\u{2013}\t1\u{200b}2 g "), "Fat - 12 g");
    }
}
