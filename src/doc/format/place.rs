//! Where in a file's text a field stands.

/// A piece of the text that counts for where things stand; strings, numbers and comments are passed over.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Token<'a> {
    Open(char),
    Close,
    Comma,
    Colon,
    Word(&'a str),
    /// A string, a number or a stray sign.
    Other,
}

/// The line, from 1, on which a field such as `sugars[1].g_per_l` stands. Where the file leaves the field out, it is the
/// line of what would hold it. A file without an envelope is its own body. A name that is no field of the body itself, such as `vessel`, is looked for in all of it
/// but the snapshot of the pantry.
pub fn line_of(text: &str, field: &str) -> Option<usize> {
    let tokens = tokens(text);
    let start = tokens.iter().position(|(_, token)| *token == Token::Open('('))?;
    let body = key(&tokens, start, "body").unwrap_or(start);
    let mut found = None;
    let mut at = body;
    for part in field.split('.') {
        let (name, index) = match part.split_once('[') {
            Some((name, rest)) => (name, rest.trim_end_matches(']').parse::<usize>().ok()),
            None => (part, None),
        };
        let value = key(&tokens, at, name).or_else(|| (at == body).then(|| anywhere(&tokens, body, name))?);
        let Some(value) = value else { break };
        found = Some(value);
        let Some(next) = index.map_or(Some(value), |index| element(&tokens, value, index)) else { break };
        found = Some(next);
        at = next;
    }
    let (offset, _) = tokens.get(found?)?;
    Some(text[..*offset].matches('\n').count() + 1)
}

