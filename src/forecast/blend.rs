//! Bases and sugars of a design as one mix: composition, buffer, start pH.

use super::additions::{self, Additions};
use super::lookup::Lookup;
use super::measured;
use super::sites::{balanced, held_sites, shape};
use potset_base::{Note, Sugar};
use potset_doc::design::{BaseLine, SweetWhen};
use potset_doc::pantry::{Action, Base, BaseKind, FatFollows, ProteinKind, Sweetener, Thickener};
use potset_science::acid_base::{Balance, Site, charge_balance, sites};
use potset_science::thermal::choi_okos::Shares;

/// Composition of a base as it goes into the pot, shares of 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Make {
    pub fat: f64,
    pub protein: f64,
    pub carbohydrate: f64,
    pub fibre: f64,
    pub ash: f64,
    pub sugars: [f64; 8],
    /// Mean buffer, mmol/(kg pH).
    pub buffer: f64,
}

/// One base of the blend.
#[derive(Clone, Debug)]
pub struct Part<'a> {
    pub entry: &'a Base,
    pub kg: f64,
    pub make: Make,
    /// mg/100 g.
    pub calcium: f64,
    pub ph: f64,
    /// % lactic acid.
    pub start_acidity: f64,
}

/// The blend.
#[derive(Clone, Debug)]
pub struct Blend<'a> {
    pub parts: Vec<Part<'a>>,
    pub litres: f64,
    pub kg: f64,
    /// kg/L.
    pub density: f64,
    /// Shares of 1 by mass of the whole mix.
    pub shares: Shares,
    pub fat: f64,
    /// Share of the fat from plants.
    pub plant_fat: f64,
    /// Share of the fat from coconut.
    pub coconut_fat: f64,
    /// Share of the fat that is homogenised.
    pub homogenised: f64,
    pub droplet_um: f64,
    pub dairy_protein: f64,
    pub soy_protein: f64,
    pub pea_protein: f64,
    pub nut_protein: f64,
    /// Strength of the dairy gel against cow's milk.
    pub gel_strength: f64,
    /// mg/100 g.
    pub calcium: f64,
    /// Pace of a plant culture in it against tinned coconut cream.
    pub plant_pace: f64,
    pub additions: Additions,
    /// Share of dairy among the bases, water left out.
    pub dairy: f64,
    /// mmol/kg.
    pub sugars: [f64; 8],
    /// g/kg of sugar that came with the base.
    pub own_sugar_g_kg: f64,
    pub added_g_l: f64,
    pub balance: Balance,
    pub start_acidity: f64,
    /// Denatured share of the whey protein as bought.
    pub whey_denatured: f64,
}

/// What a base is made of after the figures of its label were taken over.
pub fn make(entry: &Base, line: &BaseLine) -> Make {
    let c = &entry.composition;
    let mut sugars = [0.0; 8];
    for share in &c.sugars {
        sugars[share.sugar.index()] += share.g_per_100g.value / 100.0;
    }
    let mut m = Make {
        fat: c.fat.value / 100.0,
        protein: c.protein.value / 100.0,
        carbohydrate: c.carbohydrate.value / 100.0,
        fibre: c.fibre.value / 100.0,
        ash: c.ash.value / 100.0,
        sugars,
        buffer: entry.mean_buffer.value,
    };
    if let Some(fat) = line.label.fat {
        let (old, new) = (m.fat, fat / 100.0);
        let factor = match entry.fat_follows {
            FatFollows::Dilution if old > 0.0 => new / old,
            FatFollows::Skimming if old < 1.0 => (1.0 - new) / (1.0 - old),
            _ => 1.0,
        };
        m.scale(factor);
        m.fat = new;
    }
    if let Some(protein) = line.label.protein {
        m.protein = protein / 100.0;
    }
    if let Some(sugar) = line.label.sugars {
        let (old, new) = (m.sugars.iter().sum::<f64>(), sugar / 100.0);
        if old > 0.0 {
            m.sugars = m.sugars.map(|s| s * new / old);
        } else {
            // Nothing says which sugar it is: the usual one of the kind.
            let usual = if entry.kind == BaseKind::Dairy { Sugar::Lactose } else { Sugar::Sucrose };
            m.sugars[usual.index()] = new;
        }
        m.carbohydrate += new - old;
    }
    if let Some(carbohydrate) = line.label.carbohydrate {
        m.carbohydrate = carbohydrate / 100.0;
    }
    if let Some(fibre) = line.label.fibre {
        m.fibre = fibre / 100.0;
    }
    m
}

