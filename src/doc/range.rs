//! What a number may be.

/// Range and unit of one kind of number in a design: (name, unit, least, most).
pub type Range = (&'static str, &'static str, f64, f64);
