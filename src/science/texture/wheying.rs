//! Whey: how much a centrifuge would draw, how much stands on top, how much runs out when cut.

use crate::params::WheyingLaw;

/// Conditions of wheying.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Gel-making protein, g/100 g.
    pub protein: f64,
    pub fat: f64,
    pub made_at_c: f64,
    /// Swollen starch volume over water volume.
    pub packing: f64,
    /// `Σ dose/e-fold` of the thickeners that work.
    pub thickener_efolds: f64,
    /// The same of gelling agents alone: starch holds loose water by its packing already.
    pub gel_efolds: f64,
    /// Stiffness of the protein gel and of gelling agents, Pa.
    pub gel_pa: f64,
    /// Stiffness of the fat network, Pa.
    pub fat_pa: f64,
    /// Water that starches have given back in the cold, % of the pot.
    pub wept: f64,
    /// Factor of slime.
    pub ropy: f64,
    /// How far a gel has developed, 0 to 1: a liquid has no whey.
    pub developed: f64,
}

/// Whey, % of the pot: drawn by a centrifuge, standing on top within a week, running out a day after cutting.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Whey {
    pub centrifuged: f64,
    pub standing: f64,
    pub cut: f64,
}

/// Whey of a pot.
///
/// Protein gel: `30 (p/3.3)^−1.3 e^(−0.04 F) e^(0.05 (Tinc − 42)) Π e^(−c/c0)`; no gel: `60 max(0, 1 − cQ)`, held by gelling agents and solid
/// fat; the two are joined by the stiffness of the gel. Standing `0.06 S e^(0.10 (Tinc − 42))`, cut `0.5 S`.
///
/// - Result — %, one sigma ±8 points on the centrifuged one.
/// - Source: assumed form, set to published whey; each constant's own source in `assets/parameters.ron`.
pub fn whey(c: &Conditions, law: &WheyingLaw) -> Whey {
    let warmth = c.made_at_c - 42.0;
    let gel = if c.protein > 0.0 {
        (law.centrifuged
            * (c.protein / 3.3).powf(law.protein_exponent)
            * (law.fat_slope * c.fat + law.incubation_slope * warmth - c.thickener_efolds).exp())
        .min(law.starch_only)
    } else {
        0.0
    };
    let held = c.fat_pa / (c.fat_pa + law.fat_hold_pa);
    let loose = law.starch_only * (1.0 - c.packing).max(0.0) * (1.0 - held) * (-c.gel_efolds).exp();
    let lead = c.gel_pa / (c.gel_pa + law.gel_lead_pa);
    let centrifuged = (c.developed * (lead * gel + (1.0 - lead) * loose) * c.ropy + c.wept).min(90.0);
    Whey {
        centrifuged,
        standing: (law.standing_share * centrifuged * (law.standing_slope * warmth).exp()).min(centrifuged),
        cut: law.cut_share * centrifuged,
    }
}
