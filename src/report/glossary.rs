//! The words of the program, explained: data, read once.

use std::sync::LazyLock;

/// The text of the shipped list.
pub const TEXT: &str = include_str!("../../assets/glossary.ron");

/// Each word, and what it means.
pub fn words() -> &'static [(String, String)] {
    static WORDS: LazyLock<Vec<(String, String)>> = LazyLock::new(|| potset_base::lexicon::shipped(TEXT));
    &WORDS
}

/// The guide of Help: what can be done, title by title.
pub fn guide() -> &'static [(String, String)] {
    static GUIDE: LazyLock<Vec<(String, String)>> =
        LazyLock::new(|| potset_base::lexicon::shipped(GUIDE_TEXT));
    &GUIDE
}

/// The text of the shipped guide.
pub const GUIDE_TEXT: &str = include_str!("../../assets/guide.ron");

/// What a word means.
pub fn meaning(word: &str) -> Option<&'static str> {
    words().iter().find(|(name, _)| name == word).map(|(_, text)| text.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn the_shipped_words_are_told_once_and_briefly() {
        let all: Vec<(String, String)> = potset_base::lexicon::options().from_str(TEXT).unwrap();
        assert_eq!(all.len(), 51);
        assert_eq!(all.iter().map(|(word, _)| word).collect::<BTreeSet<_>>().len(), all.len());
        for (word, text) in &all {
            assert!(text.ends_with('.') && text.split_whitespace().count() <= 32, "{word}");
        }
        let guide: Vec<(String, String)> = potset_base::lexicon::options().from_str(GUIDE_TEXT).unwrap();
        assert_eq!(guide.len(), 18);
        let levels = potset_base::words::TextureWord::ALL.map(|word| meaning(word.word()));
        assert!(levels.iter().all(Option::is_some));
    }
}
