//! Constants of nature and molar masses worked out from atomic weights.

/// Molar gas constant, J/(mol K). Source: published, CODATA 2018 (exact since the 2019 SI).
pub const GAS_CONSTANT: f64 = 8.314_462_618;

/// Zero of the Celsius scale, K. Source: published, SI brochure, 9th edition.
pub const ZERO_CELSIUS_K: f64 = 273.15;

/// Standard acceleration of gravity, m/s². Source: published, 3rd CGPM 1901.
pub const GRAVITY: f64 = 9.806_65;

/// Conventional atomic weights of C, H and O. Source: published, IUPAC 2021 abridged table.
const CARBON: f64 = 12.011;
const HYDROGEN: f64 = 1.008;
const OXYGEN: f64 = 15.999;

/// Molar mass [g/mol] of a compound of carbon, hydrogen and oxygen.
pub const fn molar_mass(carbon: u32, hydrogen: u32, oxygen: u32) -> f64 {
    carbon as f64 * CARBON + hydrogen as f64 * HYDROGEN + oxygen as f64 * OXYGEN
}

/// Lactic acid, C3H6O3, g/mol.
pub const LACTIC_G_MOL: f64 = molar_mass(3, 6, 3);

/// Acetic acid, C2H4O2, g/mol.
pub const ACETIC_G_MOL: f64 = molar_mass(2, 4, 2);

/// Water, H2O, g/mol.
pub const WATER_G_MOL: f64 = molar_mass(0, 2, 1);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_lactic_acids_weigh_one_hexose() {
        assert!((2.0 * LACTIC_G_MOL - molar_mass(6, 12, 6)).abs() < 1e-9);
    }
}