impl Make {
    fn scale(&mut self, factor: f64) {
        self.protein *= factor;
        self.carbohydrate *= factor;
        self.fibre *= factor;
        self.ash *= factor;
        self.buffer *= factor;
        self.sugars = self.sugars.map(|s| s * factor);
    }
}

/// Each base line as it goes in: after its label, and with what was measured of it.
fn parts<'a>(look: &Lookup<'a>) -> Result<Vec<Part<'a>>, Note> {
    let mut parts = Vec::new();
    for (i, line) in look.design.bases.iter().enumerate() {
        let entry = look.entry::<Base>(&line.entry)?;
        let mut make = make(entry, line);
        if let Some(buffer) = measured::buffer(look, i, line, entry)? {
            make.buffer = buffer;
        }
        let solids = make.fat + make.protein + make.carbohydrate + make.fibre + make.ash;
        if !(0.0..=1.0).contains(&solids) || make.carbohydrate < 0.0 {
            return Err(Note {
                sentence: format!("Its solids add up to {} %", potset_base::number::fixed(solids * 100.0, 0)),
                ..Note::error(
                    format!("bases[{i}].label"),
                    format!("The label of {} cannot be true", entry.name),
                    "Check fat, protein and sugars against the packet",
                )
            });
        }
        let calcium = line.label.calcium.unwrap_or(entry.composition.calcium.value);
        parts.push(Part {
            entry,
            kg: line.litres * entry.density.value,
            make,
            calcium,
            ph: measured::ph(line, entry),
            start_acidity: measured::start_acidity(line, entry),
        });
    }
    Ok(parts)
}

