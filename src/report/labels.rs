//! Labels for jars of a dry mix of culture.

use potset_base::number::{self, NBSP};
use potset_make::packet::Split;

/// The lines of one label; nothing where nothing is mixed.
///
/// - `culture` — its name; `litre_g` — grams of the mix for a litre; `day` — the day that it is mixed, if there is a clock.
pub fn label(culture: &str, split: &Split, litre_g: f64, day: Option<&str>) -> Option<Vec<String>> {
    let mix = split.mixes.last()?;
    let times = 10_u32.pow(u32::try_from(split.mixes.len()).unwrap_or(1));
    let gram = |g: f64| format!("{}{NBSP}g", number::rough(g));
    let mut lines = vec![
        culture.to_owned(),
        format!("1 in {times}: {} and {} of sugar", gram(mix.of_g), gram(mix.carrier_g)),
        format!("{} for a litre", gram(litre_g)),
    ];
    lines.push(day.map_or_else(|| "Mixed on:".to_owned(), |day| format!("Mixed on {day}")));
    lines.push("Dry and frozen. Use within three months".to_owned());
    Some(lines)
}
