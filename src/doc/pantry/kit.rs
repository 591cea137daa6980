//! Vessels and warmers.

use super::figures::figures;
use super::ticket::Ticket;
use potset_base::Cited;

figures! {
    /// A vessel with its still-air and fridge time constants for one litre.
    pub struct Vessel {
        pub key: String,
        pub name: String,
        pub litres: f64,
        /// Time constant in still air, 1 L, h.
        pub air_h: Cited,
        /// Time constant in a fridge, 1 L, h.
        pub fridge_h: Cited,
        pub handling: String = default,
        pub ticket: Ticket = default,
    }
}

figures! {
    /// What a warmer does to a pot.
    pub enum Warming {
        /// Goes to its set point and stays there.
        Heated {
            /// What the pot really reaches above the set point, °C.
            offset_c: Cited,
            /// Time constant of warming one litre, h.
            warming_h: Cited,
        },
        /// Keeps what it was given and loses it slowly to the room.
        Insulated {
            /// Time constant of cooling one litre, h.
            cooling_h: Cited,
        },
        /// A warm place: the pot takes its temperature.
        Place {
            /// Time constant of one litre in it, h.
            warming_h: Cited,
        },
    }
}

figures! {
    /// A warmer.
    pub struct Warmer {
        pub key: String,
        pub name: String,
        pub warming: Warming,
        /// Most that it holds, L.
        pub holds_litres: Option<f64> = default,
        /// Usual setting or place temperature, °C.
        pub usual: (f64, f64),
        #[serde(default)]
        pub handling: String,
        pub ticket: Ticket = default,
    }
}
