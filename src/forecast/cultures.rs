//! Cultures as organisms with counts, pace and lag; and what goes in late.

use super::blend::Blend;
use super::lookup::Lookup;
use super::measured;
use potset_base::constants::LACTIC_G_MOL;
use potset_base::{Inhibitor, Note, Sugar};
use potset_doc::design::CultureLine;
use potset_doc::measured::CultureMeasured;
use potset_doc::pantry::{ColdAcid, Culture, Organism as Entry, Sweetener};
use potset_doc::steps::Happening;
use potset_science::kinetics::ageing::{self, Aged};
use potset_science::kinetics::organism::{Organism, Preservative};
use potset_science::mix::Addition;
use potset_science::system::MOST_ORGANISMS;

/// What to weigh of a culture.
#[derive(Clone, Debug, PartialEq)]
pub struct Dose {
    pub line: usize,
    pub name: String,
    /// Grams of straight powder for the whole pot: packet's dose × rate × litres.
    /// Source: derived, by the packet's own rate.
    pub grams: f64,
}

/// What lives in the pot.
#[derive(Clone, Debug, Default)]
pub struct Living {
    pub organisms: Vec<Organism>,
    /// What goes in late.
    pub additions: Vec<Addition>,
    /// What to weigh.
    pub doses: Vec<Dose>,
    /// Lactic acid that the cultures carry in, mmol/kg.
    pub carried: f64,
    /// Share of the cells at the start that make slime, 0 to 1.
    pub ropy: f64,
    /// Decades of living cells that age has cost, by culture line.
    pub lost: Vec<f64>,
}

/// Compiles the cultures of a design.
///
/// # Errors
/// A note if an entry is missing or the pot would hold more kinds than the model follows.
pub fn cultures(look: &Lookup<'_>, blend: &Blend<'_>, inhibitors: &[f64; 7]) -> Result<Living, Note> {
    let mut pot = Lot { look, blend, organisms: Vec::new(), weights: Vec::new() };
    let mut living = Living::default();
    let (mut cells, mut ropy) = (0.0, 0.0);
    for (line, culture) in look.design.cultures.iter().enumerate() {
        let entry = look.entry::<Culture>(&culture.entry)?;
        let counted = measured::count_factor(look, culture, entry, blend.kg);
        let mut aged = aged(look, culture, entry);
        if counted.is_some() {
            // Counted as they are now: what age has cost is in the count.
            aged.decades = 0.0;
        }
        let factor = counted.unwrap_or(1.0);
        pot.put(entry, (culture.rate * factor, culture.measured), &aged, true)?;
        let grams = culture.grams_per_litre(entry) * culture.rate * look.design.litres();
        living.doses.push(Dose { line, name: entry.name.clone(), grams });
        living.lost.push(aged.decades);
        if let Some(acid) = &entry.carried_acid {
            living.carried += grams / blend.kg * acid.value / 100.0 * 1e3 / LACTIC_G_MOL;
        }
        let count: f64 = entry.doses.iter().map(|d| d.cfu_per_g.value * culture.rate * factor).sum();
        cells += count;
        ropy += if entry.ropy { count } else { 0.0 };
    }
    living.ropy = if cells > 0.0 { ropy / cells } else { 0.0 };
    for event in look.design.hold().into_iter().flat_map(|hold| &hold.events) {
        let mut addition = Addition { at_h: event.at_h, sugars: [0.0; 8], counts: Vec::new() };
        match &event.what {
            Happening::LateSugar { entry, g_per_l } => {
                for share in &look.entry::<Sweetener>(entry)?.sugars {
                    let g_kg = g_per_l * look.design.litres() / blend.kg * share.g_per_100g.value / 100.0;
                    addition.sugars[share.sugar.index()] += g_kg * 1e3 / share.sugar.g_mol();
                }
            }
            Happening::LateCulture { entry, rate } => {
                let entry = look.entry::<Culture>(entry)?;
                pot.put(entry, (*rate, CultureMeasured::default()), &Aged::default(), false)?;
                addition.counts = pot
                    .organisms
                    .iter()
                    .map(|o| {
                        entry
                            .doses
                            .iter()
                            .filter(|d| d.organism == o.key)
                            .map(|d| d.cfu_per_g.value * rate)
                            .sum()
                    })
                    .collect();
            }
            Happening::Stir
            | Happening::PowerCut { .. }
            | Happening::Move { .. }
            | Happening::SetTo { .. } => continue,
        }
        living.additions.push(addition);
    }
    pot.link_helpers()?;
    pot.hold_back(inhibitors)?;
    living.organisms = pot.organisms;
    Ok(living)
}

/// What age did to a culture line.
fn aged(look: &Lookup<'_>, line: &CultureLine, entry: &Culture) -> Aged {
    if entry.form.dry() {
        let kept = line.kept_c.unwrap_or(look.laws.ageing.dry_kept_c);
        ageing::dry(line.age_days, kept, line.opened, look.laws)
    } else {
        ageing::wet(line.age_days, look.laws)
    }
}

