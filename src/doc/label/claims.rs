//! "Contains" and "may contain".

use super::tokens::words;

/// What a sentence about allergens names.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Claims {
    pub contains: Vec<String>,
    pub may_contain: Vec<String>,
    /// Everything was understood.
    pub whole: bool,
}

const MAY: &[&str] = &["may also contain", "may contain", "may be present"];
const DOES: &[&str] = &["contains", "contain"];
const LEAD: &[&str] =
    &["allergy advice", "allergen information", "allergens", "allergen", "allergen advice", "warning"];
const LINKS: &[&str] =
    &["traces of ", "trace of ", "trace amounts of ", "a source of ", "other ", "and ", "or ", "also "];

/// Reads a line of claims; `None` if it is none.
pub fn claims(line: &str) -> Option<Claims> {
    let lower = line.to_lowercase();
    let mut out = Claims { whole: true, ..Claims::default() };
    let mut any = false;
    for sentence in lower.split(['.', ';', '!']).map(str::trim).filter(|s| !s.is_empty()) {
        let sentence = LEAD
            .iter()
            .find_map(|lead| sentence.strip_prefix(lead)?.trim_start().strip_prefix(':'))
            .map_or(sentence, str::trim_start);
        let strip = |starts: &[&str]| {
            starts
                .iter()
                .find_map(|s| sentence.strip_prefix(s))
                .filter(|rest| !rest.starts_with(char::is_alphanumeric))
                .map(str::to_owned)
        };
        let (list, rest) = if let Some(rest) = strip(MAY) {
            (&mut out.may_contain, rest)
        } else if let Some(rest) = strip(DOES) {
            (&mut out.contains, rest)
        } else {
            out.whole = false;
            continue;
        };
        // "Contains 2 % or less of": that is a list of ingredients.
        if rest.chars().any(|c| c.is_ascii_digit()) || rest.contains("less than") {
            out.whole = false;
            continue;
        }
        any |= names(&rest, list, &mut out.whole);
    }
    any.then_some(out)
}

fn names(text: &str, list: &mut Vec<String>, whole: &mut bool) -> bool {
    let plain = |c: char| c.is_alphabetic() || c.is_whitespace() || "-',:()/&".contains(c);
    *whole &= text.chars().all(|c| plain(c) || c == '*');
    let text: String = text.chars().map(|c| if plain(c) { c } else { ' ' }).collect();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let text = text.replace(" and ", ",").replace(" or ", ",").replace('&', ",");
    let mut any = false;
    for raw in text.split([',', ':', '(', ')', '/']) {
        let mut name = raw.trim_matches(TRIM);
        while let Some(rest) = LINKS.iter().find_map(|link| name.strip_prefix(link)) {
            name = rest.trim_matches(TRIM);
        }
        if words(name).is_empty() {
            continue;
        }
        any = true;
        if !list.iter().any(|have| have == name) {
            list.push(name.to_owned());
        }
    }
    any
}

const TRIM: [char; 3] = [' ', '-', '\''];
