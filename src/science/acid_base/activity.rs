//! Activity of the hydrogen ion from ionic strength.

/// Activity coefficient of a monovalent ion.
///
/// `log10 f = -A (sqrt(I) / (1 + sqrt(I)) - 0.3 I)`, A = 0.509 at 25 °C
///
/// - `ionic_strength` — I, mol/L. Result — \[-\]; 1 for a pure dilute acid, about 0.8 in milk (I = 0.08).
/// - Valid to about I = 0.5; negative input counts as 0.
/// - Source: published, Davies 1962, Ion Association (Butterworths); A from memory of the handbook value.
/// - Limitations: A at 25 °C is used at all temperatures; at 40 °C it is 0.523, which moves pH by less than 0.005.
pub fn davies(ionic_strength: f64) -> f64 {
    let i = ionic_strength.max(0.0);
    let root = i.sqrt();
    10.0_f64.powf(-0.509 * (root / (1.0 + root) - 0.3 * i))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_when_dilute_and_about_four_fifths_in_milk() {
        assert!((davies(0.0) - 1.0).abs() < 1e-12);
        assert!((davies(0.08) - 0.79).abs() < 0.01);
    }
}