/// Blends the design's bases and sugars.
///
/// # Errors
/// A note if the figures of a label cannot be true.
pub fn blend<'a>(look: &Lookup<'a>) -> Result<Blend<'a>, Note> {
    let parts = parts(look)?;
    let base_litres = look.design.litres();
    let base_kg: f64 = parts.iter().map(|p| p.kg).sum();
    let (mut dry_kg, added_water, added) = sweetened(look, base_litres)?;
    let thickener_kg: f64 = look.design.thickeners.iter().map(|t| t.g_per_l * base_litres * 1e-3).sum();
    dry_kg += thickener_kg;
    let powders = powders(look, base_litres)?;
    let kg = base_kg + dry_kg;
    let litres = base_litres + dry_kg * look.laws.mixing.solids_volume;
    let sum = |f: &dyn Fn(&Part) -> f64| parts.iter().map(|p| p.kg * f(p)).sum::<f64>() / kg;
    let held: Vec<(String, f64)> = parts
        .iter()
        .flat_map(|p| p.entry.holds.iter().map(|h| (h.additive.clone(), h.g_per_kg.value * p.kg / kg)))
        .collect();
    let additions = additions::additions(look, kg, &held)?;
    let base_fat = sum(&|p| p.make.fat);
    let fat = base_fat + powders.fat / kg;
    let of_fat =
        |f: &dyn Fn(&Part) -> f64| if base_fat > 0.0 { sum(&|p| p.make.fat * f(p)) / base_fat } else { 0.0 };
    let no_water: f64 = parts.iter().filter(|p| p.entry.kind != BaseKind::Water).map(|p| p.kg).sum();
    let dairy_kg: f64 = parts.iter().filter(|p| p.entry.kind == BaseKind::Dairy).map(|p| p.kg).sum();
    let is = |p: &Part, kind: BaseKind| if p.entry.kind == kind { 1.0 } else { 0.0 };
    let own = std::array::from_fn::<f64, 8, _>(|s| {
        sum(&|p| p.make.sugars[s]) + powders.sugars[s] / kg + additions.sugars[s] * 1e-3
    });
    let all = std::array::from_fn::<f64, 8, _>(|s| own[s] + added[s] / kg);
    let of_kind = |kind: BaseKind| sum(&|p| p.make.protein * is(p, kind));
    let base_dairy = of_kind(BaseKind::Dairy);
    let dairy_protein = base_dairy + powders.protein[0] / kg;
    let added_sugar: f64 = added.iter().sum();
    let shares = Shares {
        protein: sum(&|p| p.make.protein) + powders.protein.iter().sum::<f64>() / kg,
        fat,
        carbohydrate: sum(&|p| p.make.carbohydrate) + added_sugar / kg + (thickener_kg - powders.other) / kg,
        fibre: sum(&|p| p.make.fibre),
        ash: sum(&|p| p.make.ash) + powders.ash / kg,
        water: 0.0,
    };
    let solid = shares.protein + shares.fat + shares.carbohydrate + shares.fibre + shares.ash;
    Ok(Blend {
        litres,
        kg,
        density: kg / litres,
        shares: Shares { water: (1.0 - solid).max(added_water / kg), ..shares },
        fat,
        plant_fat: of_fat(&|p| 1.0 - is(p, BaseKind::Dairy)),
        coconut_fat: of_fat(&|p| is(p, BaseKind::Coconut)),
        homogenised: of_fat(&|p| if p.entry.homogenised { 1.0 } else { 0.0 }),
        droplet_um: of_fat(&|p| p.entry.droplet_um.value),
        dairy_protein,
        soy_protein: of_kind(BaseKind::Soy) + powders.protein[1] / kg,
        pea_protein: of_kind(BaseKind::Pea) + powders.protein[2] / kg,
        nut_protein: of_kind(BaseKind::Nut),
        gel_strength: if dairy_protein > 0.0 {
            let strength = |p: &Part| p.entry.gel_strength.as_ref().map_or(1.0, |g| g.value);
            (sum(&|p| p.make.protein * is(p, BaseKind::Dairy) * strength(p)) + powders.protein[0] / kg)
                / dairy_protein
        } else {
            1.0
        },
        calcium: sum(&|p| p.calcium) + additions.calcium,
        plant_pace: plant_pace(look, &parts),
        dairy: if no_water > 0.0 { dairy_kg / no_water } else { 0.0 },
        sugars: std::array::from_fn(|s| all[s] * 1e6 / Sugar::ALL[s].g_mol()),
        own_sugar_g_kg: own.iter().sum::<f64>() * 1e3,
        added_g_l: added_sugar * 1e3 / litres,
        balance: balance(look, &parts, kg, &powders, &additions)?,
        start_acidity: sum(&|p| p.start_acidity) + additions.titrates,
        additions,
        whey_denatured: if base_dairy > 0.0 {
            sum(&|p| p.make.protein * is(p, BaseKind::Dairy) * p.entry.whey_denatured.value) / base_dairy
        } else {
            0.0
        },
        parts,
    })
}

/// Sweet things put in for the culture: kg of them, kg of water in them, and kg of each sugar.
fn sweetened(look: &Lookup<'_>, litres: f64) -> Result<(f64, f64, [f64; 8]), Note> {
    let (mut all, mut water, mut sugars) = (0.0, 0.0, [0.0; 8]);
    for line in look.design.sugars.iter().filter(|l| l.when == SweetWhen::BeforeTheCulture) {
        let entry = look.entry::<Sweetener>(&line.entry)?;
        let kg = line.g_per_l * litres * 1e-3;
        all += kg;
        water += kg * entry.water.value / 100.0;
        for share in &entry.sugars {
            sugars[share.sugar.index()] += kg * share.g_per_100g.value / 100.0;
        }
    }
    Ok((all, water, sugars))
}

