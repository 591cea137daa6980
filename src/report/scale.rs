//! A design for another amount, in sentences.

use crate::card::measured;
use potset_base::measures::Said;
use potset_base::measures::whole::weight;
use potset_base::number::{self, NBSP};
use potset_doc::pantry::Vessel;
use potset_make::scale::Rounded;

/// A line's amount in the whole pot: by weight, and by measure or spoon where there is one.
pub fn amount(said: &Said<'_>, value: f64) -> String {
    let (grams, measure) = (weight(value * said.g_per_unit), measured(said, value));
    if measure.is_empty() { grams } else { format!("{grams}, {measure}") }
}

/// What rounding does to an amount.
pub fn rounded(rounded: &Rounded) -> String {
    let Rounded { name, exact, given, unit } = rounded;
    let percent = 100.0 * (given / exact - 1.0);
    let way = if percent >= 0.0 { "more" } else { "less" };
    format!(
        "{name}: {}{NBSP}{unit} instead of {}{NBSP}{unit}, as your scale tells it: {}{NBSP}% {way}",
        number::plain(*given),
        number::plain((100.0 * exact).round() / 100.0),
        number::fixed(percent.abs(), if percent.abs() < 1.0 { 1 } else { 0 }),
    )
}

/// How an amount goes into vessels.
pub fn vessels(count: u32, vessel: Option<&Vessel>, litres: f64) -> String {
    let Some(vessel) = vessel else { return format!("{}{NBSP}L in all", number::rough(litres)) };
    let each = litres / f64::from(count.max(1));
    let name = &vessel.name;
    let full = each / vessel.litres;
    let left = format!("each with {}{NBSP}mL", number::fixed(1000.0 * each, 0));
    match count {
        1 => format!("1 × {name}, with {}{NBSP}mL", number::fixed(1000.0 * each, 0)),
        n if full > 0.95 => format!("{n} × {name}, {left}: full"),
        n => format!("{n} × {name}, {left}: {}{NBSP}% full", number::fixed(100.0 * full, 0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_says_both_amounts_and_how_far_it_goes() {
        let said = rounded(&Rounded { name: "Dextrose".to_owned(), exact: 6.75, given: 7.0, unit: "g" });
        assert_eq!(
            said.replace(NBSP, " "),
            "Dextrose: 7 g instead of 6.75 g, as your scale tells it: 4 % more"
        );
    }
}
