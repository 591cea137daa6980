//! Packets of culture that this kitchen has: what each held, what is left, since when and where it is kept.

use serde::{Deserialize, Serialize};

use super::lines::Packet;

/// One packet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptPacket {
    /// Key of the culture in the pantry.
    pub culture: String,
    /// What it held, and how many litres that is for.
    pub packet: Packet,
    /// What is left of it, g.
    pub left_g: f64,
    /// The day from which its age counts, "2026-10-01".
    pub since: String,
    /// Where it is kept, °C.
    pub kept_c: f64,
    pub opened: bool,
}

/// A place where packets are kept, by its name and warmth, °C (common practice).
pub const PLACES: [(&str, f64); 3] =
    [("in the freezer", -18.0), ("in the fridge", 4.0), ("in a cupboard", 20.0)];

impl KeptPacket {
    /// Where it is kept, in words; the nearest place.
    pub fn place(&self) -> &'static str {
        let far = |place: &&(&str, f64)| (place.1 - self.kept_c).abs();
        PLACES.iter().min_by(|a, b| far(a).total_cmp(&far(b))).map_or("", |place| place.0)
    }
}
