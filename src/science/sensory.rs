//! Tang and sweetness: what the tongue makes of acid and sugar.

use crate::params::WordLaw;
use potset_base::constants::{ACETIC_G_MOL, LACTIC_G_MOL};
use potset_base::words::{SweetLevel, SweetWord, TangWord, TextureWord};

/// Sucrose equivalents, g/kg, of sugars in g/kg.
///
/// Source: from memory, sweetness against sucrose, see `assets/parameters.ron`.
pub fn sucrose_equivalents(sugars: &[f64; 8], law: &WordLaw) -> f64 {
    let [lactose, sucrose, glucose, fructose, galactose, maltose, raffinose, stachyose] = *sugars;
    lactose * law.sweet_lactose
        + sucrose
        + glucose * law.sweet_glucose
        + fructose * law.sweet_fructose
        + galactose * law.sweet_galactose
        + maltose * law.sweet_maltose
        + raffinose * law.sweet_raffinose
        + stachyose * law.sweet_stachyose
}

/// Tang word for undissociated lactic acid, mmol/kg.
///
/// Source: assumed thresholds, ordered by published end points, see `assets/parameters.ron`.
pub fn tang(undissociated: f64, law: &WordLaw) -> TangWord {
    if undissociated < law.flat_below {
        TangWord::Flat
    } else if undissociated < law.mild_below {
        TangWord::Mild
    } else if undissociated < law.bright_below {
        TangWord::Bright
    } else if undissociated < law.sharp_below {
        TangWord::Sharp
    } else {
        TangWord::Biting
    }
}

/// Undissociated lactic acid, mmol/kg, where a tang word begins and ends.
pub fn tang_bounds(word: TangWord, law: &WordLaw) -> (f64, f64) {
    match word {
        TangWord::Flat => (0.0, law.flat_below),
        TangWord::Mild => (law.flat_below, law.mild_below),
        TangWord::Bright => (law.mild_below, law.bright_below),
        TangWord::Sharp => (law.bright_below, law.sharp_below),
        TangWord::Biting => (law.sharp_below, f64::INFINITY),
    }
}

/// Where a span of texture words begins and ends, Pa·s; open where nothing is too thick.
pub fn texture_bounds(low: TextureWord, high: TextureWord, law: &WordLaw) -> (f64, Option<f64>) {
    let begins = match low {
        TextureWord::Pours => 0.0,
        TextureWord::Ribbons => law.pours_below,
        TextureWord::Dollops => law.ribbons_below,
        TextureWord::Stands | TextureWord::Cuts => law.dollops_below,
    };
    let ends = match high {
        TextureWord::Pours => Some(law.pours_below),
        TextureWord::Ribbons => Some(law.ribbons_below),
        TextureWord::Dollops => Some(law.dollops_below),
        TextureWord::Stands | TextureWord::Cuts => None,
    };
    (begins, ends)
}

/// How sweet it is by itself, by sucrose equivalents in g/kg.
///
/// Source: assumed thresholds, see `assets/parameters.ron`.
pub fn sweet_level(equivalents_g_kg: f64, law: &WordLaw) -> SweetLevel {
    let bounds = [law.not_sweet_below, law.little_sweet_below, law.sweet_below];
    let passed = bounds.iter().filter(|bound| equivalents_g_kg >= **bound).count();
    SweetLevel::ALL[passed]
}

/// Sweetness word: sucrose equivalents over acid made, by weight.
pub fn sweetness(equivalents_g_kg: f64, lactic_mmol: f64, acetic_mmol: f64, law: &WordLaw) -> SweetWord {
    let acid = (lactic_mmol * LACTIC_G_MOL + acetic_mmol * ACETIC_G_MOL) * 1e-3;
    if equivalents_g_kg > law.balanced_below * acid {
        SweetWord::SweetnessLeads
    } else if equivalents_g_kg >= law.acid_leads_below * acid {
        SweetWord::Balanced
    } else {
        SweetWord::AcidLeads
    }
}
