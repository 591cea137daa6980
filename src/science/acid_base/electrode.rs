//! What a pH meter reads in a sample that was cooled.

use crate::params::AcidLaw;

/// pH that a meter reads when a sample is brought from one temperature to another.
///
/// `pH + slope (to − from)`, the slope of milk scaled by the share of dairy
///
/// - Source: direction published, Fox and McSweeney, Dairy Chemistry and Biochemistry; slope from memory.
pub fn read_at(ph: f64, from_c: f64, to_c: f64, dairy: f64, law: &AcidLaw) -> f64 {
    ph + dairy * law.electrode_per_c * (to_c - from_c)
}
