//! Additives as the model sees them: proton-binding sites, acids, lactase, what holds a culture back, what is stirred in late.

use super::lookup::Lookup;
use potset_base::{Inhibitor, Note};
use potset_doc::design::{AddedWhen, SweetWhen};
use potset_doc::pantry::{Additive, Group, Sweetener, Thickener};
use potset_science::acid_base::charge_balance::{Brought, dissociated};
use potset_science::acid_base::{Site, titration};

/// pH at which a titration ends.
const END_PH: f64 = 8.3;

/// What additives bring to 1 kg of mix.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Additions {
    /// Sites put in with their protons.
    pub brought: Brought,
    /// Sites that give off carbon dioxide: their acid is gone for the titration.
    pub gassing: Vec<Site>,
    /// Acid that titrates, % lactic.
    pub titrates: f64,
    /// Lactic and acetic acid, mmol/kg.
    pub acids: [f64; 2],
    /// Lactase, units/kg; with the base, and with the culture.
    pub lactase_base: f64,
    pub lactase_culture: f64,
    /// Inhibitors, mass units per kg of mix.
    pub inhibitors: [f64; 7],
    /// Calcium, mg/100 g.
    pub calcium: f64,
    /// g/kg of each sugar.
    pub sugars: [f64; 8],
}

impl Additions {
    /// Takes in groups that bind acid, with the protons that they bring, g per kg of mix.
    pub fn bind(&mut self, groups: &[Group], g_kg: f64) {
        for group in groups {
            let site = site(group, g_kg);
            self.brought.sites.push(site);
            self.brought.held += site.amount * group.bound.value;
            let free = group.bound.value - (1.0 - dissociated(END_PH, site.pk));
            self.titrates += titration::made_percent(site.amount * free.max(0.0), 0.0);
        }
    }

    /// Takes in an additive, g per kg of mix. `settled`: it is in the base as bought, whose pH counts it already.
    pub fn take(&mut self, entry: &Additive, g_kg: f64, settled: bool) {
        if entry.gas {
            self.gassing.extend(entry.groups.iter().map(|group| site(group, g_kg)));
        }
        if !settled {
            self.bind(&entry.groups, g_kg);
        }
        for share in &entry.inhibits {
            self.inhibitors[share.inhibitor.index()] += share.per_g.value * g_kg;
        }
        let of = |amount: &Option<potset_base::Cited>| amount.as_ref().map_or(0.0, |c| c.value) * g_kg;
        self.calcium += of(&entry.calcium) / 10.0;
        self.acids[0] += of(&entry.lactic);
        self.acids[1] += of(&entry.acetic);
        for share in &entry.sugars {
            self.sugars[share.sugar.index()] += share.g_per_100g.value / 100.0 * g_kg;
        }
    }
}

fn site(group: &Group, g_kg: f64) -> Site {
    Site { amount: group.mmol_per_g.value * g_kg, pk: group.pk.value, n: 1.0 }
}

/// All that goes in before or with the culture, per kg of mix; with what the bases hold as bought.
///
/// - `held` — (additive key, g per kg of mix) of the bases.
///
/// # Errors
/// A note if an entry is missing.
pub fn additions(look: &Lookup<'_>, kg: f64, held: &[(String, f64)]) -> Result<Additions, Note> {
    let mut all = Additions::default();
    for (key, g_kg) in held {
        all.take(look.entry::<Additive>(key)?, *g_kg, true);
    }
    for line in look.design.additives.iter().filter(|l| l.when != AddedWhen::AfterTheHold) {
        let entry = look.entry::<Additive>(&line.entry)?;
        let g_kg = line.g_per_l * look.design.litres() / kg;
        all.take(entry, g_kg, false);
        let units = entry.lactase_per_g.as_ref().map_or(0.0, |c| c.value) * g_kg;
        match line.when {
            AddedWhen::WithTheBase => all.lactase_base += units,
            _ => all.lactase_culture += units,
        }
    }
    for line in &look.design.thickeners {
        all.bind(&look.entry::<Thickener>(&line.entry)?.groups, line.g_per_l * look.design.litres() / kg);
    }
    Ok(all)
}

/// What is stirred in after the hold: its share of the finished pot, sugars g/kg, acid mmol/kg.
///
/// # Errors
/// A note if an entry is missing.
pub fn stirred_in(look: &Lookup<'_>, kg: f64) -> Result<(f64, [f64; 8], f64), Note> {
    let mut grams = 0.0;
    let mut sugars = [0.0; 8];
    let mut late = Additions::default();
    let litres = look.design.litres();
    for line in look.design.sugars.iter().filter(|l| l.when == SweetWhen::AfterTheHold) {
        let g = line.g_per_l * litres;
        grams += g;
        for share in &look.entry::<Sweetener>(&line.entry)?.sugars {
            sugars[share.sugar.index()] += share.g_per_100g.value / 100.0 * g;
        }
    }
    for line in look.design.additives.iter().filter(|l| l.when == AddedWhen::AfterTheHold) {
        let g = line.g_per_l * litres;
        grams += g;
        late.take(look.entry::<Additive>(&line.entry)?, g, false);
    }
    let all_kg = kg + grams * 1e-3;
    let acid = (late.titrates / titration::made_percent(1.0, 0.0) + late.acids[0] + late.acids[1]) / all_kg;
    let sugars = std::array::from_fn(|s| (sugars[s] + late.sugars[s]) / all_kg);
    Ok((grams * 1e-3 / all_kg, sugars, acid))
}

/// Amounts of inhibitors in their own units: salt and sugar per 100 g of water, the others per kg.
pub fn inhibitors(additions: &Additions, water: f64, sugar_g_kg: f64) -> [f64; 7] {
    let mut out = additions.inhibitors;
    let per_water = |g_kg: f64| if water > 0.0 { g_kg / (water * 10.0) } else { 0.0 };
    let salt = Inhibitor::Salt.index();
    out[salt] = per_water(out[salt]);
    out[Inhibitor::Sugar.index()] = per_water(sugar_g_kg);
    out
}
