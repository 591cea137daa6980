//! What a pot is made of for the table of nutrition: grams of each nutrient before the culture, and what is not known.

use super::blend::{Blend, Part};
use super::lookup::Lookup;
use potset_base::allergen::allergen;
use potset_base::{Cited, Note, Sugar};
use potset_doc::design::{AddedWhen, LabelFigures, SweetWhen};
use potset_doc::lines::Packed;
use potset_doc::pantry::{
    Action, Additive, Base, BaseKind, Culture, Entry, EntryKind, Nutrients, SugarShare, Sweetener, Thickener,
};
use potset_science::acid_base::titration;
use potset_science::nutrition::Macros;

/// One ingoing thing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ingoing {
    pub name: String,
    pub grams: f64,
    /// Money, if it has a price.
    pub money: Option<f64>,
    /// Water, which needs no price.
    pub water: bool,
    pub allergens: Vec<String>,
    /// Allergens that its label says it may contain, in its own words.
    pub may_contain: Vec<String>,
    pub vegan: bool,
    pub gluten_free: bool,
}

/// What a pot is made of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Content {
    /// What goes in before or with the culture, in the whole pot.
    pub early: Macros,
    /// What is stirred in after the hold.
    pub late: Macros,
    /// Sweetness of what is none of the eight sugars, g sucrose: put in before the culture, and stirred in.
    pub sweet: [f64; 2],
    pub early_kg: f64,
    pub late_kg: f64,
    /// In the order of the design.
    pub ingoing: Vec<Ingoing>,
    /// Nutrients that are not known of something that goes in: "saturates of whole cow's milk".
    pub unknown: Vec<String>,
}

/// Share of a whole that is too little to be listed as unknown, 0 to 1 (assumed).
const TRACE: f64 = 2e-3;

/// Adds up what goes in.
///
/// # Errors
/// A note if an entry is missing.
pub fn content(look: &Lookup<'_>, blend: &Blend<'_>) -> Result<Content, Note> {
    let mut all = Content { early_kg: blend.kg, ..Content::default() };
    let litres = look.design.litres();
    for (part, line) in blend.parts.iter().zip(&look.design.bases) {
        let grams = part.kg * 1000.0;
        let macros = of_base(part, &line.label, &mut all.unknown);
        all.early = all.early.plus(macros.times(grams / 100.0));
        all.list(look, EntryKind::Base, part.entry, grams, part.entry.density.value);
        all.labelled(line.packed.as_ref());
    }
    for line in &look.design.sugars {
        let entry = look.entry::<Sweetener>(&line.entry)?;
        let (grams, late) = (line.g_per_l * litres, line.when == SweetWhen::AfterTheHold);
        let macros =
            of_dry(&entry.name, &entry.nutrients, &entry.sugars, &mut all.unknown, grams / 10.0 / blend.kg);
        all.sweet[usize::from(late)] += grams * entry.sweetness.as_ref().map_or(0.0, |s| s.value);
        all.take(macros, grams, late);
        all.list(look, EntryKind::Sugar, entry, grams, entry.bulk_density.value);
    }
    for line in &look.design.thickeners {
        let entry = look.entry::<Thickener>(&line.entry)?;
        let grams = line.g_per_l * litres;
        let share = grams / 10.0 / blend.kg;
        let mut macros =
            of_dry(&entry.name, &entry.nutrients, entry.action.sugars(), &mut all.unknown, share);
        if let Action::Protein { protein, fat, .. } = &entry.action {
            (macros.protein, macros.fat) = (protein.value, fat.value);
        }
        all.take(macros, grams, false);
        all.list(look, EntryKind::Thickener, entry, grams, entry.bulk_density.value);
    }
    for line in &look.design.additives {
        let entry = look.entry::<Additive>(&line.entry)?;
        let (grams, late) = (line.g_per_l * litres, line.when == AddedWhen::AfterTheHold);
        let mut macros =
            of_dry(&entry.name, &entry.nutrients, &entry.sugars, &mut all.unknown, grams / 10.0 / blend.kg);
        let acid = |c: &Option<Cited>| c.as_ref().map_or(0.0, |c| c.value);
        // mmol/g as lactic acid, g per 100 g.
        let own = titration::made_percent(acid(&entry.lactic) + acid(&entry.acetic), 0.0) * 1000.0;
        macros.acids = macros.acids.max(own);
        if macros.calcium == 0.0 {
            macros.calcium = entry.calcium.as_ref().map_or(0.0, |c| c.value * 100.0);
        }
        all.take(macros, grams, late);
        all.list(look, EntryKind::Additive, entry, grams, entry.bulk_density.value);
    }
    for line in &look.design.cultures {
        let entry = look.entry::<Culture>(&line.entry)?;
        let grams = line.rate * line.grams_per_litre(entry) * litres;
        all.list(look, EntryKind::Culture, entry, grams, 1.0);
    }
    Ok(all)
}

impl Content {
    /// What the label of the last listed thing says besides its figures.
    fn labelled(&mut self, packed: Option<&Packed>) {
        let (Some(packed), Some(thing)) = (packed, self.ingoing.last_mut()) else { return };
        for key in &packed.contains {
            let Some(known) = allergen(key) else { continue };
            if !thing.allergens.contains(key) {
                thing.allergens.push(key.clone());
            }
            thing.vegan &= !known.animal;
            thing.gluten_free &= !known.gluten;
        }
        thing.may_contain.clone_from(&packed.may_contain);
        if !packed.name.is_empty() {
            thing.name.clone_from(&packed.name);
        }
    }

