//! How warmth and amounts are said here: in °C or °F, in grams and litres or in ounces, pounds and cups.
//!
//! Documents, laws, files, tables for a spreadsheet and evidence hold °C, g and L, always. Only what a person reads and types
//! is said as their kitchen has it. Who draws, prints or puts something into words calls [`speak`] with the units of the
//! kitchen: the shell for a frame, the runner for a command, the queue for a piece of work, a forecast for its notes, a
//! command of the command line. It holds as long as what it returns lives, like a locale, and metric is what nobody set.
//!
//! It belongs to the thread and not to the program: tests and pictures of several kitchens run beside each other in one
//! process, and a shared setting would mix up their words. A value handed through every sentence would stand in each
//! signature between a kitchen and a label. What works on several threads at once speaks on each of them.

pub mod prose;
pub mod said;

use std::cell::Cell;
use std::marker::PhantomData;

use serde::{Deserialize, Serialize};

use crate::acidity::AcidityUnit;
use crate::choices;

choices! {
    /// How warmth is said.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Degrees: words {
        #[default]
        Celsius => "°C",
        Fahrenheit => "°F",
    }
}

choices! {
    /// How amounts are said.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Amounts: words {
        #[default]
        Metric => "grams and litres",
        UsCustomary => "ounces, pounds, cups",
    }
}

/// How a kitchen says warmth, amounts and acidity.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    pub degrees: Degrees,
    pub amounts: Amounts,
    pub acidity: AcidityUnit,
}

impl Units {
    const METRIC: Self =
        Self { degrees: Degrees::Celsius, amounts: Amounts::Metric, acidity: AcidityUnit::Lactic };
}

thread_local! {
    static SPOKEN: Cell<Units> = const { Cell::new(Units::METRIC) };
}

/// As long as it lives, this thread speaks so; then as before.
#[must_use = "it holds only as long as this lives"]
#[derive(Debug)]
pub struct Speaking {
    before: Units,
    /// It ends on the thread that it began on.
    here: PhantomData<*const ()>,
}

impl Drop for Speaking {
    fn drop(&mut self) {
        SPOKEN.set(self.before);
    }
}

/// Has this thread speak so.
pub fn speak(units: Units) -> Speaking {
    Speaking { before: SPOKEN.replace(units), here: PhantomData }
}

/// How this thread speaks.
pub fn spoken() -> Units {
    SPOKEN.get()
}

/// Unit of a warmth in documents and laws.
pub const WARMTH: &str = "°C";

/// Unit of a difference of two warmths in documents and laws, °C: no 32 is added to it. It is said like a warmth.
pub const APART: &str = "Δ°C";

/// The unit of a difference of two numbers of a unit.
pub fn apart(unit: &str) -> &str {
    if unit == WARMTH { APART } else { unit }
}

/// From a number in its own unit to the number that is said, and back.
///
/// Source: definition of the degree Fahrenheit, `F = 9/5 · C + 32`; a difference of 5 °C is one of 9 °F.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale<'a> {
    /// The unit that is said.
    pub unit: &'a str,
    /// What 0 °C is called, where °F are said.
    fahrenheit: Option<f64>,
}

/// How numbers of a unit are said here.
pub fn scale(unit: &str) -> Scale<'_> {
    let degrees = spoken().degrees;
    let zero = match unit {
        WARMTH => 32.0,
        APART => 0.0,
        _ => return Scale { unit, fahrenheit: None },
    };
    Scale { unit: degrees.words(), fahrenheit: (degrees == Degrees::Fahrenheit).then_some(zero) }
}

impl Scale<'_> {
    /// The number that is said.
    pub fn shown(&self, value: f64) -> f64 {
        self.fahrenheit.map_or(value, |zero| value * 9.0 / 5.0 + zero)
    }

    /// The number in its own unit, from the one that is said.
    pub fn back(&self, shown: f64) -> f64 {
        self.fahrenheit.map_or(shown, |zero| (shown - zero) * 5.0 / 9.0)
    }

    /// Decimals that tell as much: a warmth in °F is said with one less, so that it is whole where °C have one.
    pub fn decimals(&self, decimals: usize) -> usize {
        if self.fahrenheit.is_some_and(|zero| zero > 0.0) { decimals.saturating_sub(1) } else { decimals }
    }

    /// Whether another number is said than the document has.
    pub const fn other(&self) -> bool {
        self.fahrenheit.is_some()
    }
}

/// A unit of warmth as people type it, in small letters without spaces; nothing for any other unit.
pub fn typed_degrees(words: &str) -> Option<Degrees> {
    match words {
        "c" | "°c" => Some(Degrees::Celsius),
        "f" | "°f" => Some(Degrees::Fahrenheit),
        _ => None,
    }
}

/// The scale of a unit of warmth where degrees are told; nothing for any other unit.
pub fn scale_in(unit: &str, degrees: Degrees) -> Option<Scale<'_>> {
    let _speaking = speak(Units { degrees, ..spoken() });
    matches!(unit, WARMTH | APART).then(|| scale(unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    const FAHRENHEIT: Units = Units { degrees: Degrees::Fahrenheit, ..Units::METRIC };

    #[test]
    fn a_thread_speaks_so_until_it_is_let_go() {
        assert_eq!(spoken(), Units::default());
        {
            let _outer = speak(FAHRENHEIT);
            {
                let _inner = speak(Units::default());
                assert_eq!(scale(WARMTH).unit, "°C");
            }
            assert_eq!(spoken(), FAHRENHEIT);
            // Another thread has its own.
            #[allow(clippy::disallowed_methods, reason = "what another thread says is looked at")]
            let other = std::thread::spawn(spoken).join().unwrap();
            assert_eq!(other, Units::default());
        }
        assert_eq!(spoken(), Units::default());
    }

    #[test]
    fn a_warmth_moves_by_32_and_a_difference_does_not() {
        let _speaking = speak(FAHRENHEIT);
        for (c, f) in [(-40.0, -40.0), (0.0, 32.0), (40.0, 104.0), (100.0, 212.0)] {
            assert_eq!((scale(WARMTH).shown(c), scale(WARMTH).back(f)), (f, c));
        }
        assert_eq!((scale(APART).shown(5.0), scale(APART).back(9.0)), (9.0, 5.0));
        assert_eq!((scale(WARMTH).unit, scale(APART).unit, scale("g/L").unit), ("°F", "°F", "g/L"));
        assert_eq!((scale("g/L").shown(5.0), scale("g/L").other()), (5.0, false));
        assert_eq!(
            (scale(WARMTH).decimals(1), scale(WARMTH).decimals(0), scale(APART).decimals(1)),
            (0, 0, 1)
        );
    }

    #[test]
    fn a_number_that_is_said_as_it_is_keeps_its_bits() {
        for v in [-0.0, 0.1, 40.0, f64::MAX] {
            assert_eq!(scale(WARMTH).shown(v).to_bits(), v.to_bits());
        }
        assert_eq!(scale(APART).unit, "°C");
    }
}
