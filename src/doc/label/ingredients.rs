//! Ingredients out of a list: percentages, roles, additives by number, brackets in brackets.

use std::collections::BTreeSet;

use super::pieces::{Lettered, Piece, pieces};
use super::roles::{role_at_start, role_of, spelled};
use super::tokens::{Thousands, value};
use super::vocabulary::vocabulary;
use super::{Ingredient, Role, additives};

/// Ingredients, and the lines on which something was not understood.
#[derive(Clone, Debug, Default)]
pub struct List {
    pub items: Vec<Ingredient>,
    pub doubtful: BTreeSet<usize>,
}

/// Reads a list. Its characters must be in lower case.
pub fn list(text: &[Lettered]) -> List {
    let mut out = List::default();
    out.items = items(text, 0, None, &mut out.doubtful);
    out
}

fn items(
    text: &[Lettered],
    depth: usize,
    outer: Option<Role>,
    doubtful: &mut BTreeSet<usize>,
) -> Vec<Ingredient> {
    let (all, closed) = pieces(text, depth, &|before| role_of(before).is_some());
    if !closed {
        doubtful.extend(text.first().map(|(_, line)| *line));
    }
    let mut out: Vec<Ingredient> = Vec::new();
    // "Emulsifiers: E435, E471": the role goes on over the additives behind it.
    let mut carried: Option<Role> = None;
    for piece in &all {
        let mut made = item(piece, depth, outer, doubtful);
        let opens = role_at_start(piece.text.trim()).filter(|(_, many, _)| *many && piece.text.contains(':'));
        if let Some((role, ..)) = opens {
            carried = Some(role);
        } else if made.iter().all(|i| i.number.is_some() && i.role.is_none()) {
            made.iter_mut().for_each(|i| i.role = carried);
        } else {
            carried = None;
        }
        if piece.ended_by == ';' {
            carried = None;
        }
        out.append(&mut made);
    }
    out
}

/// One piece as ingredients: several if it is a role with several things behind it.
fn item(piece: &Piece, depth: usize, outer: Option<Role>, doubtful: &mut BTreeSet<usize>) -> Vec<Ingredient> {
    let told = outside_brackets(&piece.text);
    let mut one = Ingredient { line: piece.line, percent: told.percent, ..Ingredient::default() };
    if !told.whole {
        doubtful.insert(piece.line);
    }
    let is_role = told.name.is_empty() && told.number.is_none();
    let mut inner_role = None;
    for group in &piece.groups {
        let words: String = group.iter().map(|(c, _)| *c).collect();
        let inner = outside_brackets(&words);
        if inner.only_percent {
            doubtful.extend(one.percent.filter(|p| Some(*p) != inner.percent).map(|_| piece.line));
            one.percent = one.percent.or(inner.percent);
        } else if let Some(role) = role_of(&spelled(words.trim())).filter(|_| !is_role) {
            inner_role = Some(role);
        } else if words.trim().is_empty() {
            // Nothing in it.
        } else {
            one.parts.extend(items(group, depth + 1, told.role.filter(|_| is_role), doubtful));
        }
    }
    one.role = inner_role.or(told.role).or(outer);
    if let [part] = one.parts.as_slice()
        && !is_role
        && part.percent.is_none()
        && part.role.is_some_and(|role| role.words() == part.name)
    {
        // "(stabiliser)" in other words.
        one.role = part.role;
        one.parts.clear();
    }
    (one.name, one.number) = (told.name, told.number);
    if one.name.is_empty() && one.role.is_some() && told.bare.is_some() {
        // "Thickeners (412, 415)".
        one.number = told.bare;
        one.name = told.bare.map(name_of).unwrap_or_default();
    }
    if let Some(own) = one.number {
        let again =
            |part: &Ingredient| part.parts.is_empty() && part.number == Some(own) && part.percent.is_none();
        // "E341(iii)": a form of the same salt.
        let roman = |part: &Ingredient| part.parts.is_empty() && part.name.chars().all(|c| "ivx".contains(c));
        one.parts.retain(|part| !again(part) && !roman(part));
    }
    if one.name.is_empty() { nameless(one, told.role.is_some(), told.only_less, doubtful) } else { vec![one] }
}

/// A role alone is its own name; a group without a name stands for what is in it.
fn nameless(
    mut one: Ingredient,
    role_said: bool,
    only_less: bool,
    doubtful: &mut BTreeSet<usize>,
) -> Vec<Ingredient> {
    if one.parts.is_empty() {
        if let Some(role) = one.role.filter(|_| role_said) {
            one.name = role.words().to_owned();
            return vec![one];
        }
        if !only_less {
            doubtful.insert(one.line);
        }
        return Vec::new();
    }
    if let Some(percent) = one.percent {
        match one.parts.as_mut_slice() {
            [part] if part.percent.is_none() => part.percent = Some(percent),
            _ => {
                doubtful.insert(one.line);
            }
        }
    }
    one.parts
}

/// What the words outside the brackets tell.
#[derive(Clone, Debug, Default)]
struct OutsideBrackets {
    name: String,
    number: Option<u16>,
    /// A bare number, which is an additive if there is a role.
    bare: Option<u16>,
    percent: Option<f64>,
    role: Option<Role>,
    only_percent: bool,
    /// "2 % or less of", before a colon.
    only_less: bool,
    whole: bool,
}

