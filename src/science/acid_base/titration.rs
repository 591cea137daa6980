//! Titratable acidity; its units are in `base::acidity`.

use potset_base::constants::LACTIC_G_MOL;

/// Titratable acidity, % lactic acid, from the start acidity \[%\] and the acid made \[mmol/kg\].
///
/// `TA = TA0 + M_lactic/10^4 · (L + A)`, M 90.08 g/mol
///
/// - Source: derived, both acids are titrated wholly at the end point pH 8.3.
/// - Limitations: sour milk reads 0-20 % above this, since dissolved calcium phosphate comes down again on titration
///   (reasoned from the buffering of milk in Advanced Dairy Chemistry, vol. 3; size from memory).
pub fn percent(start: f64, lactic_mmol: f64, acetic_mmol: f64) -> f64 {
    start + made_percent(lactic_mmol, acetic_mmol)
}

/// Acid made, % as lactic acid.
pub fn made_percent(lactic_mmol: f64, acetic_mmol: f64) -> f64 {
    LACTIC_G_MOL * 1e-4 * (lactic_mmol + acetic_mmol)
}
