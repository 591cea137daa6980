//! The design as it is, judged before anything is looked for: it may do it already.

use super::pots::{Chance, Draw, Pots};
use super::stand::{self, Demand, Standing};
use crate::base::Severity;
use crate::study::ask::Ask;
use crate::study::verdict::{judge, release_ph_of};

/// The design as it is, by the precise forecast.
#[derive(Clone, Debug, PartialEq)]
pub struct AsIs {
    pub standings: Vec<Standing>,
    /// The verdict stops it.
    pub stopped: bool,
    /// Highest pH at which it may be called done.
    pub release_ph: f64,
    /// Among the same possible pots as the proposals, once they are counted.
    pub chance: Option<Chance>,
}

impl AsIs {
    /// Judges; nothing where there is no forecast.
    #[must_use]
    pub fn of(ask: &Ask<'_>, demands: &[Demand]) -> Option<Self> {
        let run = ask.run().ok()?;
        let stopped = judge(ask, &run).advice.iter().any(|a| a.note.severity >= Severity::Stop);
        let (standings, release_ph) = (stand::standings(ask, &run, demands), release_ph_of(ask, &run));
        Some(Self { standings, stopped, release_ph, chance: None })
    }

    /// Its chance; where a rule is not kept it has none.
    #[must_use]
    pub fn counted(&self, ask: &Ask<'_>, demands: &[Demand], pots: Pots, draw: Draw) -> Chance {
        let rule = |d: usize| stand::places(demands, d).is_empty();
        if self.standings.iter().enumerate().any(|(d, s)| rule(d) && !s.holds()) {
            return Chance::none(draw.pots);
        }
        Chance::of(ask, demands, pots, draw)
    }

    /// Whether it does all that is wanted, on its likely line.
    #[must_use]
    pub fn does(&self) -> bool {
        !self.stopped && self.standings.iter().all(Standing::holds)
    }

    /// Where it does: "The design as it is does it already, in 6 in 10 possible pots (119 of 200)", and what is not so in all.
    #[must_use]
    pub fn line(&self) -> Option<String> {
        self.does().then(|| {
            let not_all = |(d, s): (usize, &Standing)| {
                let chance = self.chance.as_ref()?.of_one(d)?;
                Some(format!("{} in {}", s.name, chance.words()))
            };
            let not_all: Vec<String> = self.standings.iter().enumerate().filter_map(not_all).collect();
            let told = if not_all.is_empty() { String::new() } else { format!(": {}", not_all.join("; ")) };
            format!("The design as it is does it already, {}{told}", self.often())
        })
    }

    /// "in 6 in 10 possible pots".
    #[must_use]
    pub(super) fn often(&self) -> String {
        match &self.chance {
            Some(chance) if chance.spread() => format!("in {}", chance.pots_words()),
            _ => "on its likely line".to_owned(),
        }
    }
}
