//! A reading of a published case: what was measured, its value, and its scatter.

use serde::Deserialize;

use potset_base::{SourceKind, Sugar, number};

/// What was measured. Times are hours since the culture went in, or days in the cold.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum What {
    /// pH at a time, h.
    Ph(f64),
    /// Titratable acidity at a time, % lactic.
    Acidity(f64),
    /// Acid made by a time, % as lactic.
    AcidMade(f64),
    /// log10 of all living cells at a time, cfu/g.
    Count(f64),
    /// A sugar at a time, g/100 g.
    Sugar(Sugar, f64),
    /// Share of the lactose used by a time, %.
    LactoseUsed(f64),
    /// Share of a sugar used where the pot stands at a pH, %.
    SugarUsedAt(Sugar, f64),
    /// Hours to a pH.
    HoursTo(f64),
    /// Steepest fall, pH/h; when, h; at which pH.
    SteepestFall,
    HoursToSteepest,
    PhAtSteepest,
    /// pH at the moment when the same pot, held at `c`, has come to `ph`.
    PhAsSoonAs {
        c: f64,
        ph: f64,
    },
    /// The hold temperature of these that is first at a pH, °C.
    FastestOf {
        among: [f64; 3],
        to_ph: f64,
    },
    /// Titratable acidity, and acid made, where the pot stands at a pH, %.
    AcidityAt(f64),
    AcidMadeAt(f64),
    /// Galactose, and lactic acid, when so much lactose is left, g/100 g.
    GalactoseAtLactose(f64),
    LacticAtLactose(f64),
    /// After so many days in the cold.
    StoredPh(f64),
    StoredAcidity(f64),
    /// Acid made in the cold by a day, %.
    StoredAcidGain(f64),
    /// Change of a sugar in the cold by a day, g/100 g.
    StoredChange(Sugar, f64),
    /// Change of the living cells in the cold between two days, decades: of one organism, or of all together.
    StoredCountGain {
        of: Option<String>,
        from: f64,
        to: f64,
    },
    /// Yield stress, Pa, at a temperature after so many days.
    Yield {
        c: f64,
        days: f64,
    },
    /// Apparent viscosity, Pa·s, at a shear rate (10 or 50 1/s), a temperature, after so many days.
    Viscosity {
        shear: f64,
        c: f64,
        days: f64,
    },
    /// Emulsion of milk fat alone, Pa·s at 50 1/s: fat, g/100 g, and temperature.
    Emulsion {
        fat: f64,
        c: f64,
    },
    /// Whey drawn by a centrifuge, %.
    Whey,
    /// Thin layer below after so many hours of standing at the temperature and pH of the hold, % of the pot.
    ThinLayer(f64),
    /// Native whey protein left after so many minutes at a temperature, %.
    Native {
        c: f64,
        minutes: f64,
    },
    /// Specific heat at a temperature, kJ/(kg K).
    SpecificHeat(f64),
    /// Temperature of two parts stirred together, °C: mass, specific heat, temperature of each.
    Mixed([f64; 3], [f64; 3]),
    /// Hours from the hold to a temperature in the fridge.
    HoursToChill(f64),
    /// Boiling point of water at a height, m.
    Boils(f64),
    /// Codex class of a coconut base; 1 if it is this one.
    Class(String),
    /// The limit of its class that it misses; 1 if it is just this one.
    Misses(String),
    /// Line spread of a liquid of this viscosity, Pa·s; cm.
    LineSpread(f64),
}

