//! Titratable acidity in the units that people have it in.
//!
//! Documents and laws hold % lactic acid; [`crate::units::said::acidity`] says it as a kitchen does.

use serde::{Deserialize, Serialize};

use crate::choices;

choices! {
    /// A unit of titratable acidity.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum AcidityUnit: words {
        #[default]
        Lactic => "% lactic acid",
        Dornic => "°D",
        SoxhletHenkel => "°SH",
        Thorner => "°Th",
    }
}

impl AcidityUnit {
    /// What one of it is, % lactic acid. Source: published, titratable-acidity unit tables.
    const fn one(self) -> f64 {
        match self {
            Self::Lactic => 1.0,
            Self::Dornic => 0.01,
            Self::SoxhletHenkel => 0.0225,
            Self::Thorner => 0.009,
        }
    }

    /// An acidity in this unit.
    pub fn of(self, percent: f64) -> f64 {
        percent / self.one()
    }

    /// A number of this unit, % lactic acid.
    pub fn percent(self, value: f64) -> f64 {
        value * self.one()
    }
}

#[cfg(test)]
mod tests {
    use super::AcidityUnit::{Dornic, SoxhletHenkel, Thorner};
    use super::*;

    #[test]
    fn unit_tables_agree() {
        // Source: published, titratable-acidity unit tables: 7 °SH = 0.1575 %; 1 °SH = 2.5 °Th = 2.25 °D.
        assert!((SoxhletHenkel.of(0.1575) - 7.0).abs() < 1e-9);
        assert!((Thorner.of(0.0225) - 2.5).abs() < 1e-9);
        assert!((Dornic.of(0.0225) - 2.25).abs() < 1e-9);
        for unit in AcidityUnit::ALL {
            assert!((unit.percent(unit.of(0.62)) - 0.62).abs() < 1e-12, "{unit:?}");
        }
    }
}
