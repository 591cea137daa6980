//! What of a pot lies outside what the laws were fitted to, in words.

use potset_base::number;
use potset_judge::validity::{MOST, Outside, PH};

/// What lies outside, as a sentence beside a number; empty where the laws hold.
pub fn sentence(outside: &[Outside]) -> String {
    if outside.is_empty() {
        return String::new();
    }
    let outside: Vec<String> = outside.iter().map(words).collect();
    format!("Less certain here, outside the data behind the model: {}", outside.join(", "))
}

fn words(outside: &Outside) -> String {
    match *outside {
        Outside::Over(at, value) => {
            let (what, most, unit) = MOST[at];
            let (value, most) = (number::figures(value, 2), number::plain(most));
            format!("{what} {value}{}{unit} (to {most})", number::NBSP)
        }
        Outside::Ph(ph) => {
            let range = format!("{} to {}", number::fixed(PH.0, 1), number::fixed(PH.1, 1));
            format!("pH {} ({range})", number::fixed(ph, 1))
        }
        Outside::Alkali => "titratable acidity below nothing, since alkali went in".to_owned(),
    }
}
