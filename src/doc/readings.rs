//! Readings of a base and of a culture, as they are kept in a design.

use serde::{Deserialize, Serialize};

/// A reading, and how far it may be off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    pub v: f64,
    /// Nine in ten such readings lie so close, either way, in the unit of the reading; empty: the usual scatter of such a
    /// reading.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<f64>,
}

/// A reading that may be off by a factor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Factor {
    pub v: f64,
    /// Nine in ten such readings lie between this part of it and this many times it; empty: the usual scatter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub times: Option<f64>,
}

/// One titration: lactic acid is put in until the base has come to a pH. The reading is kept, not the buffer that
/// follows from it: that hangs on the law.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Titration {
    /// Pure lactic acid, g per kg of the base.
    pub lactic_g_per_kg: f64,
    /// pH that it came to.
    pub to_ph: f64,
    /// Nine in ten such readings of the acid lie so close, either way, g/kg; empty: the usual scatter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<f64>,
}

/// What was measured of a base, as it goes into the pot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BaseMeasured {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ph: Option<Figure>,
    /// Titratable acidity, % lactic acid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub acidity: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub titration: Option<Titration>,
}

impl BaseMeasured {
    /// Nothing was measured.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Living cells of a packet, all kinds together, as counted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Cells {
    /// cfu per g of the packet's powder, before it is mixed with another.
    PerGram(f64),
    /// cfu in the whole packet, and the litres that it is meant for.
    InPacket { cfu: f64, litres: f64 },
}

/// A count of cells, and by which factor it may be off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Count {
    pub cells: Cells,
    /// As [`Factor::times`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub times: Option<f64>,
}

/// What was measured of a culture.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CultureMeasured {
    /// As the packet is now: age takes nothing off it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<Count>,
    /// Pace against the rates of its organisms, as `potset evidence` fits it to a pot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pace: Option<Factor>,
    /// Lag as work to be done, fitted alike.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lag: Option<Factor>,
}

impl CultureMeasured {
    /// Nothing was measured.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