impl What {
    /// Unit of the value.
    pub fn unit(&self) -> &'static str {
        self.unit_and_scatter(0.0).0
    }

    /// The usual scatter of such a reading, one sigma, where its source gives none. Source: assumed.
    pub fn usual_scatter(&self, v: f64) -> f64 {
        self.unit_and_scatter(v).1
    }

    fn unit_and_scatter(&self, v: f64) -> (&'static str, f64) {
        match self {
            Self::Ph(_) | Self::PhAtSteepest | Self::PhAsSoonAs { .. } | Self::StoredPh(_) => ("pH", 0.1),
            Self::Acidity(_)
            | Self::AcidMade(_)
            | Self::AcidityAt(_)
            | Self::AcidMadeAt(_)
            | Self::StoredAcidity(_)
            | Self::StoredAcidGain(_) => ("%", 0.05),
            Self::LactoseUsed(_) => ("%", 4.0),
            Self::SugarUsedAt(..) | Self::ThinLayer(_) => ("%", 15.0),
            Self::Whey => ("%", 8.0),
            Self::Native { .. } => ("%", 9.0),
            Self::Sugar(..) | Self::StoredChange(..) => ("g/100 g", 0.2),
            Self::GalactoseAtLactose(_) | Self::LacticAtLactose(_) => ("g/100 g", 0.08 * v.abs()),
            Self::Count(_) => ("log10 cfu/g", 0.3),
            // Two counts of 0.3.
            Self::StoredCountGain { .. } => ("decades", 0.42),
            Self::HoursTo(_) | Self::HoursToSteepest => ("h", 0.15 * v),
            Self::HoursToChill(_) => ("h", 0.25 * v),
            Self::SteepestFall => ("pH/h", 0.15 * v),
            Self::FastestOf { .. } => ("°C", 1.5),
            Self::Mixed(..) => ("°C", 0.1),
            Self::Boils(_) => ("°C", 0.15),
            Self::Yield { .. } => ("Pa", 1.8),
            Self::Viscosity { .. } => ("Pa·s", 1.8),
            Self::Emulsion { .. } => ("Pa·s", 1.1),
            Self::SpecificHeat(_) => ("kJ/(kg K)", 0.01 * v),
            Self::Class(_) | Self::Misses(_) => ("", 0.4),
            Self::LineSpread(_) => ("cm", 0.1),
        }
    }

    /// Whether scatter is a factor, so that differences are those of logarithms.
    pub const fn by_factor(&self) -> bool {
        matches!(self, Self::Yield { .. } | Self::Viscosity { .. } | Self::Emulsion { .. })
    }

    /// The least scatter that a reading is given, one sigma: what a source prints is often only that of repeats in one
    /// laboratory, on one milk. Source: assumed, a quarter to a half of the usual scatter.
    pub fn least_scatter(&self, v: f64) -> f64 {
        match self {
            Self::HoursTo(_) | Self::HoursToSteepest | Self::SteepestFall => 0.05 * v,
            Self::Ph(_) | Self::PhAtSteepest | Self::PhAsSoonAs { .. } | Self::StoredPh(_) => 0.05,
            _ => 0.0,
        }
    }

    /// The reading in words.
    pub fn words(&self) -> String {
        let n = number::plain;
        match self {
            Self::Ph(h) => format!("pH at {} h", n(*h)),
            Self::Acidity(h) => format!("acidity at {} h", n(*h)),
            Self::AcidMade(h) => format!("acid made by {} h", n(*h)),
            Self::Count(h) => format!("count at {} h", n(*h)),
            Self::Sugar(sugar, h) => format!("{} at {} h", sugar.name(), n(*h)),
            Self::LactoseUsed(h) => format!("lactose used by {} h", n(*h)),
            Self::SugarUsedAt(sugar, ph) => format!("{} used at pH {}", sugar.name(), n(*ph)),
            Self::HoursTo(ph) => format!("hours to pH {}", n(*ph)),
            Self::SteepestFall => "steepest fall".to_owned(),
            Self::HoursToSteepest => "hours to the steepest fall".to_owned(),
            Self::PhAtSteepest => "pH at the steepest fall".to_owned(),
            Self::PhAsSoonAs { c, ph } => format!("pH when a pot at {} °C has {}", n(*c), n(*ph)),
            Self::FastestOf { among, to_ph } => {
                format!("first at pH {} of {}, {}, {} °C", n(*to_ph), n(among[0]), n(among[1]), n(among[2]))
            }
            Self::AcidityAt(ph) => format!("acidity at pH {}", n(*ph)),
            Self::AcidMadeAt(ph) => format!("acid made at pH {}", n(*ph)),
            Self::GalactoseAtLactose(g) => format!("galactose at {} lactose", n(*g)),
            Self::LacticAtLactose(g) => format!("lactic acid at {} lactose", n(*g)),
            Self::StoredPh(d) => format!("pH after {} d", n(*d)),
            Self::StoredAcidity(d) => format!("acidity after {} d", n(*d)),
            Self::StoredAcidGain(d) => format!("acid gained in {} d", n(*d)),
            Self::StoredChange(sugar, d) => format!("{} gained in {} d", sugar.name(), n(*d)),
            Self::StoredCountGain { of, from, to } => {
                let of = of.as_deref().unwrap_or("all cells");
                format!("{of}, day {} to {}", n(*from), n(*to))
            }
            Self::Yield { c, days } => format!("yield stress, {} °C, {} d", n(*c), n(*days)),
            Self::Viscosity { shear, c, days } => {
                format!("viscosity at {} 1/s, {} °C, {} d", n(*shear), n(*c), n(*days))
            }
            Self::Emulsion { fat, c } => format!("emulsion, {} % fat, {} °C", n(*fat), n(*c)),
            Self::Whey => "whey by centrifuge".to_owned(),
            Self::ThinLayer(h) => format!("thin layer after {} h", n(*h)),
            Self::Native { c, minutes } => format!("native, {} °C for {} min", n(*c), n(*minutes)),
            Self::SpecificHeat(c) => format!("specific heat at {} °C", n(*c)),
            Self::Mixed(..) => "stirred together".to_owned(),
            Self::HoursToChill(c) => format!("hours to {} °C", n(*c)),
            Self::Boils(m) => format!("boiling point at {} m", n(*m)),
            Self::Class(class) => format!("class: {class}"),
            Self::Misses(limit) => format!("misses: {limit}"),
            Self::LineSpread(pa_s) => format!("spread at {} Pa·s", n(*pa_s)),
        }
    }
}

