//! From bytes to lines: UTF-8, UTF-16 either way round, with or without its mark, and Latin-1; lines that end by CR, LF or both.

use std::borrow::Cow;

/// Most of what is looked at to find out what the bytes are.
const LOOK: usize = 4096;

/// The text of a file. What is no UTF-8 is read sign by sign as Latin-1, so that one spoilt byte spoils its own line only.
pub fn decode(bytes: &[u8]) -> Cow<'_, str> {
    match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => plain(rest),
        [0xFF, 0xFE, rest @ ..] => Cow::Owned(wide(rest, u16::from_le_bytes)),
        [0xFE, 0xFF, rest @ ..] => Cow::Owned(wide(rest, u16::from_be_bytes)),
        // Letters and digits of UTF-16 have a zero in every other byte.
        _ => match zeros(&bytes[..bytes.len().min(LOOK)]) {
            (even, odd) if odd > 0.6 && even < 0.1 => Cow::Owned(wide(bytes, u16::from_le_bytes)),
            (even, odd) if even > 0.6 && odd < 0.1 => Cow::Owned(wide(bytes, u16::from_be_bytes)),
            _ => plain(bytes),
        },
    }
}

fn plain(bytes: &[u8]) -> Cow<'_, str> {
    if let Ok(text) = std::str::from_utf8(bytes) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(bytes.len());
    for chunk in bytes.utf8_chunks() {
        out.push_str(chunk.valid());
        out.extend(chunk.invalid().iter().map(|byte| char::from(*byte)));
    }
    Cow::Owned(out)
}

fn wide(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> String {
    let (pairs, rest) = bytes.as_chunks::<2>();
    let cut = (!rest.is_empty()).then_some(char::REPLACEMENT_CHARACTER);
    let signs = char::decode_utf16(pairs.iter().map(|pair| unit(*pair)));
    signs.map(|sign| sign.unwrap_or(char::REPLACEMENT_CHARACTER)).chain(cut).collect()
}

/// Shares of zeros among the bytes of even and of odd places.
fn zeros(bytes: &[u8]) -> (f64, f64) {
    let (pairs, _) = bytes.as_chunks::<2>();
    let share = |at: usize| {
        let zeros = pairs.iter().filter(|pair| pair[at] == 0).count();
        zeros as f64 / pairs.len().max(1) as f64
    };
    (share(0), share(1))
}

/// The lines of a text without their ends.
pub fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        if rest.is_empty() {
            return None;
        }
        let Some(end) = rest.bytes().position(|byte| matches!(byte, b'\n' | b'\r')) else {
            return Some(std::mem::take(&mut rest));
        };
        let line = &rest[..end];
        let both = rest[end..].starts_with("\r\n");
        rest = &rest[end + if both { 2 } else { 1 }..];
        Some(line)
    })
}

/// Signs that no text holds.
pub fn is_control(sign: char) -> bool {
    (sign < ' ' && sign != '\t') || matches!(sign, '\u{7f}' | char::REPLACEMENT_CHARACTER)
}

/// The first signs of a text, to be shown.
pub fn shortened(text: &str, most: usize) -> String {
    let shown = |sign: char| if is_control(sign) { char::REPLACEMENT_CHARACTER } else { sign };
    text.trim().chars().take(most).map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "Zeit;°C\r\n18:30;41,2\r\n";

    #[test]
    fn every_way_of_writing_gives_the_same_text() {
        let wide = |unit: fn(u16) -> [u8; 2], mark: &[u8]| -> Vec<u8> {
            mark.iter().copied().chain(TEXT.encode_utf16().flat_map(unit)).collect()
        };
        let latin: Vec<u8> = TEXT.chars().map(|sign| u8::try_from(u32::from(sign)).unwrap()).collect();
        for bytes in [
            TEXT.as_bytes().to_vec(),
            [&[0xEF, 0xBB, 0xBF], TEXT.as_bytes()].concat(),
            wide(u16::to_le_bytes, &[0xFF, 0xFE]),
            wide(u16::to_be_bytes, &[0xFE, 0xFF]),
            wide(u16::to_le_bytes, &[]),
            wide(u16::to_be_bytes, &[]),
            latin,
        ] {
            assert_eq!(decode(&bytes), TEXT);
        }
        assert_eq!(decode(&[0xFF, 0xFE, b'1', 0, b'2']), "1\u{FFFD}");
        assert_eq!(decode(b"40 \xB0C\n\xC2\xB0"), "40 °C\n°");
    }

    #[test]
    fn lines_end_by_any_mark() {
        let all = |text| lines(text).collect::<Vec<_>>();
        assert_eq!(all("a\nb\r\nc\rd"), ["a", "b", "c", "d"]);
        assert_eq!(all("a\n\nb\n"), ["a", "", "b"]);
        assert_eq!(all("\r\r\n"), ["", ""]);
        assert_eq!(all(""), [""; 0]);
    }
}
