//! This maker's kitchen: scale, spoons, thermometer, pH, warmers, vessels, altitude, room, tap and fridge, money. Kept
//! apart from designs.

use serde::{Deserialize, Serialize};

use potset_base::choices;
use potset_base::label_rule::LabelRule;
use potset_base::measures::SpoonSet;

choices! {
    /// What tells the pH in this kitchen.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum PhBy: words {
        #[default]
        TasteAndLook => "taste and look",
        Strips => "strips",
        Meter => "a pH meter",
    }
}

/// A warmer of this kitchen, measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasuredWarmer {
    /// Key of the pantry's warmer.
    pub key: String,
    /// What the pot really reaches above its setting, °C.
    pub offset_c: f64,
    /// When it was measured, as the maker writes it.
    #[serde(default)]
    pub checked: String,
}

/// Vessels of this kitchen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VesselsHere {
    /// Key of the pantry's vessel.
    pub key: String,
    pub count: u32,
}

/// The kitchen. Every field has a usual value, so an old file still opens.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Kitchen {
    /// Smallest step of the scale, g.
    pub scale_step_g: f64,
    /// How far repeated weighings of the same thing spread (one standard deviation), g; 0 if not known.
    pub scale_repeat_g: f64,
    pub scale_checked: String,
    /// Spoons of new designs.
    pub spoons: SpoonSet,
    /// Error of the thermometer, °C.
    pub thermometer_c: f64,
    pub thermometer_checked: String,
    pub ph_by: PhBy,
    /// Smallest step that it tells.
    pub ph_step: f64,
    pub ph_checked: String,
    pub altitude_m: f64,
    pub room_c: f64,
    /// Hot tap water, °C.
    pub hot_tap_c: f64,
    /// Cold tap water, °C.
    pub cold_tap_c: f64,
    pub fridge_c: f64,
    pub warmers: Vec<MeasuredWarmer>,
    pub vessels: Vec<VesselsHere>,
    /// Sign or letters of the money that prices are in.
    pub currency: String,
    /// By which custom nutrition is printed.
    pub label_rule: LabelRule,
}

impl Default for Kitchen {
    /// A usual kitchen (assumed; the maker sets their own).
    fn default() -> Self {
        Self {
            scale_step_g: 0.1,
            scale_repeat_g: 0.0,
            scale_checked: String::new(),
            spoons: SpoonSet::default(),
            thermometer_c: 1.0,
            thermometer_checked: String::new(),
            ph_by: PhBy::default(),
            ph_step: 0.5,
            ph_checked: String::new(),
            altitude_m: 0.0,
            room_c: 21.0,
            hot_tap_c: 55.0,
            cold_tap_c: 15.0,
            fridge_c: 4.0,
            warmers: Vec::new(),
            vessels: Vec::new(),
            currency: String::new(),
            label_rule: LabelRule::default(),
        }
    }
}

impl Kitchen {
    /// How far a weighing may be off, g: half a step, or twice the spread of repeated weighings if that is more.
    pub const fn weighing_error_g(&self) -> f64 {
        (0.5 * self.scale_step_g).max(2.0 * self.scale_repeat_g)
    }

    /// What a warmer of this kitchen was measured to reach above its setting, °C.
    pub fn offset_c(&self, warmer: &str) -> Option<f64> {
        self.warmers.iter().find(|w| w.key == warmer).map(|w| w.offset_c)
    }

    /// An amount of money: "€ 1.20", or the bare number where no currency is set.
    pub fn money(&self, amount: f64) -> String {
        let figure = potset_base::number::fixed(amount, 2);
        if self.currency.is_empty() {
            figure
        } else {
            format!("{}{}{figure}", self.currency, potset_base::number::NBSP)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worse_of_step_and_spread_counts() {
        let kitchen = Kitchen::default();
        assert!((kitchen.weighing_error_g() - 0.05).abs() < 1e-12);
        let shaky = Kitchen { scale_repeat_g: 0.1, ..kitchen };
        assert!((shaky.weighing_error_g() - 0.2).abs() < 1e-12);
        assert_eq!(shaky.money(1.2), "1.20");
        assert_eq!(Kitchen { currency: "€".into(), ..shaky }.money(1.2), "€\u{a0}1.20");
    }
}