/// One sigma of a reading, and where it is from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scatter {
    /// The usual one of such a reading ([`What::usual_scatter`]; assumed).
    #[default]
    Usual,
    /// The source's own standard deviation.
    Published(f64),
    /// Worked out from printed figures, such as the scatter between strains.
    Derived(f64),
    /// The source's range, taken as the middle 90 %; the value is its middle (by factor: its geometric middle).
    Range(f64, f64),
    /// Chosen for this reading; `assumed` of the case says why.
    Assumed(f64),
}

/// z-value of the 95 % bound.
const Z95: f64 = 1.644_853_6;

/// A reading.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    pub what: What,
    #[serde(rename = "v")]
    pub value: f64,
    #[serde(default)]
    pub scatter: Scatter,
}

impl Reading {
    /// One sigma in the unit of the reading (or as a factor), and the kind of its source.
    pub fn sigma(&self) -> (f64, SourceKind) {
        let (own, kind) = match self.scatter {
            Scatter::Usual => return (self.what.usual_scatter(self.value), SourceKind::Assumed),
            Scatter::Published(s) => (s, SourceKind::Published),
            Scatter::Derived(s) => (s, SourceKind::Derived),
            Scatter::Range(low, high) if self.what.by_factor() => {
                ((0.5 * (high / low).ln() / Z95).exp(), SourceKind::Derived)
            }
            Scatter::Range(low, high) => (0.5 * (high - low) / Z95, SourceKind::Derived),
            Scatter::Assumed(s) => (s, SourceKind::Assumed),
        };
        let least = self.what.least_scatter(self.value);
        if own < least { (least, SourceKind::Assumed) } else { (own, kind) }
    }

    /// A forecast's difference from the reading, in sigmas.
    pub fn difference(&self, forecast: f64) -> f64 {
        let sigma = self.sigma().0;
        if self.what.by_factor() {
            (forecast / self.value).ln() / sigma.ln()
        } else {
            (forecast - self.value) / sigma
        }
    }

    /// What is wrong with it as data, if anything.
    pub fn fault(&self) -> Option<String> {
        let what = self.what.words();
        if !self.value.is_finite() || (self.what.by_factor() && self.value <= 0.0) {
            return Some(format!("{what}: the value is out of range"));
        }
        if let Scatter::Range(low, high) = self.scatter {
            let middle = if self.what.by_factor() { (low * high).sqrt() } else { 0.5 * (low + high) };
            if low >= high || (middle - self.value).abs() > 0.02 * (high - low) {
                return Some(format!("{what}: the value is not the middle of its range"));
            }
        }
        let (sigma, _) = self.sigma();
        let least = if self.what.by_factor() { 1.0 } else { 0.0 };
        (!sigma.is_finite() || sigma <= least).then(|| format!("{what}: the scatter is out of range"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(what: What, v: f64, scatter: Scatter) -> Reading {
        Reading { what, value: v, scatter }
    }

    #[test]
    fn differences_are_in_sigmas() {
        let usual = reading(What::Ph(4.0), 4.6, Scatter::Usual);
        assert!((usual.difference(4.8) - 2.0).abs() < 1e-12);
        let factor = reading(What::Viscosity { shear: 50.0, c: 5.0, days: 1.0 }, 0.5, Scatter::Derived(2.0));
        assert!((factor.difference(0.25) + 1.0).abs() < 1e-12);
        let range = reading(What::HoursTo(4.6), 4.75, Scatter::Range(4.0, 5.5));
        assert!((range.difference(5.5) - Z95).abs() < 1e-9);
    }

    #[test]
    fn scatter_of_repeats_is_not_taken_below_the_least() {
        let tight = reading(What::HoursTo(5.0), 3.12, Scatter::Published(0.02));
        assert_eq!(tight.sigma(), (0.05 * 3.12, SourceKind::Assumed));
        let own = reading(What::HoursTo(5.0), 3.12, Scatter::Published(0.3));
        assert_eq!(own.sigma(), (0.3, SourceKind::Published));
    }

    #[test]
    fn faults_are_named() {
        assert!(reading(What::Ph(1.0), f64::NAN, Scatter::Usual).fault().is_some());
        assert!(reading(What::Whey, 30.0, Scatter::Range(10.0, 20.0)).fault().is_some());
        assert!(reading(What::Whey, 0.0, Scatter::Usual).fault().is_none());
    }
}
