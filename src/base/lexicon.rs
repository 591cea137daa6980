//! Lists of words that ship as data: read strictly, so that no word stands twice and none is empty.

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// How all files are read and written.
pub fn options() -> ron::Options {
    ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
}

/// The words of an asset, or none at all if the file in the program was damaged when it was built; a test keeps this from
/// happening.
pub fn shipped<T: DeserializeOwned + Default>(text: &str) -> T {
    options().from_str(text).unwrap_or_default()
}

/// A list of words in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(try_from = "Vec<String>")]
pub struct Words(Vec<String>);

impl Words {
    /// Whether a word is one of them.
    pub fn has(&self, word: &str) -> bool {
        self.iter().any(|own| own == word)
    }

    /// Whether one of them stands anywhere in a text.
    pub fn within(&self, text: &str) -> bool {
        self.iter().any(|own| text.contains(own))
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &str> {
        self.0.iter().map(String::as_str)
    }

    /// What stands behind the first of them that a text begins with.
    pub fn behind<'a>(&self, text: &'a str) -> Option<&'a str> {
        self.iter().find_map(|own| text.strip_prefix(own))
    }
}

impl TryFrom<Vec<String>> for Words {
    type Error = String;

    fn try_from(all: Vec<String>) -> Result<Self, String> {
        once(all.iter())?;
        Ok(Self(all))
    }
}

/// Words that each mean something: the meanings in the order of the file, each with its words, the usual one first.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(try_from = "Vec<(T, Vec<String>)>", bound(deserialize = "T: Deserialize<'de>"))]
pub struct Lexicon<T>(Vec<(T, Vec<String>)>);

impl<T> Default for Lexicon<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Lexicon<T> {
    /// Every word with its meaning.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &T)> {
        self.0.iter().flat_map(|(meaning, words)| words.iter().map(move |word| (word.as_str(), meaning)))
    }

    /// What a word means.
    pub fn get(&self, word: &str) -> Option<&T> {
        self.iter().find(|(own, _)| *own == word).map(|(_, meaning)| meaning)
    }
}

impl<T: PartialEq> Lexicon<T> {
    /// The usual word for a meaning.
    pub fn usual(&self, meaning: &T) -> Option<&str> {
        self.0.iter().find(|(own, _)| own == meaning)?.1.first().map(String::as_str)
    }
}

impl<T> TryFrom<Vec<(T, Vec<String>)>> for Lexicon<T> {
    type Error = String;

    fn try_from(all: Vec<(T, Vec<String>)>) -> Result<Self, String> {
        once(all.iter().flat_map(|(_, words)| words))?;
        Ok(Self(all))
    }
}

/// What is said of keys, in the order of the file.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(try_from = "Vec<(String, T)>", bound(deserialize = "T: Deserialize<'de>"))]
pub struct Table<T>(Vec<(String, T)>);

impl<T> Default for Table<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Table<T> {
    /// Every key with what is said of it.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &T)> {
        self.0.iter().map(|(key, row)| (key.as_str(), row))
    }

    /// What is said of a key.
    pub fn get(&self, key: &str) -> Option<&T> {
        self.iter().find(|(own, _)| *own == key).map(|(_, row)| row)
    }
}

impl<T> TryFrom<Vec<(String, T)>> for Table<T> {
    type Error = String;

    fn try_from(all: Vec<(String, T)>) -> Result<Self, String> {
        once(all.iter().map(|(key, _)| key))?;
        Ok(Self(all))
    }
}

/// Names what is empty or stands twice.
fn once<'a>(all: impl Iterator<Item = &'a String>) -> Result<(), String> {
    let mut seen = std::collections::BTreeSet::new();
    for word in all {
        if word.trim().is_empty() {
            return Err("a word is empty".to_owned());
        }
        if !seen.insert(word) {
            return Err(format!("“{word}” stands twice"));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_twice_and_an_empty_one_are_refused() {
        let words = |text: &str| options().from_str::<Words>(text).map_err(|e| e.to_string());
        assert!(words(r#"["milk", "cream"]"#).unwrap().has("cream"));
        assert!(words(r#"["milk", "cream", "milk"]"#).unwrap_err().contains("“milk” stands twice"));
        assert!(words(r#"["milk", ""]"#).is_err());
        let lexicon = options().from_str::<Lexicon<u8>>(r#"[(1, ["a", "b"]), (2, ["c"])]"#).unwrap();
        assert_eq!((lexicon.get("b"), lexicon.get("d"), lexicon.usual(&1)), (Some(&1), None, Some("a")));
        // Under two meanings it would be unclear.
        assert!(options().from_str::<Lexicon<u8>>(r#"[(1, ["a", "b"]), (2, ["a"])]"#).is_err());
    }
}