/// Where the value of a name begins that stands directly in the struct that begins at a place. A struct may have a name,
/// and one alone in brackets is passed through: `hold((hours: 24))`.
fn key(tokens: &[(usize, Token<'_>)], at: usize, name: &str) -> Option<usize> {
    let open = match (tokens.get(at)?.1, tokens.get(at + 1).map(|t| t.1)) {
        (Token::Open('('), _) => at,
        (Token::Word(_), Some(Token::Open('('))) => at + 1,
        _ => return None,
    };
    let directly = inside(tokens, open).find(|i| is_key(tokens, *i, name));
    directly.map(|i| i + 2).or_else(|| key(tokens, open + 1, name))
}

/// The first place in the body of `name:` or `name(`, but for the snapshot.
fn anywhere(tokens: &[(usize, Token<'_>)], body: usize, name: &str) -> Option<usize> {
    let snapshot = key(tokens, body, "snapshot");
    let past = snapshot.map(|open| open..=closing(tokens, open));
    let seen = |i: &usize| past.as_ref().is_none_or(|past| !past.contains(i));
    (body..tokens.len()).filter(seen).find_map(|i| match tokens[i].1 {
        Token::Word(word) if word == name => match tokens.get(i + 1)?.1 {
            Token::Colon => Some(i + 2),
            Token::Open(_) => Some(i),
            _ => None,
        },
        _ => None,
    })
}

/// Where an element of the list that begins at a place begins.
fn element(tokens: &[(usize, Token<'_>)], list: usize, index: usize) -> Option<usize> {
    if tokens.get(list)?.1 != Token::Open('[') {
        return None;
    }
    let starts = |i: &usize| *i == list + 1 || tokens[*i - 1].1 == Token::Comma;
    inside(tokens, list).filter(starts).nth(index)
}

fn is_key(tokens: &[(usize, Token<'_>)], at: usize, name: &str) -> bool {
    matches!(tokens[at].1, Token::Word(word) if word == name)
        && matches!(tokens.get(at + 1), Some((_, Token::Colon)))
        && at + 2 < tokens.len()
}

/// Where the brackets close that open at a place, or the last place of a torn text.
fn closing(tokens: &[(usize, Token<'_>)], open: usize) -> usize {
    let mut depth = 0_usize;
    let closes = |(_, token): &(usize, Token<'_>)| {
        match token {
            Token::Open(_) => depth += 1,
            Token::Close => depth = depth.saturating_sub(1),
            _ => {}
        }
        depth == 0
    };
    tokens[open..].iter().position(closes).map_or(tokens.len() - 1, |length| open + length)
}

/// The places directly in the brackets that open at a place; what nested brackets hold is passed over.
fn inside<'a>(tokens: &'a [(usize, Token<'a>)], open: usize) -> impl Iterator<Item = usize> + 'a {
    let mut depth = 1_usize;
    (open + 1..tokens.len())
        .map_while(move |i| {
            let level = depth;
            match tokens[i].1 {
                Token::Open(_) => depth += 1,
                Token::Close => depth -= 1,
                _ => {}
            }
            (depth > 0).then_some((i, level))
        })
        .filter_map(|(i, level)| (level == 1).then_some(i))
}

/// The pieces of a text with where each begins.
fn tokens(text: &str) -> Vec<(usize, Token<'_>)> {
    let bytes = text.as_bytes();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(byte) = bytes.get(at) {
        let rest = &text[at..];
        let (token, length) = match byte {
            b'(' | b'[' | b'{' => (Some(Token::Open(char::from(*byte))), 1),
            b')' | b']' | b'}' => (Some(Token::Close), 1),
            b',' => (Some(Token::Comma), 1),
            b':' => (Some(Token::Colon), 1),
            b'"' => (Some(Token::Other), string(rest)),
            b'r' if raw(rest).is_some() => (Some(Token::Other), raw(rest).unwrap_or(1)),
            b'/' if rest.starts_with("//") => (None, rest.find('\n').unwrap_or(rest.len())),
            b'/' if rest.starts_with("/*") => (None, rest.find("*/").map_or(rest.len(), |end| end + 2)),
            b if b.is_ascii_alphabetic() || *b == b'_' => {
                let end = rest.find(|c: char| !c.is_ascii_alphanumeric() && c != '_').unwrap_or(rest.len());
                (Some(Token::Word(&rest[..end])), end)
            }
            b if b.is_ascii_whitespace() => (None, 1),
            _ => (Some(Token::Other), rest.chars().next().map_or(1, char::len_utf8)),
        };
        found.extend(token.map(|token| (at, token)));
        at += length.max(1);
    }
    found
}

/// Length of the string that a text begins with.
fn string(rest: &str) -> usize {
    let mut escaped = false;
    for (i, c) in rest.char_indices().skip(1) {
        match c {
            '"' if !escaped => return i + 1,
            '\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    rest.len()
}

/// Length of the raw string that a text begins with, if it does: `r#"…"#`.
fn raw(rest: &str) -> Option<usize> {
    let hashes = rest[1..].bytes().take_while(|b| *b == b'#').count();
    let inner = rest[1 + hashes..].strip_prefix('"')?;
    let close = format!("\"{}", "#".repeat(hashes));
    let head = rest.len() - inner.len();
    Some(inner.find(&close).map_or(rest.len(), |end| head + end + close.len()))
}

#[cfg(test)]
mod tests {
    use super::line_of;

    /// A line for each number, so that a place can be read off.
    const TEXT: &str = r##"(
  format: "potset design", version: 1,
  body: (
    name: "x: \" sugars: [(",
    notes: r#"steps: [ " "#, // sugars: [
    bases: [(entry: "a",
      litres: 2.0,
      label: (fat: None)), (
      entry: "b")],
    sugars: [],
    steps: [ /* hold(hours: 1) */
      start(from_c: 20.0),
      culture_in,
      hold((
        set_c: 40,
        hours: 24,
        events: [(at_h: 3, what: set_to(c: 41)), (at_h: 5,
          what: stir)])),
    ],
    snapshot: (cultures: [(hold: 3, vessel: "no")]),
    pots: (
      vessel: "jar", count: 4)))
"##;

    #[test]
    fn a_field_is_found_by_its_names_and_numbers() {
        for (field, line) in [
            ("name", 4),
            ("bases", 6),
            ("bases[0].litres", 7),
            ("bases[0].label.fat", 8),
            ("bases[1].entry", 9),
            ("steps[0].from_c", 12),
            ("steps[1]", 13),
            ("steps[2].hours", 16),
            ("steps[2].events[1].at_h", 17),
            ("steps[2].events[1].what", 18),
            ("pots.vessel", 22),
        ] {
            assert_eq!(line_of(TEXT, field), Some(line), "{field}");
        }
    }

    #[test]
    fn what_is_left_out_is_told_by_what_would_hold_it() {
        for (field, line) in [("bases[1].label.sodium", 8), ("sugars[0].g_per_l", 10), ("steps[1].hours", 13)]
        {
            assert_eq!(line_of(TEXT, field), Some(line), "{field}");
        }
    }

    #[test]
    fn a_lone_name_is_looked_for_but_in_the_snapshot() {
        for (field, line) in
            [("vessel", Some(22)), ("hold.set_c", Some(15)), ("design", None), ("organism", None)]
        {
            assert_eq!(line_of(TEXT, field), line, "{field}");
        }
    }

    #[test]
    fn what_is_torn_is_no_trouble() {
        for end in (0..TEXT.len()).filter(|end| TEXT.is_char_boundary(*end)) {
            let _ = line_of(&TEXT[..end], "steps[2].events[1].at_h");
            let _ = line_of(&TEXT[end..], "bases[1].label.fat");
        }
        assert_eq!(line_of("", "name"), None);
    }
}
