//! Where a number comes from: kind of source, reference, spread; and a value that carries them.

use crate::choices;
use serde::{Deserialize, Serialize};

choices! {
    /// Kind of a source. None is ever dressed up as another.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    pub enum SourceKind: words {
        /// A paper, a food table or a standard with its clause.
        Published => "published",
        /// A fact of the trade that has no single source.
        CommonPractice => "common practice",
        /// Worked out from published figures; the note says how.
        Derived => "derived",
        /// Fitted to named data.
        Fitted => "fitted",
        /// Chosen so that the model closes.
        Assumed => "assumed",
        /// Known to the author, not found in a source.
        FromMemory => "from memory",
        /// Given by the maker, for an entry of their own or as measured; never in what ships.
        Own => "the maker's own",
    }
}

impl SourceKind {
    /// All kinds that ship with the program, from the firmest to the weakest.
    pub const SHIPPED: [Self; 6] =
        [Self::Published, Self::Derived, Self::Fitted, Self::CommonPractice, Self::FromMemory, Self::Assumed];
}

/// Kind and reference of one number.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    pub kind: SourceKind,
    /// Author and year, or standard and clause, or how it was derived or chosen.
    pub text: String,
}

impl Source {
    /// One line for hovers and tables: "published: author, year".
    pub fn line(&self) -> String {
        if self.text.is_empty() {
            self.kind.words().to_owned()
        } else {
            format!("{}: {}", self.kind.words(), self.text)
        }
    }
}

/// How far the true value may lie from the likely one: bounds of the middle 90 %.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Spread {
    /// Known exactly, or to better than anything else here.
    Exact,
    /// Normal between the 5 % and the 95 % bound.
    Normal(f64, f64),
    /// Log-normal between the 5 % and the 95 % bound.
    LogNormal(f64, f64),
    /// Equally likely anywhere between the two.
    Uniform(f64, f64),
}

impl Spread {
    /// The 5 % and 95 % bounds, if there are any.
    pub const fn bounds(self) -> Option<(f64, f64)> {
        match self {
            Self::Exact => None,
            Self::Normal(low, high) | Self::LogNormal(low, high) | Self::Uniform(low, high) => {
                Some((low, high))
            }
        }
    }

    /// The same spread with both its bounds moved.
    pub fn map(self, to: impl Fn(f64) -> f64) -> Self {
        match self {
            Self::Exact => Self::Exact,
            Self::Normal(low, high) => Self::Normal(to(low), to(high)),
            Self::LogNormal(low, high) => Self::LogNormal(to(low), to(high)),
            Self::Uniform(low, high) => Self::Uniform(to(low), to(high)),
        }
    }
}

fn exact() -> Spread {
    Spread::Exact
}

/// A number with its unit, its spread, the range it holds for, and its source.
///
/// In the data files: `(v: 1.7, unit: "1/h", spread: LogNormal(1.2, 2.2), from: (kind: Published, text: "…"))`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cited {
    /// The likely value.
    #[serde(rename = "v")]
    pub value: f64,
    pub unit: String,
    #[serde(default = "exact", skip_serializing_if = "is_exact")]
    pub spread: Spread,
    /// Values that move together carry the same group name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub group: String,
    /// What it holds for, in words, when that is narrower than all pots.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub valid: String,
    pub from: Source,
}

fn is_exact(spread: &Spread) -> bool {
    *spread == Spread::Exact
}

impl Cited {
    /// A figure without spread, with the kind and the words of its source.
    pub fn new(v: f64, unit: impl Into<String>, kind: SourceKind, text: impl Into<String>) -> Self {
        Self {
            value: v,
            unit: unit.into(),
            spread: Spread::Exact,
            group: String::new(),
            valid: String::new(),
            from: Source { kind, text: text.into() },
        }
    }

    /// A line for hovers: value, bounds, unit and source.
    pub fn line(&self) -> String {
        // Counts of cells: nobody reads seven noughts.
        let (scale, word) = match self.value {
            v if (1e6..1e9).contains(&v) => (1e6, "\u{a0}million"),
            v if (1e9..1e12).contains(&v) => (1e9, "\u{a0}billion"),
            _ => (1.0, ""),
        };
        let plain = |v: f64| super::number::plain(v / scale);
        let value = plain(self.value);
        let bounds = self
            .spread
            .bounds()
            .map_or(String::new(), |(low, high)| format!(" ({}–{})", plain(low), plain(high)));
        let unit = if self.unit.is_empty() { String::new() } else { format!("\u{a0}{}", self.unit) };
        format!("{value}{bounds}{word}{unit} · {}", self.from.line())
    }

    /// What is wrong with it, if anything: not finite, bounds the wrong way round or not around the value, no source.
    pub fn fault(&self) -> Option<String> {
        if !self.value.is_finite() {
            return Some("the value is not a number".to_owned());
        }
        if self.from.text.trim().is_empty() {
            return Some("the source is empty".to_owned());
        }
        if let Some((low, high)) = self.spread.bounds() {
            if !(low.is_finite() && high.is_finite() && low <= self.value && self.value <= high) {
                return Some(format!("the bounds {low} to {high} do not enclose the value {}", self.value));
            }
            if matches!(self.spread, Spread::LogNormal(..)) && low <= 0.0 {
                return Some(format!("a log-normal spread cannot reach down to {low}"));
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cited(v: f64, spread: Spread, text: &str) -> Cited {
        Cited {
            value: v,
            unit: "1/h".into(),
            spread,
            group: String::new(),
            valid: String::new(),
            from: Source { kind: SourceKind::Published, text: text.into() },
        }
    }

    #[test]
    fn faults_are_named() {
        assert_eq!(cited(1.0, Spread::Normal(0.5, 2.0), "A 1990").fault(), None);
        assert!(cited(f64::NAN, Spread::Exact, "A").fault().is_some());
        assert!(cited(1.0, Spread::Uniform(2.0, 3.0), "A").fault().is_some());
        assert!(cited(1.0, Spread::LogNormal(0.0, 3.0), "A").fault().is_some());
        assert!(cited(1.0, Spread::Exact, " ").fault().is_some());
    }

    #[test]
    fn line_shows_value_bounds_unit_and_kind() {
        assert_eq!(
            cited(1.7, Spread::Normal(1.2, 2.2), "A 1990").line(),
            "1.7 (1.2–2.2)\u{a0}1/h · published: A 1990"
        );
        assert_eq!(
            cited(1.2e6, Spread::LogNormal(5e5, 1e7), "A 1990").line(),
            "1.2 (0.5–10)\u{a0}million\u{a0}1/h · published: A 1990"
        );
    }
}
