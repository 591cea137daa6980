//! The design as it is, judged before anything is looked for: it may do it already.

use super::discard::{self, Discard};
use super::stand::{self, Demand, GoalResult};
use potset_base::words::TextureWord;
use potset_doubt::kept::{Chance, Draw, Pots};

use potset_forecast::scenario::Scenario;
use potset_judge::readiness::release_ph_of;

/// The design as it is, by the precise forecast.
#[derive(Clone, Debug, PartialEq)]
pub struct AsIs {
    pub standings: Vec<GoalResult>,
    /// Why it would have to be thrown away: the likely pot, or too many of the possible ones once they are counted.
    pub discard: Option<Discard>,
    /// What its texture is called, where it soured: else it is none to be kept.
    pub texture: Option<TextureWord>,
    /// Highest pH at which it may be called done.
    pub release_ph: f64,
    /// Among the same possible pots as the proposals, once they are counted.
    pub chance: Option<Chance>,
}

impl AsIs {
    /// Judges; nothing where there is no forecast.
    pub fn of(scenario: &Scenario<'_>, demands: &[Demand]) -> Option<Self> {
        let run = scenario.run().ok()?;
        let (f, laws) = (&run.forecast, &run.mix.laws);
        let soured = f.value(&f.ph, run.mix.stop_h) <= laws.ready.acid_line_ph;
        Some(Self {
            standings: stand::standings(scenario, &run, demands),
            discard: discard::of_likely(scenario, &run).map(Discard::Likely),
            texture: stand::texture_word(&run).filter(|_| soured),
            release_ph: release_ph_of(scenario, &run),
            chance: None,
        })
    }

    /// Its chance; where a rule is not kept it has none.
    pub fn counted(&self, scenario: &Scenario<'_>, demands: &[Demand], pots: Pots, draw: Draw) -> Chance {
        let rule = |d: usize| stand::places(demands, d).is_empty();
        if self.standings.iter().enumerate().any(|(d, s)| rule(d) && !s.holds()) {
            return Chance::none(draw.pots);
        }
        stand::chance(scenario, demands, pots, draw)
    }

    /// Takes in its chance.
    pub(super) fn take(&mut self, chance: Option<Chance>, demands: &[Demand]) {
        let often = || discard::of_possible(demands, chance.as_ref()?).map(Discard::Possible);
        self.discard = self.discard.take().or_else(often);
        self.chance = chance;
    }

    /// Whether it does all that is wanted, on its likely line, and is no pot that is often thrown away.
    pub fn does(&self) -> bool {
        self.discard.is_none() && self.standings.iter().all(GoalResult::holds)
    }
}
