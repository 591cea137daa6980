//! The design as it is, judged before anything is looked for: it may do it already.

use super::discard;
use super::pots::{Chance, Draw, Pots};
use super::stand::{self, Demand, Standing};
use potset_base::words::TextureWord;

use potset_forecast::scenario::Ask;
use potset_judge::readiness::release_ph_of;

/// The design as it is, by the precise forecast.
#[derive(Clone, Debug, PartialEq)]
pub struct AsIs {
    pub standings: Vec<Standing>,
    /// The likely pot would have to be thrown away.
    pub stopped: bool,
    /// How many of the possible ones, where those are too many and were counted.
    pub discards: Option<potset_base::chance::Chance>,
    /// What its texture is called, where it soured: else it is none to be kept.
    pub texture: Option<TextureWord>,
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
        let (f, laws) = (&run.forecast, &run.mix.laws);
        let soured = f.value(&f.ph, run.mix.stop_h) <= laws.ready.acid_line_ph;
        Some(Self {
            standings: stand::standings(ask, &run, demands),
            stopped: discard::of_likely(ask, &run).is_some(),
            discards: None,
            texture: stand::texture_word(&run).filter(|_| soured),
            release_ph: release_ph_of(ask, &run),
            chance: None,
        })
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

    /// Takes in its chance.
    pub(super) fn take(&mut self, chance: Option<Chance>, demands: &[Demand]) {
        self.discards = chance.as_ref().and_then(|chance| discard::of_possible(demands, chance));
        self.chance = chance;
    }

    /// Whether it does all that is wanted, on its likely line, and is no pot that is often thrown away.
    #[must_use]
    pub fn does(&self) -> bool {
        !self.stopped && self.discards.is_none() && self.standings.iter().all(Standing::holds)
    }
}
