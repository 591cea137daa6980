//! Pots under way: what is still to be done with each, and when. They outlive the window.

use serde::{Deserialize, Serialize};

/// One line of the plan of a pot, frozen as it was when the pot was begun.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunningLine {
    /// Hours since the culture went in; less than nothing before it.
    pub at_h: f64,
    pub words: String,
}

/// A pot under way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunningPot {
    pub name: String,
    /// The signs that find its design again.
    pub code: String,
    /// When the culture goes in, local time: "2026-11-26 18:30".
    pub culture_in: String,
    /// How long it is kept warm from then on, h.
    pub hold_h: f64,
    /// Key of its warmer, what that is set to, °C, and the litres in it; nothing where it has no hold.
    pub warmer: Option<(String, f64, f64)>,
    pub lines: Vec<RunningLine>,
}

/// All pots under way.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct RunningPots {
    pub pots: Vec<RunningPot>,
}

/// A change of the pots under way.
#[derive(Clone, Debug, PartialEq)]
pub enum RunningChange {
    Begin(Box<RunningPot>),
    /// Another in the place of one, or nothing.
    Replace(Box<RunningPot>, Option<Box<RunningPot>>),
}

impl RunningPots {
    /// Makes a change. Another window may have made it already: then nothing is done.
    pub fn apply(&mut self, change: &RunningChange) {
        match change {
            RunningChange::Begin(pot) if self.pots.contains(pot) => {}
            RunningChange::Begin(pot) => self.pots.push((**pot).clone()),
            RunningChange::Replace(old, new) => {
                let Some(place) = self.pots.iter().position(|pot| pot == &**old) else { return };
                match new {
                    Some(new) => self.pots[place] = (**new).clone(),
                    None => drop(self.pots.remove(place)),
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_windows_begin_and_end_pots_and_lose_none() {
        let pot = |name: &str| {
            Box::new(RunningPot {
                name: name.to_owned(),
                code: String::new(),
                culture_in: "2026-11-26 18:30".to_owned(),
                hold_h: 24.0,
                warmer: None,
                lines: Vec::new(),
            })
        };
        let mut all = RunningPots::default();
        all.apply(&RunningChange::Begin(pot("a")));
        all.apply(&RunningChange::Begin(pot("b")));
        all.apply(&RunningChange::Begin(pot("b")));
        all.apply(&RunningChange::Replace(pot("a"), Some(pot("c"))));
        // Gone already.
        all.apply(&RunningChange::Replace(pot("a"), None));
        let names: Vec<&str> = all.pots.iter().map(|pot| pot.name.as_str()).collect();
        assert_eq!(names, ["c", "b"]);
    }
}