    /// Sweetness of what is none of the eight sugars, g sucrose per kg of what is eaten.
    ///
    /// - `left` — of what is dissolved in 1 kg of the mix, the share that is in 1 kg of what is eaten.
    /// - `strained` — share that ran off as whey before the rest was stirred in.
    pub fn other_sweet(&self, left: f64, strained: f64) -> f64 {
        let early = if self.early_kg > 0.0 { self.sweet[0] / self.early_kg } else { 0.0 };
        let all_kg = self.early_kg * (1.0 - strained) + self.late_kg;
        early * left + if all_kg > 0.0 { self.sweet[1] / all_kg } else { 0.0 }
    }

    fn take(&mut self, per_100g: Macros, grams: f64, late: bool) {
        let macros = per_100g.times(grams / 100.0);
        if late {
            self.late = self.late.plus(macros);
            self.late_kg += grams / 1000.0;
        } else {
            self.early = self.early.plus(macros);
        }
    }

    /// Lists what goes in. Prices are those of now: the pantry's ticket comes before the design's own copy.
    fn list(&mut self, look: &Lookup<'_>, kind: EntryKind, entry: &dyn Entry, grams: f64, density: f64) {
        if grams <= 0.0 {
            return;
        }
        let now = look.pantry.entry(kind, entry.key()).and_then(|e| e.ticket().price);
        let price = now.or(entry.ticket().price);
        self.ingoing.push(Ingoing {
            name: entry.name().to_owned(),
            grams,
            water: kind == EntryKind::Base
                && look.entry::<Base>(entry.key()).is_ok_and(|b| b.kind == BaseKind::Water),
            money: price.and_then(|p| p.per_gram(density)).map(|per_gram| per_gram * grams),
            may_contain: Vec::new(),
            allergens: entry.allergens().to_vec(),
            vegan: entry.vegan().unwrap_or(true),
            gluten_free: entry.gluten_free().unwrap_or(true),
        });
    }
}

/// A base as it goes in, g per 100 g, after the figures of its label.
fn of_base(part: &Part<'_>, label: &LabelFigures, unknown: &mut Vec<String>) -> Macros {
    let (make, entry) = (&part.make, part.entry);
    let own_fat = entry.composition.fat.value;
    let n = &entry.nutrients;
    // Saturates go with the fat that the label states.
    let saturates = label.saturates.or_else(|| {
        let own = n.saturates.as_ref()?.value;
        Some(if own_fat > 0.0 { own * make.fat * 100.0 / own_fat } else { own })
    });
    let sodium = label.sodium.or_else(|| n.sodium.as_ref().map(|s| s.value));
    let mut know = |known: Option<f64>, what: &str, matters: bool| {
        if known.is_none() && matters {
            unknown.push(format!("{what} of {}", entry.name));
        }
        known.unwrap_or(0.0)
    };
    let water = entry.kind == BaseKind::Water;
    Macros {
        fat: make.fat * 100.0,
        saturates: know(saturates, "saturates", make.fat > TRACE),
        protein: make.protein * 100.0,
        carbohydrate: make.carbohydrate * 100.0,
        sugars: counted(&make.sugars) * 100.0,
        lactose: make.sugars[Sugar::Lactose.index()] * 100.0,
        galactose: make.sugars[Sugar::Galactose.index()] * 100.0,
        fibre: make.fibre * 100.0,
        polyols: 0.0,
        idle: 0.0,
        acids: 0.0,
        sodium: know(sodium, "sodium", !water),
        calcium: part.calcium,
    }
}

/// Mono- and disaccharides: raffinose and stachyose are no sugars on a label.
fn counted(sugars: &[f64; 8]) -> f64 {
    sugars.iter().sum::<f64>() - sugars[Sugar::Raffinose.index()] - sugars[Sugar::Stachyose.index()]
}

/// Something dry, g per 100 g. Whatever matters at this share of the pot [%] and is not known is listed.
fn of_dry(
    name: &str,
    n: &Nutrients,
    sugars: &[SugarShare],
    unknown: &mut Vec<String>,
    percent: f64,
) -> Macros {
    let v = |c: &Option<Cited>| c.as_ref().map_or(0.0, |c| c.value);
    let mut shares = [0.0; 8];
    for share in sugars {
        shares[share.sugar.index()] += share.g_per_100g.value;
    }
    let sugar: f64 = shares.iter().sum();
    let nothing = [&n.carbohydrate, &n.fibre, &n.protein, &n.polyols, &n.acids].iter().all(|c| c.is_none());
    let idle = n.energy.as_ref().is_some_and(|e| e.value == 0.0);
    if nothing && sugar == 0.0 && percent > TRACE * 100.0 {
        unknown.push(format!("nutrition of {name}"));
    }
    Macros {
        fat: v(&n.fat),
        saturates: v(&n.saturates),
        protein: v(&n.protein),
        carbohydrate: n.carbohydrate.as_ref().map_or(sugar, |c| c.value),
        sugars: counted(&shares),
        lactose: shares[Sugar::Lactose.index()],
        galactose: shares[Sugar::Galactose.index()],
        fibre: v(&n.fibre),
        polyols: if idle { 0.0 } else { v(&n.polyols) },
        idle: if idle { v(&n.polyols) } else { 0.0 },
        acids: v(&n.acids),
        sodium: v(&n.sodium),
        calcium: v(&n.calcium),
    }
}
