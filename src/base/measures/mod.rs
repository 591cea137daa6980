//! Household measures: spoons and cups of four customs, amounts in any measure, and amounts said in spoons.

mod amount;
mod said;
mod unit;
pub mod whole;

use crate::choices;
pub use amount::{Amount, format, parse};
pub use said::Said;
pub use unit::{Measure, Size};

use serde::{Deserialize, Serialize};

use super::number;

choices! {
    /// A custom of spoons and cups. The set in use is stated wherever a spoon is shown.
    ///
    /// Source: published, US 21 CFR 101.9(b)(5)(viii) and NIST Handbook 44 appendix C (US); metric and Australian spoons
    /// by common practice of cookery books (15 mL; 20 mL in Australia); imperial tablespoon taken at its modern 15 mL.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum SpoonSet: words {
        #[default]
        Metric => "15 mL spoon",
        UnitedStates => "14.8 mL spoon (US)",
        Australian => "20 mL spoon (AU)",
        Imperial => "15 mL spoon (UK)",
    }
}

impl SpoonSet {
    /// Tablespoon, mL.
    pub const fn tablespoon_ml(self) -> f64 {
        match self {
            Self::Metric | Self::Imperial => 15.0,
            Self::UnitedStates => 14.786_764_781_25,
            Self::Australian => 20.0,
        }
    }

    /// Teaspoon, mL.
    pub const fn teaspoon_ml(self) -> f64 {
        match self {
            Self::Metric | Self::Imperial | Self::Australian => 5.0,
            Self::UnitedStates => 4.928_921_593_75,
        }
    }

    /// Cup, mL.
    pub const fn cup_ml(self) -> f64 {
        match self {
            Self::Metric | Self::Australian => 250.0,
            Self::UnitedStates => 236.588_236_5,
            Self::Imperial => 284.130_625,
        }
    }

    /// Fluid ounce, mL; the sets that have none have neither pint nor quart.
    ///
    /// Source: published, NIST Handbook 44 appendix C (US 1/128 gallon of 231 cubic inches); UK Weights and Measures
    /// Act 1985, schedule 1 (gallon of 4.54609 L, 1/160 of it).
    pub const fn fluid_ounce_ml(self) -> Option<f64> {
        match self {
            Self::Metric | Self::Australian => None,
            Self::UnitedStates => Some(29.573_529_562_5),
            Self::Imperial => Some(28.413_062_5),
        }
    }
}

/// A volume in cups or spoons to the nearest quarter, from ten on to the whole, with the mL of one: "1½ tbsp (15 mL)".
///
/// Under an eighth of a teaspoon the answer is "a pinch: weigh it".
pub fn spoons(ml: f64, set: SpoonSet) -> String {
    let (measure, size) = if ml >= 0.99 * set.cup_ml() {
        (Measure::Cup, set.cup_ml())
    } else if ml >= 0.74 * set.tablespoon_ml() {
        (Measure::Tablespoon, set.tablespoon_ml())
    } else {
        (Measure::Teaspoon, set.teaspoon_ml())
    };
    let count = ml / size;
    let quarters = if count < 10.0 { (count * 4.0).round() } else { count.round() * 4.0 };
    if ml.is_nan() || ml <= 0.0 {
        "none".to_owned()
    } else if quarters < 1.0 {
        "a pinch: weigh it".to_owned()
    } else {
        format!("{} {} ({})", number::quarters(quarters), measure.word(quarters > 4.0), unit::ml_words(size))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tablespoon_of_sugar_per_litre() {
        // 12.7 g of granulated sugar fill a metric tablespoon (USDA SR 19335: 200 g a US cup, 0.845 g/mL).
        assert_eq!(spoons(12.7 / 0.845, SpoonSet::Metric), "1 tbsp (15\u{a0}mL)");
        assert_eq!(spoons(25.0 / 0.845, SpoonSet::Australian), "1½ tbsp (20\u{a0}mL)");
        assert_eq!(spoons(2.5, SpoonSet::Metric), "½ tsp (5\u{a0}mL)");
        assert_eq!(spoons(187.0, SpoonSet::UnitedStates), "13 tbsp (14.8\u{a0}mL)");
        assert_eq!(spoons(300.0, SpoonSet::UnitedStates), "1¼ cups (237\u{a0}mL)");
        assert_eq!(spoons(0.05, SpoonSet::Metric), "a pinch: weigh it");
        assert_eq!(spoons(0.0, SpoonSet::Metric), "none");
    }
}
