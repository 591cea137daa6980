//! Wants in words: "dollops", "bright to sharp tang", "ready within 24 h".

use super::Want;
use potset_forecast::observable::Observable;

/// Words that stand before a time.
const BEFORE_A_TIME: [&str; 5] = ["within", "by", "in", "before", "after"];
/// Words that may stand beside a word of a scale and tell nothing.
const FILLERS: [&str; 9] = ["a", "an", "the", "pot", "taste", "tastes", "texture", "tang", "it"];

/// Whether a text says something that is wanted, in words.
pub fn begins(text: &str) -> bool {
    ready_by(text).is_some() || called(text).is_some()
}

/// The time of "ready within 24 h" or "within 24 h", as it is typed behind a sign.
pub(super) fn ready_by(text: &str) -> Option<String> {
    let small = text.trim().to_lowercase();
    let rest = small.strip_prefix("ready").or_else(|| small.strip_prefix("done")).unwrap_or(&small);
    let (word, time) = rest.trim().split_once(' ')?;
    let time = time.trim();
    let known = BEFORE_A_TIME.contains(&word) && time.starts_with(|c: char| c.is_ascii_digit());
    known.then(|| time.to_owned())
}

/// A word of a scale, or two with *to* or *or* between them.
pub(super) fn called(text: &str) -> Option<Want> {
    let small = text.trim().to_lowercase();
    let words: Vec<&str> = small.split_whitespace().filter(|word| !FILLERS.contains(word)).collect();
    let said = words.join(" ").replace(" or ", " to ");
    let (low, high) = said.split_once(" to ").unwrap_or((&said, &said));
    Observable::WANTED.into_iter().find_map(|o| {
        let place = |word: &str| o.wanted().scale.iter().position(|w| *w == word);
        let (low, high) = (place(low)?, place(high)?);
        Some(Want::Called(o, low.min(high), low.max(high)))
    })
}
