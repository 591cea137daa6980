//! "Contains" and "may contain".

use super::tokens::words;
use super::vocabulary::vocabulary;
use potset_base::lexicon::Words;

/// What a sentence about allergens names.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Claims {
    pub contains: Vec<String>,
    pub may_contain: Vec<String>,
    /// Everything was understood.
    pub whole: bool,
}

/// Reads a line of claims; `None` if it is none.
pub fn claims(line: &str) -> Option<Claims> {
    let lower = line.to_lowercase();
    let mut out = Claims { whole: true, ..Claims::default() };
    let mut any = false;
    let known = vocabulary();
    for sentence in lower.split(['.', ';', '!']).map(str::trim).filter(|s| !s.is_empty()) {
        let sentence = known
            .claim_leads
            .iter()
            .find_map(|lead| sentence.strip_prefix(lead)?.trim_start().strip_prefix(':'))
            .map_or(sentence, str::trim_start);
        let strip = |starts: &Words| {
            starts
                .iter()
                .find_map(|s| sentence.strip_prefix(s))
                .filter(|rest| !rest.starts_with(char::is_alphanumeric))
                .map(str::to_owned)
        };
        let (list, rest) = if let Some(rest) = strip(&known.may_contain) {
            (&mut out.may_contain, rest)
        } else if let Some(rest) = strip(&known.contains) {
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
        while let Some(rest) = vocabulary().claim_links.behind(name) {
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
