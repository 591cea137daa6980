//! Warmths and acidities in words, as this kitchen says them. Amounts are said by [`crate::measures::whole`].

use super::{APART, Degrees, WARMTH, scale, spoken};
use crate::acidity::AcidityUnit;
use crate::number::{NBSP, fixed, plain, with_unit};

/// A warmth, °C, in words: "40.0 °C", "104 °F".
///
/// - `decimals` — of °C; °F are said with one less.
pub fn warmth(c: f64, decimals: usize) -> String {
    with_unit(c, decimals, WARMTH)
}

/// A warmth in as few figures as tell it: "37.5 °C"; whole °F.
pub fn warmth_plain(c: f64) -> String {
    match spoken().degrees {
        Degrees::Celsius => format!("{}{NBSP}{WARMTH}", plain(c)),
        Degrees::Fahrenheit => warmth(c, 0),
    }
}

/// A difference of two warmths, °C, in words: "1.0 °C", "1.8 °F".
pub fn warmth_apart(c: f64, decimals: usize) -> String {
    with_unit(c, decimals, APART)
}

/// A difference in as few figures as tell it: "± 0.5 °C".
pub fn warmth_apart_plain(c: f64) -> String {
    let scale = scale(APART);
    // To a tenth where it was turned into °F: it is not known more finely.
    let shown = if scale.other() { (10.0 * scale.shown(c)).round() / 10.0 } else { c };
    format!("{}{NBSP}{}", plain(shown), scale.unit)
}

/// From one warmth to another, °C: "37 to 43 °C".
pub fn warmth_span(low: f64, high: f64) -> String {
    let scale = scale(WARMTH);
    let said = |c: f64| if scale.other() { fixed(scale.shown(c), 0) } else { plain(c) };
    match (said(low), said(high)) {
        (low, high) if low == high => format!("{low}{NBSP}{}", scale.unit),
        (low, high) => format!("{low} to {high}{NBSP}{}", scale.unit),
    }
}

impl AcidityUnit {
    /// An acidity in words, % lactic acid: "62 °D".
    pub fn words_of(self, percent: f64) -> String {
        let decimals = match self {
            Self::Lactic => 2,
            Self::SoxhletHenkel => 1,
            Self::Dornic | Self::Thorner => 0,
        };
        format!("{}{NBSP}{}", fixed(self.of(percent), decimals), self.words())
    }
}

/// An acidity, % lactic acid, in words as this kitchen says it.
pub fn acidity(percent: f64) -> String {
    spoken().acidity.words_of(percent)
}

#[cfg(test)]
mod tests {
    use super::super::{Units, speak};
    use super::*;
    use crate::number::in_unit;

    #[test]
    fn warmths_are_said_in_whole_fahrenheit_and_differences_are_not_moved() {
        assert_eq!(
            (warmth(40.0, 1), warmth_plain(37.5)),
            ("40.0\u{a0}°C".to_owned(), "37.5\u{a0}°C".to_owned())
        );
        assert_eq!(
            (warmth_apart(1.0, 1), warmth_apart_plain(0.5)),
            ("1.0\u{a0}°C".to_owned(), "0.5\u{a0}°C".to_owned())
        );
        assert_eq!(
            (warmth_span(37.0, 43.0), warmth_span(4.0, 4.0)),
            ("37 to 43\u{a0}°C".to_owned(), "4\u{a0}°C".to_owned())
        );
        let _speaking = speak(Units { degrees: Degrees::Fahrenheit, ..Units::default() });
        assert_eq!(
            (warmth(40.0, 1), warmth_plain(37.5)),
            ("104\u{a0}°F".to_owned(), "100\u{a0}°F".to_owned())
        );
        assert_eq!(
            (warmth_apart(1.0, 1), warmth_apart_plain(0.5)),
            ("1.8\u{a0}°F".to_owned(), "0.9\u{a0}°F".to_owned())
        );
        assert_eq!(
            (warmth_span(37.0, 43.0), warmth_span(4.0, 4.0)),
            ("99 to 109\u{a0}°F".to_owned(), "39\u{a0}°F".to_owned())
        );
    }

    #[test]
    fn a_warmth_that_is_said_is_read_back_to_half_of_its_last_decimal() {
        for degrees in Degrees::ALL {
            let _speaking = speak(Units { degrees, ..Units::default() });
            for (unit, decimals) in [(WARMTH, 0), (WARMTH, 1), (WARMTH, 2), (APART, 0), (APART, 1)] {
                let scale = scale(unit);
                let half = 0.5 * 10.0_f64.powi(-i32::try_from(scale.decimals(decimals)).unwrap());
                for i in -3000..12_100_i32 {
                    let c = f64::from(i) * 0.0137;
                    let back = in_unit(&with_unit(c, decimals, unit), unit).unwrap();
                    let off = (scale.shown(back) - scale.shown(c)).abs();
                    assert!(off <= half + 1e-9, "{c} {unit} with {decimals} decimals comes back as {back}");
                }
            }
        }
    }

    #[test]
    fn it_is_said_as_the_kitchen_has_it() {
        let said = |unit: AcidityUnit| {
            let _speaking =
                speak(Units { acidity: unit, ..Units::default() });
            acidity(0.62).replace(NBSP, " ")
        };
        assert_eq!(AcidityUnit::ALL.map(said), ["0.62 % lactic acid", "62 °D", "27.6 °SH", "69 °Th"]);
    }
}
