//! From a line to its cells, with and without quotation marks.

use std::borrow::Cow;

use crate::layout::Delimiter;

/// Most cells of a line; what stands behind them is one cell more.
const MOST: usize = 2000;

/// The cells of a line, each without the blanks around it.
///
/// A cell that begins with a quotation mark ends with the next one before a delimiter; two of them stand for one. A mark that
/// is never closed is read as a sign like any other.
pub fn split<'a>(line: &'a str, delimiter: Delimiter, out: &mut Vec<Cow<'a, str>>) {
    out.clear();
    let sign = delimiter.sign();
    let blanks = delimiter == Delimiter::Space;
    let mut rest = line;
    loop {
        if blanks {
            rest = rest.trim_start();
            if rest.is_empty() {
                return;
            }
        }
        let (cell, after) = match quoted(rest, sign) {
            Some(found) => found,
            None => match rest.split_once(sign) {
                Some((cell, after)) => (Cow::Borrowed(cell.trim()), Some(after)),
                None => (Cow::Borrowed(rest.trim()), None),
            },
        };
        out.push(cell);
        if out.len() == MOST {
            out.extend(after.map(|rest| Cow::Borrowed(rest.trim())));
            return;
        }
        let Some(after) = after else { return };
        rest = after;
    }
}

/// A quoted cell and what stands after its delimiter; nothing where the text begins without a mark or it is never closed.
fn quoted(text: &str, sign: char) -> Option<(Cow<'_, str>, Option<&str>)> {
    let inner = text.trim_start_matches(|c: char| c == ' ' && c != sign).strip_prefix('"')?;
    let mut from = 0;
    let mut doubled = false;
    loop {
        let end = from + inner[from..].find('"')?;
        let after = &inner[end + 1..];
        if after.starts_with('"') {
            doubled = true;
            from = end + 2;
            continue;
        }
        let behind = after.trim_start_matches(|c: char| c == ' ' && c != sign);
        let after = if behind.is_empty() { None } else { Some(behind.strip_prefix(sign)?) };
        let cell = inner[..end].trim();
        let cell = if doubled { Cow::Owned(cell.replace("\"\"", "\"")) } else { Cow::Borrowed(cell) };
        return Some((cell, after));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(line: &str, delimiter: Delimiter) -> Vec<String> {
        let mut out = Vec::new();
        split(line, delimiter, &mut out);
        out.into_iter().map(Cow::into_owned).collect()
    }

    #[test]
    fn cells_are_parted_with_and_without_marks() {
        let comma = Delimiter::Comma;
        assert_eq!(cells("a, b ,c", comma), ["a", "b", "c"]);
        assert_eq!(cells("a,,", comma), ["a", "", ""]);
        assert_eq!(cells("", comma), [""]);
        assert_eq!(cells(r#""41,2", "say ""hot""" ,x"#, comma), ["41,2", "say \"hot\"", "x"]);
        assert_eq!(cells(r#""41,2"#, comma), ["\"41", "2"]);
        assert_eq!(cells(r#"5" probe,2"#, comma), ["5\" probe", "2"]);
        assert_eq!(cells(r#""a"b,2"#, comma), ["\"a\"b", "2"]);
        assert_eq!(cells("\t41\t", Delimiter::Tab), ["", "41", ""]);
        assert_eq!(cells("  a   b ", Delimiter::Space), ["a", "b"]);
        assert_eq!(cells("\"a b\" c", Delimiter::Space), ["a b", "c"]);
        assert_eq!(cells("a#b", Delimiter::Other('#')), ["a", "b"]);
        assert_eq!(cells(&",".repeat(9000), comma).len(), MOST + 1);
    }
}
