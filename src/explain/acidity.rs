//! Titratable acidity in the degrees of the trade.

use potset_base::number;
use potset_science::acid_base::titration::{dornic, soxhlet_henkel, thorner};

/// A titratable acidity in % as lactic acid, in °D, °SH and °Th.
pub fn scales(percent: f64) -> [f64; 3] {
    [dornic(percent), soxhlet_henkel(percent), thorner(percent)]
}

/// "72 °D, 32 °SH, 80 °Th" of a titratable acidity in % as lactic acid.
pub fn degrees(percent: f64) -> String {
    let [dornic, soxhlet_henkel, thorner] = scales(percent);
    [(dornic, "°D"), (soxhlet_henkel, "°SH"), (thorner, "°Th")]
        .map(|(value, unit)| number::with_unit(value, 0, unit))
        .join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_acidity_in_three_scales() {
        // Source: published, titratable-acidity unit tables: 0.90 % = 90 °D = 40 °SH = 100 °Th.
        assert_eq!(degrees(0.90), "90\u{a0}°D, 40\u{a0}°SH, 100\u{a0}°Th");
    }
}
