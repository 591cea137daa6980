//! What is said of a house recipe in a line of the list.

use potset_base::number;
use potset_base::words::{SweetLevel, TangWord, TextureWord};
use potset_doc::recipe::RecipeAnswer;

/// What comes of it in words, and what else there is to say; before that is known, how long it is kept warm.
pub fn answer_words(answer: Option<&RecipeAnswer>, hold_h: f64) -> (String, String) {
    let hold =
        if hold_h > 0.0 { format!("kept warm {}", number::hours(hold_h)) } else { "no hold".to_owned() };
    let Some(answer) = answer else { return (String::new(), hold) };
    if answer.discard {
        return ("to be thrown away".to_owned(), hold);
    }
    if !answer.why_not.is_empty() {
        return ("no forecast".to_owned(), answer.why_not.clone());
    }
    let words = [
        answer.texture.map(TextureWord::word),
        Some(answer.tang.map_or("no tang", TangWord::word)),
        answer.sweet.map(SweetLevel::word),
    ];
    let diet = match (answer.vegan, answer.gluten_free) {
        (true, true) => " · vegan, gluten-free",
        (true, false) => " · vegan",
        (false, true) => " · gluten-free",
        (false, false) => "",
    };
    (words.into_iter().flatten().collect::<Vec<_>>().join(" · "), format!("{hold}{diet}"))
}

/// How often it was made, and when last.
pub fn made_words(times: usize, last: Option<String>) -> String {
    match (times, last) {
        (0, _) | (_, None) => String::new(),
        (1, Some(last)) => format!("made {last}"),
        (n, Some(last)) => format!("made {n} times, last {last}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pot_to_be_thrown_away_says_nothing_else() {
        let answer =
            RecipeAnswer { texture: Some(TextureWord::Dollops), discard: true, ..RecipeAnswer::default() };
        assert_eq!(answer_words(Some(&answer), 24.0).0, "to be thrown away");
        let good = RecipeAnswer { discard: false, ..answer };
        assert_eq!(answer_words(Some(&good), 24.0).0, "dollops · no tang");
        assert_eq!(made_words(0, None), "");
    }
}
