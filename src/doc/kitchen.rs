//! This maker's kitchen: scale, thermometer, altitude, room, tap and fridge. Kept apart from designs.

use serde::{Deserialize, Serialize};

/// The kitchen. Every field has a usual value, so an old file still opens.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Kitchen {
    /// Smallest step of the scale, g.
    pub scale_step_g: f64,
    /// Error of the thermometer, °C.
    pub thermometer_c: f64,
    pub altitude_m: f64,
    pub room_c: f64,
    /// Hot tap water, °C.
    pub hot_tap_c: f64,
    /// Cold tap water, °C.
    pub cold_tap_c: f64,
    pub fridge_c: f64,
}

impl Default for Kitchen {
    /// A usual kitchen (assumed; the maker sets their own).
    fn default() -> Self {
        Self {
            scale_step_g: 0.1,
            thermometer_c: 1.0,
            altitude_m: 0.0,
            room_c: 21.0,
            hot_tap_c: 55.0,
            cold_tap_c: 15.0,
            fridge_c: 4.0,
        }
    }
}
