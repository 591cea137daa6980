//! One piece of work of a search: a combination that is looked at, walked from, made surer, counted.

use super::{Aimer, Answered, COUNTED, Candidate, LOOKED, Looked, POTS, Task};
use crate::aim::as_is::AsIs;
use crate::aim::blocked;
use crate::aim::make::{How, make};
use crate::aim::pots;
use crate::aim::pots::{Draw, Pots};
use crate::aim::proposal::{Count, Refused, propose};
use crate::aim::spot::Spot;
use potset_forecast::scenario::Ask;

impl Aimer {
    pub(super) fn spot<'a>(&'a self, ask: &'a Ask<'a>, at: usize) -> Option<Spot<'a>> {
        self.looked.get(at).map(|l| Spot { ask, made: &l.made, demands: &self.demands })
    }

    pub(super) fn work(&self, ask: &Ask<'_>, task: &Task) -> Answered {
        let missed = Answered::Proposed(Box::new(Err(Refused::Missed)));
        match task {
            Task::AsIs => {
                let of = |own: &AsIs| {
                    own.counted(ask, &self.demands, self.pots, Draw::new(self.wish.seed, COUNTED))
                };
                Answered::AsIs(self.found.as_is.as_ref().map(of))
            }
            Task::Look(combo) => Answered::Looked(self.look(ask, combo).map(Box::new)),
            Task::Lift(at) => {
                let best = self.looked.get(*at).and_then(|l| l.settings.first());
                let lifted = self.spot(ask, *at).zip(best).map(|(spot, best)| spot.lifted(best));
                lifted.map_or(missed, |setting| Answered::Lifted(*at, setting))
            }
            Task::Walk { at, from, look } => {
                let setting = self.spot(ask, *at).map_or_else(|| from.clone(), |s| s.searched(from, *look));
                Answered::Walked(Candidate { at: *at, setting, look: *look })
            }
            Task::Polish(candidate) => {
                let surer =
                    |s: Spot<'_>| s.surer(&candidate.setting, self.pots, Draw::new(self.wish.seed, POTS));
                let setting = self.spot(ask, candidate.at).map_or_else(|| candidate.setting.clone(), surer);
                Answered::Walked(Candidate { setting, ..candidate.clone() })
            }
            Task::Propose { candidate, sketch } => {
                let Some(spot) = self.spot(ask, candidate.at) else { return missed };
                let count = self.count(if *sketch { pots::likely } else { self.pots });
                let combo = &self.looked[candidate.at].combo;
                Answered::Proposed(Box::new(propose(&spot, combo, &candidate.setting, count)))
            }
            Task::Trim(proposal) => Answered::Proposed(Box::new(Ok(self.trimmed(ask, proposal)))),
            Task::Why(task) => Answered::Why(blocked::work(ask, &self.looked, &self.demands, task)),
        }
    }

    /// How a proposal is counted: by these pots, and against what the design's own texture is called.
    pub(super) fn count(&self, pots: Pots) -> Count {
        let own = self.found.as_is.as_ref().and_then(|own| own.texture);
        let texture = own.filter(|_| !self.texture_wanted());
        Count { pots, draw: Draw::new(self.wish.seed, COUNTED), texture }
    }

    fn look(&self, ask: &Ask<'_>, combo: &[usize]) -> Option<Looked> {
        let how = How { beyond: self.beyond, mend: true };
        let made = make(ask, &self.wish, &self.choices, combo, how)?;
        let spot = Spot { ask, made: &made, demands: &self.demands };
        let settings = spot.screened(self.wish.seed, LOOKED);
        Some(Looked { combo: combo.to_vec(), settings, made, lifted: false })
    }
}
