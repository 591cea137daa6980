//! A lever that a proposal turns, in words: from what to what, and whether that is beyond what is usual.

use super::turn::Turn;
use potset_base::number::{self, NBSP};
use potset_forecast::lever::Knob;
use potset_judge::thickeners::lower;

/// A lever that a proposal turns.
#[derive(Clone, Debug, PartialEq)]
pub struct Turned {
    pub name: String,
    /// In words; nothing where the design has no such lever.
    pub from: Option<String>,
    pub to: String,
    /// A dose of nothing.
    pub none: bool,
    /// What is usual, "0 to 15 g/L", where it is set beyond that and farther than it was.
    pub unusual: Option<String>,
}

impl Turned {
    /// A lever at a value; nothing where that is what the design has.
    #[must_use]
    pub fn of(turn: &Turn, v: f64) -> Option<Self> {
        turn.turned(v).then(|| Self {
            name: turn.lever.name.clone(),
            from: turn.was.map(|was| turn.words(was)),
            to: turn.words(v),
            none: turn.dose() && v.abs() < 1e-9,
            unusual: unusual(turn, v),
        })
    }

    /// "Hold at 41.5 °C instead of 40.0 °C".
    #[must_use]
    pub fn words(&self) -> String {
        let beyond = self.unusual.as_ref();
        let beyond = beyond.map_or_else(String::new, |usual| format!(", beyond what is usual ({usual})"));
        let brief = self.brief();
        match &self.from {
            Some(from) if !self.none => match once(&self.to, from) {
                Some(to) => format!("{} {to} instead of {from}{beyond}", self.name),
                None => format!("{brief} instead of {from}{beyond}"),
            },
            _ => format!("{brief}{beyond}"),
        }
    }

    /// "Hold at 41.5 °C", "Without agar".
    #[must_use]
    pub fn brief(&self) -> String {
        if self.none {
            format!("Without {}", lower(&self.name))
        } else {
            format!("{} {}", self.name, self.to)
        }
    }
}

/// A number without its unit, where the unit is a factor that follows it again.
fn once<'a>(to: &'a str, from: &str) -> Option<&'a str> {
    let (number, unit) = to.split_once('×')?;
    let (_, same) = from.split_once('×')?;
    (unit == same).then(|| number.trim_end_matches([NBSP, ' ']))
}

/// The usual span in words, where a value is beyond it and farther than the design was.
fn unusual(turn: &Turn, v: f64) -> Option<String> {
    let (low, high) = turn.lever.usual?;
    // Less of something that is put in is always usual.
    let low = if turn.dose() { turn.lever.range.0.min(low) } else { low };
    let beyond = |v: f64| (low - v).max(v - high);
    if beyond(v) < 1e-9 || turn.was.is_some_and(|was| beyond(was) >= beyond(v) - 1e-9) {
        return None;
    }
    if turn.lever.knob == Knob::HoldHours {
        return Some(format!("{} to {}", number::hours(low), number::hours(high)));
    }
    let unit = if turn.lever.unit.is_empty() { String::new() } else { format!("{NBSP}{}", turn.lever.unit) };
    Some(format!("{} to {}{unit}", number::plain(low), number::plain(high)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn turned(to: &str, from: Option<&str>) -> Turned {
        Turned {
            name: "Agar".to_owned(),
            from: from.map(str::to_owned),
            to: to.to_owned(),
            none: false,
            unusual: None,
        }
    }

    #[test]
    fn a_unit_that_is_a_factor_is_said_once_and_nothing_is_without() {
        let nb = NBSP;
        let rate = turned(&format!("1.85{nb}× packet rate"), Some(&format!("1.00{nb}× packet rate")));
        assert_eq!(rate.words(), format!("Agar 1.85 instead of 1.00{nb}× packet rate"));
        assert_eq!(turned("41.5 °C", Some("40.0 °C")).words(), "Agar 41.5 °C instead of 40.0 °C");
        let none = Turned { none: true, ..turned("0.0 g/L", Some("30.0 g/L")) };
        assert_eq!((none.words().as_str(), none.brief().as_str()), ("Without agar", "Without agar"));
        let beyond = Turned { unusual: Some("0 to 15 g/L".to_owned()), ..turned("60.0 g/L", None) };
        assert_eq!(beyond.words(), "Agar 60.0 g/L, beyond what is usual (0 to 15 g/L)");
    }
}
