//! What holds growth back or helps it along besides temperature and pH: acid, the partner, preservatives and residues.

use super::organism::Preservative;
use crate::acid_base::charge_balance::dissociated;

/// Slowing by undissociated lactic acid: `max(0, 1 − HL/HLmax)^n`.
///
/// - `undissociated`, `ceiling` — mmol/kg. Result — \[-\], 0 to 1.
/// - Source: published form, Levenspiel 1980, Biotechnol Bioeng 22:1671; ceilings in the pantry.
pub fn by_acid(undissociated: f64, ceiling: f64, exponent: f64) -> f64 {
    let room = (1.0 - undissociated / ceiling).max(0.0);
    if exponent == 1.0 { room } else { room.powf(exponent) }
}

/// Help from a partner: `1 − c + c N/(N + K)`.
///
/// - `partner` — N, cfu/g; `share` — c, 0 to 1; `half` — K, cfu/g. Result — \[-\], 1 − c without the partner.
/// - Source: assumed form; the facts behind it (peptides one way, formate and CO2 the other) are published:
///   J Dairy Sci 2012, 95:2904 (abstract).
pub fn by_partner(partner: f64, share: f64, half: f64) -> f64 {
    1.0 - share + share * partner / (partner + half)
}

/// Slowing by an inhibitor: `1/(1 + (C/C50)^n)`.
///
/// - Source: published form, Hill 1910; amounts in the pantry.
pub fn by_amount(amount: f64, half: f64, steepness: f64) -> f64 {
    if amount <= 0.0 { 1.0 } else { 1.0 / (1.0 + (amount / half).powf(steepness)) }
}

/// Slowing by preservative acids, each by its undissociated part `C/(1 + 10^(pH − pKa))`.
pub fn by_preservatives(all: &[Preservative], ph: f64) -> f64 {
    all.iter().map(|p| by_amount(p.amount * (1.0 - dissociated(ph, p.pka)), p.half, p.steepness)).product()
}

/// Room left in the pot: `max(0, 1 − ΣN/Nmax)`.
pub fn by_crowding(total: f64, ceiling: f64) -> f64 {
    (1.0 - total / ceiling).max(0.0)
}
