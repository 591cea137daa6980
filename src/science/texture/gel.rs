//! The acid gels of dairy, soy, pea and nut protein.

use super::inputs::TextureInputs;
use super::whey_protein;
use crate::params::GelLaw;

/// Development of an acid gel with falling pH, 0 to 1 and a little below 1 when over-sour.
///
/// `s = ((pH_gel − pH)/(pH_gel − 4.6))^1.5`, less `0.5 (4.2 − pH)` of itself below pH 4.2
///
/// Source: assumed shape; gelation pH from memory, direction published, Anema et al. 2004.
pub fn development(ph: f64, start_ph: f64, law: &GelLaw) -> f64 {
    if ph >= start_ph {
        return 0.0;
    }
    let rise = ((start_ph - ph) / (start_ph - law.end_ph)).min(1.0).powf(law.ph_exponent);
    let over = (law.weaken_below_ph - ph).max(0.0) * law.weaken_per_ph;
    rise * (1.0 - over).max(0.3)
}

/// pH at which the dairy gel starts, for a degree of denaturation: `4.85 + 0.45 D`.
pub fn dairy_start_ph(denatured: f64, law: &GelLaw) -> f64 {
    law.start_ph + law.start_ph_heat * denatured
}

/// pH at which the pot's leading protein starts to gel.
pub fn start_ph(pot: &TextureInputs, denatured: f64, law: &GelLaw) -> f64 {
    let nuts = pot.pea_protein.max(pot.nut_protein);
    if pot.dairy_protein >= pot.soy_protein.max(nuts) {
        dairy_start_ph(denatured, law)
    } else if pot.soy_protein >= nuts {
        law.soy_start_ph
    } else {
        law.pea_start_ph
    }
}

/// Conditions of a protein gel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Protein, g/100 g of mix.
    pub protein: f64,
    /// Effective starch packing.
    pub packing: f64,
    pub denatured: f64,
    pub hottest_c: f64,
    pub ph: f64,
    /// Temperature in which the gel was made, °C.
    pub made_at_c: f64,
    /// Temperature now, °C.
    pub now_c: f64,
    pub set_style: bool,
    pub days: f64,
    /// Factor of fat in the gel.
    pub filler: f64,
}

/// Stiffness of the dairy gel, Pa.
///
/// `G42 = (10 + 190 D^1.5) (p/3.3)^m`, `m = 2.6 + 1.4 (1 − D)`; times over-heating, development, filler, incubation
/// temperature `e^(−0.03 (Tinc − 42))`, cooling `e^(0.024 (Tinc − T))`, [`rested`] for days in the cold
///
/// - Valid for 2-12 % protein, pH 4.0-4.8, 4-45 °C; one sigma is a factor of 2.
/// - Source: assumed form; each constant's own source in `assets/parameters.ron`.
pub fn dairy(c: &Conditions, law: &GelLaw) -> f64 {
    if c.protein <= 0.0 {
        return 0.0;
    }
    let developed = development(c.ph, dairy_start_ph(c.denatured.clamp(0.0, 1.0), law), law);
    if developed <= 0.0 {
        return 0.0;
    }
    let d = c.denatured.clamp(0.0, 1.0);
    let exponent = law.protein_exponent_heated + law.protein_exponent_unheated_extra * (1.0 - d);
    let protein = excluded(c.protein, c.packing, law) / law.protein_reference;
    let base = (law.unheated_pa + law.heated_pa * d.powf(law.heat_exponent)) * protein.powf(exponent);
    let over_heat = (1.0 - law.over_heat_per_c * (c.hottest_c - law.over_heat_from_c).max(0.0)).max(0.0);
    let slope = if c.set_style { law.incubation_slope } else { 0.0 };
    base * over_heat
        * developed
        * c.filler
        * (slope * (c.made_at_c - law.reference_c) + law.chill_slope * (c.made_at_c - c.now_c)).exp()
        * rested(c.days, law)
}

