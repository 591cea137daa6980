//! The answer in the order of a reader's questions: a word in large type for each, and one quiet line below it.

use crate::ready;
use potset_base::clock::Moment;
use potset_base::number::{self, NBSP};
use potset_base::words::{SweetLevel, TextureWord, span};
use potset_judge::ready::ReadyTime;
use potset_judge::verdict::{SugarReading, TangReading, TextureReading};

/// Said of a pot that is thrown away, in the place of what nobody will taste.
pub const NOT_TOLD: &str = "Texture, tang and sweetness are not told for a pot that is thrown away.";

/// Thin layer and whey that are told, % of the pot. Source: assumed, as little as is seen in a jar.
const SEEN: f64 = 1.0;

/// When it is ready, in large words, and who is ready by then.
pub fn ready_in_large(ready: &ReadyTime, start: Option<Moment>) -> (String, String) {
    let at = |h: f64| ready::time_words(h, start);
    let end = number::hours(potset_judge::ready::HORIZON_H);
    match (ready.half_h, ready.most_h) {
        (Some(half), Some(most)) if ready::told_alike(half, most) => {
            (format!("by {}", at(most)), "most pots".to_owned())
        }
        (Some(half), Some(most)) => {
            (format!("by {}", at(most)), format!("most pots; about half by {}", at(half)))
        }
        (Some(half), None) => {
            (format!("about half by {}", at(half)), format!("by {end}, {}", ready.ever.words()))
        }
        _ if ready.ever.of > 0 => {
            ("not for most pots".to_owned(), format!("by {end}, {} are ready", ready.ever.words()))
        }
        _ => ("never in this plan".to_owned(), format!("it does not get there in {end}")),
    }
}

/// The range of a texture in words, where it is wider than one word.
pub fn usually(low: TextureWord, high: TextureWord) -> Option<String> {
    (low != high).then(|| format!("usually {}", span(low.word(), high.word())))
}

/// What goes with the texture word: its range, the warm jar, and what separates.
pub fn texture(t: &TextureReading) -> Vec<String> {
    let mut lines = Vec::new();
    lines.extend(usually(t.low, t.high));
    let still = if t.in_pot_word < t.word { "still " } else { "" };
    lines.push(format!("warm, in the jar, it {still}{}", t.in_pot_word.word()));
    if t.thin_layer >= SEEN {
        lines.push(format!("a thin layer below: {}", share_words(t.thin_layer)));
    }
    if t.whey_standing >= SEEN {
        lines.push(format!("whey on top: {}", share_words(t.whey_standing)));
    }
    lines
}

/// A share of the pot in words, from per cent. Source of the bounds: assumed, half way between one word and the next.
pub fn share_words(percent: f64) -> &'static str {
    const WORDS: [(f64, &str); 7] = [
        (3.0, "a trace"),
        (7.5, "a twentieth"),
        (15.0, "about a tenth"),
        (22.5, "about a fifth"),
        (29.0, "about a quarter"),
        (42.0, "about a third"),
        (60.0, "about half"),
    ];
    WORDS.iter().find(|(below, _)| percent < *below).map_or("more than half", |(_, words)| words)
}

/// What goes with the tang word.
pub fn tang(t: &TangReading) -> String {
    let ph = format!("pH{NBSP}{}", number::fixed(t.ph, 1));
    match t.word {
        Some(_) => format!("{ph}, {}", t.sweet.word()),
        None => format!("{ph}, not yogurt"),
    }
}

/// The sweetness word, and what goes with it. Where the culture ate of it and nothing was stirred in, it is *still* sweet.
pub fn sweetness(t: &TangReading, s: &SugarReading) -> (String, String) {
    let still = t.sweet_level != SweetLevel::NotSweet && s.stirred_in < 0.05 && s.eaten >= 0.5;
    let word =
        if still { format!("still {}", t.sweet_level.word()) } else { t.sweet_level.word().to_owned() };
    let g = |v: f64| number::with_unit(v, 0, "g/L");
    let stirred =
        if s.stirred_in < 0.05 { String::new() } else { format!("; {} stirred in", g(s.stirred_in)) };
    (word, format!("{} of sugar left; {} eaten{stirred}", g(s.left), g(s.eaten)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::chance::Chance;

    #[test]
    fn the_large_words_name_the_time_at_which_most_pots_are_ready() {
        let pots = Chance { of: 9, among: 10 };
        let of = |half_h, most_h| {
            ready_in_large(&ReadyTime { half_h, most_h, ever: pots, ..ReadyTime::default() }, None)
        };
        let said = |half, most| {
            let (large, small) = of(half, most);
            format!("{large}: {small}").replace(NBSP, " ")
        };
        assert_eq!(said(Some(17.0), Some(23.5)), "by 24 h: most pots; about half by 17 h");
        assert_eq!(said(Some(23.2), Some(23.5)), "by 24 h: most pots");
        assert_eq!(said(Some(17.0), None), "about half by 17 h: by 72 h, 9 in 10");
        let never = ready_in_large(&ReadyTime::default(), None);
        assert_eq!(never.0, "never in this plan");
    }

    #[test]
    fn shares_grow_in_words() {
        let told = [1.0, 5.0, 10.0, 20.0, 25.0, 33.0, 50.0, 80.0].map(share_words);
        assert_eq!(told[2], "about a tenth");
        assert!(told.windows(2).all(|pair| pair[0] != pair[1]));
    }
}