fn outside_brackets(raw: &str) -> OutsideBrackets {
    let lower = spelled(raw.trim());
    let mut out = OutsideBrackets { whole: true, ..OutsideBrackets::default() };
    let text = without_percent(&lower, &mut out);

    if let Some(number) = additives::code(text.trim()) {
        (out.name, out.number) = (name_of(number), Some(number));
        return out;
    }
    let (mut words, whole) = plain_words(&text);
    out.whole &= whole;
    let codes = take_codes(&mut words);
    out.whole &= codes.len() <= 1;
    // Where only signs kept an "and" from joining two entries, it says no more.
    let mut before = String::new();
    words.retain(|w| {
        let keep = w != "and" || before.ends_with('-') || before == "mono";
        before.clone_from(w);
        keep
    });
    let (name, role) = without_role(&words.join(" "));
    (out.name, out.role) = (name, role);

    let less = std::mem::take(&mut out.only_less);
    out.only_percent =
        !less && out.name.is_empty() && out.role.is_none() && codes.is_empty() && out.percent.is_some();
    out.only_less = out.name.is_empty() && less;
    if out.name.is_empty() {
        out.number = codes.first().copied();
        out.name = out.number.map(name_of).unwrap_or_default();
    } else if out.name.chars().any(char::is_alphabetic) {
        out.number = additives::number(&out.name).or_else(|| codes.first().copied());
    } else {
        out.bare = additives::bare(&out.name);
        out.whole &= out.bare.is_some();
        out.name = String::new();
    }
    out
}

fn name_of(number: u16) -> String {
    additives::name(number).map_or_else(|| format!("e{number}"), str::to_owned)
}

/// The words without signs, and whether the signs were harmless ones.
fn plain_words(text: &str) -> (Vec<String>, bool) {
    let mut whole = true;
    let kept: String = text
        .chars()
        .map(|c| {
            let letter = c.is_alphanumeric() || matches!(c, '-' | '\'' | ' ');
            whole &= letter || ":*†‡®™\"°".contains(c);
            if letter { c } else { ' ' }
        })
        .collect();
    (kept.split_whitespace().map(str::to_owned).collect(), whole)
}

/// Takes the additive numbers out of the words, "e412" and "e 412" alike.
fn take_codes(words: &mut Vec<String>) -> Vec<u16> {
    let trim = |w: &str| w.trim_matches(['-', '\'']).to_owned();
    let mut codes = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let one = trim(&words[at]);
        let pair = words.get(at + 1).filter(|_| matches!(one.as_str(), "e" | "ins")).map(|w| trim(w));
        let joined =
            pair.filter(|w| additives::bare(w).is_some()).and_then(|w| additives::code(&format!("{one}{w}")));
        let (found, length) = additives::code(&one).map_or((joined, 2), |code| (Some(code), 1));
        if let Some(code) = found {
            codes.push(code);
            words.drain(at..at + length);
            // What is left may be one again: "e (e 211) 412".
            at = at.saturating_sub(1);
        } else {
            at += 1;
        }
    }
    codes
}

/// Takes role words and links off both ends until nothing changes; the inner role counts.
fn without_role(text: &str) -> (String, Option<Role>) {
    let mut text = text.to_owned();
    let mut role = None;
    loop {
        text = text.trim_matches([' ', '-', '\'']).to_owned();
        if let Some((found, _, rest)) = role_at_start(&text) {
            role = Some(found);
            text = rest.to_owned();
        } else if let Some(rest) =
            vocabulary().links.iter().find_map(|link| whole_word(text.strip_prefix(link)?))
        {
            text = rest.to_owned();
        } else if let Some(rest) =
            vocabulary().tails.iter().find_map(|tail| whole_end(text.strip_suffix(tail)?))
        {
            text = rest.to_owned();
        } else if let Some((name, found)) = role_behind(&text) {
            role = role.or(Some(found));
            text = name;
        } else {
            return (text, role);
        }
    }
}

fn whole_word(rest: &str) -> Option<&str> {
    (rest.is_empty() || rest.starts_with(' ')).then_some(rest)
}

fn whole_end(rest: &str) -> Option<&str> {
    (rest.is_empty() || rest.ends_with(' ')).then_some(rest)
}

/// "Sodium benzoate added as a preservative".
fn role_behind(text: &str) -> Option<(String, Role)> {
    let (name, role) = text.rsplit_once(" as ")?;
    let role = role.strip_prefix("a ").or_else(|| role.strip_prefix("an ")).unwrap_or(role);
    let name = name.trim_end_matches(" added").trim_end_matches(" used").trim();
    Some((name.to_owned(), role_of(role)?)).filter(|(name, _)| !name.is_empty())
}

/// Takes the first percentage out.
fn without_percent(text: &str, out: &mut OutsideBrackets) -> String {
    let Some(at) = text.find('%') else { return text.to_owned() };
    let before = text[..at].trim_end();
    let from = before
        .rfind(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))
        .map_or(0, |i| i + before[i..].chars().next().map_or(1, char::len_utf8));
    out.percent = value(before[from..].trim_matches(['.', ',']), Thousands::Never).filter(|v| *v <= 100.0);
    let left = before[..from].trim_end_matches([' ', '<', '>', '~', '=']);
    let after = text[at + 1..].trim_start();
    let rest = format!("{left} {after}");
    out.whole = out.percent.is_some() && !rest.contains('%');
    if left == "less than" || left.ends_with(" less than") || after.starts_with("or less") {
        // A bound is no share.
        (out.percent, out.only_less) = (None, true);
    }
    rest.replace('%', " ")
}