/// Factor of days in the cold: `1 + (most − 1)(1 − e^(−d/τ))`, fast first and then flat.
///
/// Source: shape assumed; stirred yogurts gained 2.6 times by day 28 (Dairy Sci Technol 2009 dst0909), doubled by day 1 and
/// fell again (Dan et al. 2019), or gained 5-20 % by week 4.
pub fn rested(days: f64, law: &GelLaw) -> f64 {
    1.0 + (law.most_by_days - 1.0) * (1.0 - (-days / law.days_tau).exp())
}

/// Stiffness of the soy gel, Pa: `500 (p/3.5)^2.7 s(pH) e^(0.015 (Tinc − T))`.
///
/// Source: derived, vane stress of set soy yogurt 2.3 to 5.5 times that of dairy of like protein, exponent 2.2-2.8
/// (Kovalenko and Briggs, J Texture Stud); stirred soy yogurt of 2.5 and 5 % protein, 2.7 (Zhang et al. 2024).
pub fn soy(c: &Conditions, law: &GelLaw) -> f64 {
    plant(c, law, (law.soy_pa, law.soy_reference, law.soy_exponent), law.soy_start_ph, law.soy_chill_slope)
}

/// Stiffness of the pea gel, Pa: `100 (p/5)³ s(pH) e^(0.015 (Tinc − T))`.
///
/// Source: assumed, order of magnitude only; 10 % pea gives 800 Pa, in line with Klost and Drusch 2019.
pub fn pea(c: &Conditions, law: &GelLaw) -> f64 {
    plant(c, law, (law.pea_pa, law.pea_reference, law.pea_exponent), law.pea_start_ph, law.pea_chill_slope)
}

/// Stiffness of what nut protein makes of itself, Pa: `40 (p/4)³ s(pH) e^(0.015 (Tinc − T))`, pH and slopes of pea.
///
/// Source: assumed; no measurement found, weak by all accounts.
pub fn nut(c: &Conditions, law: &GelLaw) -> f64 {
    plant(c, law, (law.nut_pa, law.nut_reference, law.pea_exponent), law.pea_start_ph, law.pea_chill_slope)
}

/// A plant gel: stiffness at a reference protein, that protein, exponent; where it starts; how it stiffens in the cold.
fn plant(
    c: &Conditions,
    law: &GelLaw,
    (pa, reference, exponent): (f64, f64, f64),
    start_ph: f64,
    slope: f64,
) -> f64 {
    let developed = if c.protein > 0.0 { development(c.ph, start_ph, law) } else { 0.0 };
    if developed <= 0.0 {
        return 0.0;
    }
    pa * (excluded(c.protein, c.packing, law) / reference).powf(exponent)
        * developed
        * (slope * (c.made_at_c - c.now_c)).exp()
}

/// What swollen starch leaves of the water: protein and droplets are crowded by `1 + 0.25 min(1, x)`.
pub fn excluded(amount: f64, packing: f64, law: &GelLaw) -> f64 {
    amount * (1.0 + law.exclusion * packing.min(1.0))
}

/// Share of the largest packing of fat above which its factor is held: whatever the packing, no gel is endless.
/// Source: assumed, φ 0.28 of 0.32.
const HELD_FROM: f64 = 0.875;

/// Factor of fat in a dairy gel: homogenised droplets are part of the network, `(1 − 2φ/0.64)^−1.6`; others only take
/// up room, `1 − φ`. Above φ 0.28, seven eighths of the largest packing, the first is held (a note says so).
pub fn filler(fat_volume: f64, homogenised: f64, law: &GelLaw) -> f64 {
    let phi = fat_volume.min(HELD_FROM * law.filler_packing);
    let active = (1.0 - phi / law.filler_packing).powf(-law.filler_exponent);
    homogenised * active + (1.0 - homogenised) * (1.0 - fat_volume)
}

/// Degree of denaturation from the integral, for callers of this module.
pub fn denatured(integral: f64) -> f64 {
    whey_protein::degree(integral)
}
