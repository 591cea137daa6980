//! Lists of what is known of files, a line each: made anew at any time, kept so that thousands are there at once.

use serde::Serialize;
use serde::de::DeserializeOwned;

use potset_base::lexicon::options;

/// The text of a list: its head, then a line for each.
pub fn write<T: Serialize>(head: &str, all: &[T]) -> String {
    let mut out = format!("{head}\n");
    for line in all.iter().filter_map(|known| options().to_string(known).ok()) {
        out.push_str(&line);
        out.push('\n');
    }
    out
}

/// Reads the lines behind the head; those that cannot be read are left out: they are only worked out anew.
pub fn read<'a, T: DeserializeOwned>(lines: impl Iterator<Item = &'a str>) -> impl Iterator<Item = T> {
    lines.filter_map(|line| options().from_str::<T>(line).ok())
}
