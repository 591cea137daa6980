//! Flow of a broken gel, and what handling leaves of it.

use super::inputs::Handling;
use crate::params::FlowLaw;

/// Stress of a broken gel at a shear rate, of a stiffness of 1 Pa: `G' (0.03 + 0.003 γ^0.65)`, its three constants
/// moved by slime.
///
/// - `ropy` — share of the cells that make slime, 0 to 1.
///
/// Source: fitted to stirred low-fat yogurt, Dairy Sci Technol 2009 dst0909 Table VI (n published there).
pub fn broken_gel(shear: f64, ropy: f64, law: &FlowLaw) -> f64 {
    let consistency = law.consistency_share * towards(law.ropy_consistency, ropy);
    yield_stress(1.0, ropy, law) + consistency * shear.powf(law.index + ropy * law.ropy_index)
}

/// Yield stress of a broken gel, Pa: `0.03 G'`.
pub fn yield_stress(stiffness: f64, ropy: f64, law: &FlowLaw) -> f64 {
    stiffness * law.yield_share * towards(law.ropy_yield, ropy)
}

fn towards(factor: f64, share: f64) -> f64 {
    1.0 + share * (factor - 1.0)
}

/// Share of the protein gel's flow that handling leaves.
pub fn protein_left(handling: Handling, law: &FlowLaw) -> f64 {
    match handling {
        Handling::Spooned => law.spooned,
        Handling::Stirred => law.stirred,
        Handling::Worked => law.worked,
        Handling::Blended => law.blended,
    }
}

/// Share of the fat network that handling leaves.
pub fn fat_left(handling: Handling, law: &FlowLaw) -> f64 {
    match handling {
        Handling::Spooned => law.fat_spooned,
        Handling::Stirred => law.fat_stirred,
        Handling::Worked => law.fat_worked,
        Handling::Blended => law.fat_blended,
    }
}
