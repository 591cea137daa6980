//! Readings of a base and of a culture, as they are kept in a design.

use super::parts::parts;
use serde::{Deserialize, Serialize};

parts! {
    /// A reading, and how far it may be off.
    #[derive(Copy)]
    pub struct Figure {
        #[serde(rename = "v")]
        pub value: f64,
        /// Nine in ten such readings lie so close, either way, in the unit of the reading; empty: the usual scatter of such a
        /// reading.
        pub within: Option<f64> = default,
    }

    /// A reading that may be off by a factor.
    #[derive(Copy)]
    pub struct Factor {
        #[serde(rename = "v")]
        pub value: f64,
        /// Nine in ten such readings lie between this part of it and this many times it; empty: the usual scatter.
        pub times: Option<f64> = default,
    }

    /// One titration: lactic acid is put in until the base has come to a pH. The reading is kept, not the buffer that
    /// follows from it: that hangs on the law.
    #[derive(Copy)]
    pub struct Titration {
        /// Pure lactic acid, g per kg of the base.
        pub lactic_g_per_kg: f64,
        /// pH that it came to.
        pub to_ph: f64,
        /// Nine in ten such readings of the acid lie so close, either way, g/kg; empty: the usual scatter.
        pub within: Option<f64> = default,
    }

    /// What was measured of a base, as it goes into the pot.
    #[derive(Copy, Default)]
    pub struct BaseMeasured {
        pub ph: Option<Figure> = default,
        /// Titratable acidity, % lactic acid.
        pub acidity: Option<Figure> = default,
        pub titration: Option<Titration> = default,
    }
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

parts! {
    /// A count of cells, and by which factor it may be off.
    #[derive(Copy)]
    pub struct Count {
        pub cells: Cells,
        /// As [`Factor::times`].
        pub times: Option<f64> = default,
    }

    /// What was measured of a culture.
    #[derive(Copy, Default)]
    pub struct CultureMeasured {
        /// As the packet is now: age takes nothing off it.
        pub count: Option<Count> = default,
        /// Pace against the rates of its organisms, as `potset evidence` fits it to a pot.
        pub pace: Option<Factor> = default,
        /// Lag as work to be done, fitted alike.
        pub lag: Option<Factor> = default,
    }
}
