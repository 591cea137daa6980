//! Additives by number and by name: those of the international numbering system (E numbers).

use super::vocabulary::vocabulary;

/// The usual name of a number.
pub fn name(number: u16) -> Option<&'static str> {
    vocabulary().additives.usual(&number)
}

/// The number of a name, which must be the whole name in lower case and British spelling.
pub fn number(name: &str) -> Option<u16> {
    vocabulary().additives.get(name).copied()
}

/// Reads "e202", "ins 211", "e 341(iii)", "e450i": the whole text must be one number.
pub fn code(text: &str) -> Option<u16> {
    let rest = text.strip_prefix("ins").or_else(|| text.strip_prefix('e'))?;
    bare(rest.trim_start_matches([' ', '-', '.', ':']))
}

/// Reads a bare number of an additive, "412" or "341(iii)".
pub fn bare(text: &str) -> Option<u16> {
    let digits = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let tail = text[digits..].trim_matches(|c| matches!(c, '(' | ')' | ' '));
    let known_tail =
        tail.len() <= 4 && (tail.len() <= 1 || tail.chars().all(|c| matches!(c, 'i' | 'v' | 'x')));
    let letters = tail.chars().all(|c| c.is_ascii_lowercase());
    if !(3..=4).contains(&digits) || !known_tail || !letters {
        return None;
    }
    let (least, most) = vocabulary().additive_numbers;
    text[..digits].parse().ok().filter(|n| (least..=most).contains(n))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_names() {
        for (text, want) in [
            ("e202", 202),
            ("ins 211", 211),
            ("e-412", 412),
            ("e341(iii)", 341),
            ("e450i", 450),
            ("e160a", 160),
        ] {
            assert_eq!(code(text), Some(want), "{text}");
        }
        for text in ["e", "extract", "e20", "e99999", "e2x02", "ins", "202"] {
            assert_eq!(code(text), None, "{text}");
        }
        assert_eq!(number("cellulose gum"), Some(466));
        assert_eq!(name(341), Some("calcium phosphate"));
    }
}
