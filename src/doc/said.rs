//! How the amounts of lines are said: by volume or weight, in tins, in packets, in spoons; and in what a US kitchen measures
//! them.

use super::design::Design;
use super::lines::{BaseLine, CultureLine, Pack};
use super::pantry::{Additive, Base, Culture, Pantry, Sweetener, Thickener};
use super::shelf::LineKind;
use potset_base::measures::{Amount, Measure, Said, SpoonSet};

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
        let density = entry.map_or(1.0, |e| e.density.value);
        let powder = entry.and_then(|e| e.bulk_density.as_ref()).map(|d| d.value);
        let lies = powder.unwrap_or(density);
        Said {
            unit: "L",
            measure: self.measure,
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
        self.packet.map_or(entry.grams_per_litre.value, |packet| packet.grams / packet.litres)
    }

    /// How much of it goes into so many litres, as it is weighed: with its carrier, where it is thinned.
    pub fn said(&self, entry: Option<&Culture>, litres: f64, set: SpoonSet) -> Said<'static> {
        let thinned = self.powder.times();
        Said {
            unit: "× packet",
            measure: self.measure,
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

/// How a dose of g/L is said in a design: by the measure of its line, in the whole pot.
///
/// - `g_per_ml` — as it lies in the spoon; nothing where that is not known.
pub fn dose(design: &Design, by: Measure, g_per_ml: Option<f64>) -> Said<'static> {
    Said {
        unit: "g/L",
        measure: by,
        own: Some(Measure::Gram),
        set: design.spoons,
        g_per_unit: design.litres(),
        g_per_ml,
        pack: None,
        litres: Some(design.litres()),
        what: "",
    }
}

/// Cups and spoons of a US kitchen, and the least count of one that a person measures: bases are poured, all else is spooned.
///
/// Source: assumed. Its recipes say bases in cups and fluid ounces, sugar, starch and culture in spoons (common practice).
const POURED: [(Measure, f64); 3] =
    [(Measure::Cup, 0.24), (Measure::FluidOunce, 0.9), (Measure::Tablespoon, 0.24)];
const SPOONED: [(Measure, f64); 2] = [(Measure::Tablespoon, 0.74), (Measure::Teaspoon, 0.1)];

impl Design {
    /// How the amount of a line is said, and its number in the unit of that; nothing where there is no such line.
    pub fn said_of(&self, shelf: LineKind, i: usize, pantry: &Pantry) -> Option<(Said<'static>, f64)> {
        Some(match shelf {
            LineKind::Bases => {
                let line = self.bases.get(i)?;
                (line.said(self.entry(pantry, &line.entry), self.spoons), line.litres)
            }
            LineKind::Sugars => {
                let line = self.sugars.get(i)?;
                let entry = self.entry::<Sweetener>(pantry, &line.entry);
                (dose(self, line.measure, entry.map(|e| e.bulk_density.value)), line.g_per_l)
            }
            LineKind::Thickeners => {
                let line = self.thickeners.get(i)?;
                let entry = self.entry::<Thickener>(pantry, &line.entry);
                (dose(self, line.measure, entry.map(|e| e.bulk_density.value)), line.g_per_l)
            }
            LineKind::Additives => {
                let line = self.additives.get(i)?;
                let entry = self.entry::<Additive>(pantry, &line.entry);
                (dose(self, line.measure, entry.map(|e| e.bulk_density.value)), line.g_per_l)
            }
            LineKind::Cultures => {
                let line = self.cultures.get(i)?;
                (line.said(self.entry(pantry, &line.entry), self.litres(), self.spoons), line.rate)
            }
        })
    }

    /// The cup or spoon in which a US kitchen measures a line that is in the usual unit of its list; nothing where it has to
    /// be weighed, where nothing is in it, or where the maker chose a measure.
    pub fn us_measure(&self, shelf: LineKind, i: usize, pantry: &Pantry) -> Option<Measure> {
        let (said, value) = self.said_of(shelf, i, pantry)?;
        let all = if shelf == LineKind::Bases { &POURED[..] } else { &SPOONED[..] };
        let enough = |(m, least): &&(Measure, f64)| {
            let amount = if said.bears(*m) { said.amount(*m, value) } else { None };
            matches!(amount, Some(Amount::Total(count, _)) if count >= *least)
        };
        (said.measure == shelf.usual()).then(|| all.iter().find(enough).map(|(m, _)| *m)).flatten()
    }

    /// Says every line in the measures of a US kitchen, unless the maker chose another.
    pub fn say_in_us_measures(&mut self, pantry: &Pantry) {
        for shelf in LineKind::ALL {
            for i in 0..self.lines(shelf).len() {
                if let Some(by) = self.us_measure(shelf, i, pantry)
                    && let Some(line) = self.lines_mut(shelf).into_iter().nth(i)
                {
                    *line.measure_mut() = by;
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assets;

    #[test]
    fn a_us_kitchen_pours_cups_and_spoons_the_rest() {
        let pantry = assets::pantry().unwrap();
        let mut design = assets::demo("coconut-pot.ron").unwrap();
        design.spoons = SpoonSet::UnitedStates;
        for shelf in LineKind::ALL {
            for line in design.lines_mut(shelf) {
                *line.measure_mut() = shelf.usual();
            }
        }
        let (before, litres) = (design.clone(), design.litres());
        design.say_in_us_measures(&pantry);
        assert_eq!((design.bases[0].measure, design.sugars[0].measure), (Measure::Cup, Measure::Tablespoon));
        assert_eq!(design.litres(), litres);
        // A measure that was chosen stays, and a base of a drop is not said in cups.
        let mut again = before;
        again.bases[0].measure = Measure::Tin;
        again.say_in_us_measures(&pantry);
        assert_eq!(again.bases[0].measure, Measure::Tin);
        again.bases[0].measure = Measure::Litre;
        again.bases[0].litres = 0.04;
        assert_eq!(again.us_measure(LineKind::Bases, 0, &pantry), Some(Measure::FluidOunce));
    }
}
