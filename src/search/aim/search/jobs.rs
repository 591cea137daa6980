//! One piece of work of a search: a combination that is looked at, a setting that is walked to, counted, trimmed.

use super::{Answer, Job, Looked, TargetSearch, Walked};
use crate::aim::make::{How, make};
use crate::aim::problem::SearchProblem;
use crate::aim::proposal::{Count, propose};
use crate::aim::stage::Stage;
use potset_doubt::kept::{self, Draw, Pots};
use potset_forecast::scenario::Scenario;

/// Settings that each combination is first looked at in. Source for these numbers: assumed; set so that a usual question takes
/// less than two seconds on two cores.
const LOOKED: usize = 6;
/// Possible pots by which settings are compared, and how many are counted in the end.
const POTS: usize = 32;
const COUNTED: usize = 200;

impl TargetSearch {
    pub(super) fn problem<'a>(&'a self, scenario: &'a Scenario<'a>, at: usize) -> SearchProblem<'a> {
        SearchProblem { scenario, made: &self.looked[at].made, demands: &self.demands }
    }

    pub(super) fn work(&self, scenario: &Scenario<'_>, job: &Job) -> Answer {
        let seed = self.wish.seed;
        match job {
            Job::AsIs => {
                let own = self.found.as_is.as_ref();
                let draw = Draw::new(seed, COUNTED);
                Answer::AsIs(own.map(|own| own.counted(scenario, &self.demands, self.pots, draw)))
            }
            Job::Look(combo) => Answer::Looked(self.look(scenario, combo).map(Box::new)),
            Job::Walk(to) => {
                let (pots, draw) = (self.pots, Draw::new(seed, POTS));
                let setting = self.problem(scenario, to.at).searched(&to.setting, to.objective, pots, draw);
                Answer::Walked(Walked { setting, ..to.clone() })
            }
            Job::Propose(Walked { at, setting, .. }) => {
                // Before they are made surer, settings are only sketched, by the likely pot.
                let count = self.count(if self.stage == Stage::Sketch { kept::likely } else { self.pots });
                let (problem, combo) = (self.problem(scenario, *at), &self.looked[*at].combo);
                let proposed = propose(&problem, combo, &setting.values, count);
                Answer::Proposed(Box::new(proposed))
            }
            Job::Trim(proposal) => Answer::Proposed(Box::new(Ok(self.trimmed(scenario, proposal)))),
        }
    }

    /// How a proposal is counted: by these pots, and against what the design's own texture is called.
    pub(super) fn count(&self, pots: Pots) -> Count {
        let own = self.found.as_is.as_ref().and_then(|own| own.texture);
        let texture = own.filter(|_| !self.texture_wanted());
        Count { pots, draw: Draw::new(self.wish.seed, COUNTED), texture }
    }

    fn look(&self, scenario: &Scenario<'_>, combo: &[usize]) -> Option<Looked> {
        let how = How { beyond: self.beyond, mend: true };
        let made = make(scenario, &self.wish, &self.choices, combo, how)?;
        let settings =
            SearchProblem { scenario, made: &made, demands: &self.demands }.screened(self.wish.seed, LOOKED);
        Some(Looked { combo: combo.to_vec(), settings, made, walked: false })
    }
}