struct Lot<'a, 'b> {
    look: &'a Lookup<'b>,
    blend: &'a Blend<'b>,
    organisms: Vec<Organism>,
    /// Counts behind the means of pace and lag.
    weights: Vec<f64>,
}

impl Lot<'_, '_> {
    /// Adds a culture at a rate, with what was measured of it; `now`: its cells are there from the start.
    fn put(
        &mut self,
        culture: &Culture,
        (rate, measured): (f64, CultureMeasured),
        aged: &Aged,
        now: bool,
    ) -> Result<(), Note> {
        let dairy = self.blend.dairy;
        let mixed = |in_dairy: f64, in_plant: f64| {
            dairy * in_dairy + (1.0 - dairy) * in_plant * self.blend.plant_pace
        };
        let speed = match measured.pace {
            Some(pace) => mixed(pace.value, pace.value),
            None => mixed(culture.speed_dairy.value, culture.speed_plant.value),
        };
        let growth = &self.look.laws.growth;
        let cold = match culture.cold_acid {
            ColdAcid::Mild => growth.cold_mild,
            ColdAcid::Medium => growth.cold_medium,
            ColdAcid::Sharp => growth.cold_sharp,
        };
        for dose in &culture.doses {
            let entry = self.look.entry::<Entry>(&dose.organism)?;
            let count = dose.cfu_per_g.value * rate * 10.0_f64.powf(-aged.decades);
            let at = match self.organisms.iter().position(|o| o.key == entry.key) {
                Some(at) => at,
                None => {
                    self.organisms.push(plain(entry, growth.store_loss));
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
            let shipped = || dose.lag_work.as_ref().map_or(culture.lag_work.value, |w| w.value);
            let work = measured.lag.map_or_else(shipped, |lag| lag.value) + aged.lag_work;
            o.lag_work += share * (work - o.lag_work);
            let released =
                dose.galactose_released.as_ref().map_or(entry.galactose_released.value, |g| g.value);
            o.galactose_released += share * (released - o.galactose_released);
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
            let entry = self.look.entry::<Entry>(&organism.key)?;
            organism.helpers = entry
                .helpers
                .iter()
                .map(|h| (keys.iter().position(|k| *k == h.organism), h.share.value, h.half_count.value))
                .collect();
        }
        Ok(())
    }

    /// What salt, sugar, preservatives and residues leave of each organism's rates.
    fn hold_back(&mut self, amounts: &[f64; 7]) -> Result<(), Note> {
        let acids = &self.look.laws.acids;
        for organism in &mut self.organisms {
            for s in &self.look.entry::<Entry>(&organism.key)?.sensitive {
                let amount = amounts[s.to.index()];
                let pka = match s.to {
                    Inhibitor::Benzoate => Some(acids.benzoic_pka),
                    Inhibitor::Sorbate => Some(acids.sorbic_pka),
                    _ => None,
                };
                match pka {
                    Some(pka) if amount > 0.0 => organism.preservatives.push(Preservative {
                        pka,
                        amount,
                        half: s.half.value,
                        steepness: s.steepness.value,
                    }),
                    Some(_) => {}
                    None => {
                        organism.held_back *= potset_science::kinetics::inhibition::by_amount(
                            amount,
                            s.half.value,
                            s.steepness.value,
                        );
                    }
                }
            }
        }
        Ok(())
    }
}

/// - `usual_loss` — decades a week in the cold, where the entry tells none.
fn plain(e: &Entry, usual_loss: f64) -> Organism {
    let mut eats = [0.0; 8];
    for food in &e.eats {
        eats[food.sugar.index()] = food.weight.value;
    }
    Organism {
        key: e.key.clone(),
        name: e.name.clone(),
        growth_rate: e.growth_rate.value,
        temperature: [e.temperature_min_c.value, e.temperature_opt_c.value, e.temperature_max_c.value],
        ph: [e.ph_min.value, e.ph_opt.value, e.ph_max.value],
        acid_ceiling: e.acid_ceiling.value,
        acid_exponent: e.acid_exponent.value,
        acid_per_cell: e.acid_per_cell.value,
        acid_per_cell_hour: e.acid_per_cell_hour.value,
        lactic_per_hexose: e.lactic_per_hexose.value,
        acetic_per_hexose: e.acetic_per_hexose.value,
        galactose_released: e.galactose_released.value,
        half_saturation: e.half_saturation.value,
        d60_min: e.d60_min.value,
        z_c: e.z_c.value,
        cold_loss: e.cold_loss.as_ref().map_or(usual_loss, |loss| loss.value),
        eats,
        helpers: Vec::new(),
        count: 0.0,
        speed: 0.0,
        lag_work: 0.0,
        held_back: 1.0,
        preservatives: Vec::new(),
        cold_factor: 0.0,
    }
}

/// Sugar in the pot that any of its organisms eats, g/kg.
pub fn edible_g_kg(organisms: &[Organism], sugars: &[f64; 8]) -> f64 {
    Sugar::ALL
        .iter()
        .filter(|s| organisms.iter().any(|o| o.eats[s.index()] > 0.0))
        .map(|s| sugars[s.index()] * s.g_mol() * 1e-3)
        .sum()
}
