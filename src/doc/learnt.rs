//! What was learnt from the maker's batches: corrections by culture, base, warmer and thickener. Empty at first.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// Corrections that stand in for pantry values. Keys are pantry keys.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Learnt {
    /// Pace of a culture in the maker's pots.
    pub culture_speed: BTreeMap<String, f64>,
    /// Start pH of a base.
    pub base_ph: BTreeMap<String, f64>,
    /// Mean buffer of a base, mmol/(kg pH).
    pub base_buffer: BTreeMap<String, f64>,
    /// What a warmer really reaches above its setting, °C.
    pub warmer_offset_c: BTreeMap<String, f64>,
    /// Factor on a thickener's swelling or stiffness.
    pub thickener_strength: BTreeMap<String, f64>,
}