/// Protein powders of the design, kg in the pot.
#[derive(Clone, Debug, Default)]
struct Powders {
    /// Milk, soy and pea protein.
    protein: [f64; 3],
    fat: f64,
    ash: f64,
    sugars: [f64; 8],
    /// Protein, fat and ash of them together.
    other: f64,
    /// (shape key, mmol/pH in the pot).
    buffers: Vec<(&'static str, f64)>,
}

fn powders(look: &Lookup<'_>, litres: f64) -> Result<Powders, Note> {
    let mut all = Powders::default();
    for line in &look.design.thickeners {
        let Action::Protein { kind, protein, fat, ash, sugars, buffer } =
            &look.entry::<Thickener>(&line.entry)?.action
        else {
            continue;
        };
        let kg = line.g_per_l * litres * 1e-3;
        let (place, shape) = match kind {
            ProteinKind::Milk => (0, "milk"),
            ProteinKind::Soy => (1, "plant"),
            ProteinKind::Pea => (2, "plant"),
        };
        all.protein[place] += kg * protein.value / 100.0;
        all.fat += kg * fat.value / 100.0;
        all.ash += kg * ash.value / 100.0;
        all.other += kg * (protein.value + fat.value + ash.value) / 100.0;
        for share in sugars {
            all.sugars[share.sugar.index()] += kg * share.g_per_100g.value / 100.0;
        }
        all.buffers.push((shape, kg * buffer.value));
    }
    Ok(all)
}

/// Mean pace of the plant bases by mass, water left out; 1 where there is none.
fn plant_pace(look: &Lookup<'_>, parts: &[Part<'_>]) -> f64 {
    let law = &look.laws.paces;
    let (mut sum, mut kg) = (0.0, 0.0);
    for part in parts {
        let usual = match part.entry.kind {
            BaseKind::Dairy | BaseKind::Water => continue,
            BaseKind::Coconut => law.coconut,
            BaseKind::Soy => law.soy,
            BaseKind::Oat => law.oat,
            BaseKind::Nut => law.nut,
            BaseKind::Pea => law.pea,
            BaseKind::Rice => law.rice,
        };
        sum += part.kg * part.entry.pace.as_ref().map_or(usual, |p| p.value);
        kg += part.kg;
    }
    if kg > 0.0 { sum / kg } else { 1.0 }
}

/// Buffers add by mass; the start pH is where the protons that one base gives are taken up by the others.
fn balance(
    look: &Lookup<'_>,
    parts: &[Part<'_>],
    kg: f64,
    powders: &Powders,
    additions: &Additions,
) -> Result<Balance, Note> {
    let base_kg: f64 = parts.iter().map(|p| p.kg).sum();
    let ionic = parts.iter().map(|p| p.kg * p.entry.ionic_strength.value).sum::<f64>() / base_kg;
    let mut all: Vec<Site> = Vec::new();
    let mut lots: Vec<(Balance, f64)> = Vec::new();
    for part in parts {
        let mut own = sites::scaled(&shape(look, &part.entry.buffer_shape)?, part.make.buffer, part.kg / kg);
        own.extend(held_sites(look, part.entry, part.kg / kg)?);
        all.extend_from_slice(&own);
        lots.push((balanced(look, own, part.ph, ionic), part.kg / kg));
    }
    // Protein powders come at the pH of the blend: they bind more acid, and move nothing at the start.
    for (key, mmol) in &powders.buffers {
        all.extend(sites::scaled(&shape(look, key)?, mmol / kg, 1.0));
    }
    let ph0 = charge_balance::start_ph(&lots, &additions.brought).map_err(|e| {
        Note::error(
            "bases",
            format!("The start pH of the blend could not be worked out: {e}"),
            "Check the pH of the bases, and lower the doses of acids and salts",
        )
    })?;
    all.extend_from_slice(&additions.brought.sites);
    Ok(balanced(look, all, ph0, ionic))
}
