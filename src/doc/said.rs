//! How the amounts of a base and of a culture are said: by volume or weight, in tins, in packets, in spoons.

use super::lines::{BaseLine, CultureLine, Pack};
use super::pantry::{Base, Culture, Pantry};
use potset_base::measures::{Measure, Said, SpoonSet};

impl BaseLine {
    /// What it comes in: as the line says, else as its entry says.
    pub fn pack_of(&self, entry: Option<&Base>) -> Option<Pack> {
        self.pack.or_else(|| entry?.packs.first().copied())
    }

    /// The same where the design's own copy of the entry may be older than packs are: then as the pantry says.
    pub fn with_pack(&self, entry: Option<&Base>, pantry: &Pantry) -> Self {
        let pack = self.pack_of(entry).or_else(|| self.pack_of(pantry.get(&self.entry)));
        Self { pack, ..self.clone() }
    }

    /// How its amount is said. Litres of a powder are what it adds to the pot: it is weighed, or spooned as it lies.
    pub fn said(&self, entry: Option<&Base>, set: SpoonSet) -> Said<'static> {
        let density = entry.map_or(1.0, |e| e.density.v);
        let powder = entry.and_then(|e| e.bulk_density.as_ref()).map(|d| d.v);
        let lies = powder.unwrap_or(density);
        Said {
            unit: "L",
            by: self.by,
            own: if powder.is_some() { None } else { Some(Measure::Litre) },
            set,
            g_per_unit: 1000.0 * density,
            g_per_ml: Some(lies),
            pack: self.pack_of(entry).map(|pack| (pack.of, pack.ml * lies)),
            litres: None,
            what: "",
        }
    }
}

impl CultureLine {
    /// Powder for one litre at the packet's own dose, g/L.
    pub fn grams_per_litre(&self, entry: &Culture) -> f64 {
        self.packet.map_or(entry.grams_per_litre.v, |packet| packet.grams / packet.litres)
    }

    /// How much of it goes into so many litres, as it is weighed: with its carrier, where it is thinned.
    pub fn said(&self, entry: Option<&Culture>, litres: f64, set: SpoonSet) -> Said<'static> {
        let thinned = self.powder.times();
        Said {
            unit: "× packet",
            by: self.by,
            own: Some(Measure::Gram),
            set,
            g_per_unit: entry.map_or(0.0, |e| self.grams_per_litre(e)) * litres * thinned,
            g_per_ml: entry.and_then(|e| e.form.g_per_ml()),
            pack: self.packet.map(|packet| (Measure::Packet, packet.grams * thinned)),
            litres: Some(litres),
            what: "",
        }
    }
}
