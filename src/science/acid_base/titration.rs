//! Titratable acidity and its units.

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

/// % lactic acid as degrees Dornic: 1 °D = 0.01 %. Source: published, titratable-acidity unit tables.
pub fn dornic(percent: f64) -> f64 {
    percent / 0.01
}

/// % lactic acid as degrees Soxhlet-Henkel: 1 °SH = 0.0225 %. Source: as [`dornic`].
pub fn soxhlet_henkel(percent: f64) -> f64 {
    percent / 0.0225
}

/// % lactic acid as degrees Thörner: 1 °Th = 0.009 %. Source: as [`dornic`].
pub fn thorner(percent: f64) -> f64 {
    percent / 0.009
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_tables_agree() {
        // Source: published, titratable-acidity unit tables: 7 °SH = 0.1575 %; 1 °SH = 2.5 °Th = 2.25 °D.
        assert!((soxhlet_henkel(0.1575) - 7.0).abs() < 1e-9);
        assert!((thorner(0.0225) - 2.5).abs() < 1e-9);
        assert!((dornic(0.0225) - 2.25).abs() < 1e-9);
    }
}
