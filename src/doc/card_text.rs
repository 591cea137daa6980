//! Sentences of the card in the maker's own words.

use super::parts::parts;
use serde::{Deserialize, Serialize};

parts! {
    /// A sentence of the card, and what the maker says in its place.
    pub struct OwnSentence {
        /// As the program says it, in °C. The maker's words stand only where it still says so.
        pub generated: String,
        pub own: String,
    }
}

/// All sentences of a card that the maker put into other words, each once.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct CardText(Vec<OwnSentence>);

impl CardText {
    /// Whether nothing was put into other words.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The maker's own words for a sentence of the program.
    pub fn own(&self, generated: &str) -> Option<&str> {
        self.0.iter().find(|own| own.generated == generated).map(|own| own.own.as_str())
    }

    /// Puts a sentence into other words; nothing, or the same words: as the program says it.
    pub fn set(&mut self, generated: &str, own: Option<&str>) {
        let own = own.filter(|own| !own.trim().is_empty() && *own != generated);
        match (self.0.iter().position(|known| known.generated == generated), own) {
            (Some(at), Some(own)) => own.clone_into(&mut self.0[at].own),
            (Some(at), None) => drop(self.0.remove(at)),
            (None, Some(own)) => {
                self.0.push(OwnSentence { generated: generated.to_owned(), own: own.to_owned() });
            }
            (None, None) => {}
        }
    }

    /// Every sentence, in the order in which they were written.
    pub fn sentences(&self) -> &[OwnSentence] {
        &self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_is_put_into_other_words_and_back() {
        let mut text = CardText::default();
        text.set("Warm it", Some("Warm it gently"));
        text.set("Warm it", Some("Warm it slowly"));
        text.set("Chill it", Some("Into the fridge"));
        assert_eq!((text.sentences().len(), text.own("Warm it")), (2, Some("Warm it slowly")));
        text.set("Warm it", Some(" "));
        text.set("Chill it", Some("Chill it"));
        text.set("Never said", None);
        assert_eq!(text, CardText::default());
    }
}
