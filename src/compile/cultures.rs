//! Cultures as organisms with counts, pace and lag; and what goes in late.

use super::blend::Blend;
use super::lookup::Lookup;
use crate::base::{Note, Sugar};
use crate::doc::pantry::{ColdAcid, Culture, Organism as Entry};
use crate::doc::steps::Happening;
use crate::science::kinetics::Organism;
use crate::science::mix::Addition;
use crate::science::system::MOST_ORGANISMS;

/// What to weigh of a culture.
#[derive(Clone, Debug, PartialEq)]
pub struct Dose {
    pub line: usize,
    pub name: String,
    /// Grams of straight powder for the whole pot.
    pub grams: f64,
}

/// Organisms of the pot, what goes in late, and what to weigh.
pub type Living = (Vec<Organism>, Vec<Addition>, Vec<Dose>);

/// Compiles the cultures of a design.
///
/// # Errors
/// A note if an entry is missing or the pot would hold more kinds than the model follows.
pub fn cultures(look: &Lookup<'_>, blend: &Blend<'_>) -> Result<Living, Note> {
    let mut pot = Lot { look, blend, organisms: Vec::new(), weights: Vec::new() };
    let mut doses = Vec::new();
    for (line, culture) in look.design.cultures.iter().enumerate() {
        let entry = look.culture(&culture.entry)?;
        pot.put(entry, culture.rate, true)?;
        let grams = entry.grams_per_litre.v * culture.rate * look.design.litres();
        doses.push(Dose { line, name: entry.name.clone(), grams });
    }
    let mut additions = Vec::new();
    for event in look.design.hold().into_iter().flat_map(|hold| &hold.events) {
        let mut addition = Addition { at_h: event.at_h, sugars: [0.0; 8], counts: Vec::new() };
        match &event.what {
            Happening::LateSugar { entry, g_per_l } => {
                for share in &look.sweetener(entry)?.sugars {
                    let g_kg = g_per_l * look.design.litres() / blend.kg * share.g_per_100g.v / 100.0;
                    addition.sugars[share.sugar.index()] += g_kg * 1e3 / share.sugar.g_mol();
                }
            }
            Happening::LateCulture { entry, rate } => {
                let entry = look.culture(entry)?;
                pot.put(entry, *rate, false)?;
                addition.counts = pot
                    .organisms
                    .iter()
                    .map(|o| {
                        entry.doses.iter().filter(|d| d.organism == o.key).map(|d| d.cfu_per_g.v * rate).sum()
                    })
                    .collect();
            }
            Happening::Stir | Happening::PowerCut { .. } => continue,
        }
        additions.push(addition);
    }
    pot.link_helpers()?;
    Ok((pot.organisms, additions, doses))
}

struct Lot<'a, 'b> {
    look: &'a Lookup<'b>,
    blend: &'a Blend<'b>,
    organisms: Vec<Organism>,
    /// Counts behind the means of pace and lag.
    weights: Vec<f64>,
}

impl Lot<'_, '_> {
    /// Adds a culture at a rate; `now`: its cells are there from the start.
    fn put(&mut self, culture: &Culture, rate: f64, now: bool) -> Result<(), Note> {
        let learnt = self.look.learnt.culture_speed.get(&culture.key).copied();
        let dairy = self.blend.dairy;
        let speed = learnt.unwrap_or(dairy * culture.speed_dairy.v + (1.0 - dairy) * culture.speed_plant.v);
        let growth = &self.look.laws.growth;
        let cold = match culture.cold_acid {
            ColdAcid::Mild => growth.cold_mild,
            ColdAcid::Medium => growth.cold_medium,
            ColdAcid::Sharp => growth.cold_sharp,
        };
        for dose in &culture.doses {
            let entry = self.look.organism(&dose.organism)?;
            let count = dose.cfu_per_g.v * rate;
            let at = match self.organisms.iter().position(|o| o.key == entry.key) {
                Some(at) => at,
                None => {
                    self.organisms.push(plain(entry));
                    self.weights.push(0.0);
                    self.organisms.len() - 1
                }
            };
            // Two cultures with the same organism: pace and lag are means by count. An empty dose still sets them.
            // What comes late does not change the pace of cells that are there already.
            if !now && self.weights[at] > 0.0 {
                continue;
            }
            let weight = count.max(1e-6);
            let share = weight / (weight + self.weights[at]);
            self.weights[at] += weight;
            let o = &mut self.organisms[at];
            o.speed += share * (speed - o.speed);
            o.lag_work += share * (culture.lag_work.v - o.lag_work);
            o.cold_factor += share * (cold - o.cold_factor);
            if now {
                o.count += count;
            }
        }
        if self.organisms.len() > MOST_ORGANISMS {
            return Err(Note::error(
                "cultures",
                format!("The pot would hold {} kinds of organism", self.organisms.len()),
                format!("Keep it to {MOST_ORGANISMS}"),
            ));
        }
        Ok(())
    }

    fn link_helpers(&mut self) -> Result<(), Note> {
        let keys: Vec<String> = self.organisms.iter().map(|o| o.key.clone()).collect();
        for organism in &mut self.organisms {
            let entry = self.look.organism(&organism.key)?;
            organism.helpers = entry
                .helpers
                .iter()
                .map(|h| (keys.iter().position(|k| *k == h.organism), h.share.v, h.half_count.v))
                .collect();
        }
        Ok(())
    }
}

fn plain(e: &Entry) -> Organism {
    let mut eats = [0.0; 8];
    for food in &e.eats {
        eats[food.sugar.index()] = food.weight.v;
    }
    Organism {
        key: e.key.clone(),
        name: e.name.clone(),
        growth_rate: e.growth_rate.v,
        temperature: [e.temperature_min_c.v, e.temperature_opt_c.v, e.temperature_max_c.v],
        ph: [e.ph_min.v, e.ph_opt.v, e.ph_max.v],
        acid_ceiling: e.acid_ceiling.v,
        acid_exponent: e.acid_exponent.v,
        acid_per_cell: e.acid_per_cell.v,
        acid_per_cell_hour: e.acid_per_cell_hour.v,
        lactic_per_hexose: e.lactic_per_hexose.v,
        acetic_per_hexose: e.acetic_per_hexose.v,
        galactose_released: e.galactose_released.v,
        half_saturation: e.half_saturation.v,
        d60_min: e.d60_min.v,
        z_c: e.z_c.v,
        eats,
        helpers: Vec::new(),
        count: 0.0,
        speed: 0.0,
        lag_work: 0.0,
        cold_factor: 0.0,
    }
}

/// Sugar in the pot that any of its organisms eats, g/kg.
#[must_use]
pub fn edible_g_kg(organisms: &[Organism], sugars: &[f64; 8]) -> f64 {
    Sugar::ALL
        .iter()
        .filter(|s| organisms.iter().any(|o| o.eats[s.index()] > 0.0))
        .map(|s| sugars[s.index()] * s.g_mol() * 1e-3)
        .sum()
}
