//! What a search has found, and where nothing reaches what is wanted why: the demand that blocks, by how much, and the nearest
//! that can be reached.

use super::as_is::AsIs;
use super::choices::Ruled;
use super::discard::Discard;
use super::moves::Beyond;
use super::proposal::Proposal;
use super::stage::Stage;
use super::stand::GoalResult;
use super::want::Want;
use potset_base::words::TextureWord;
use potset_judge::advice::Advice;

/// What was found so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// The design as it is; nothing where it has no forecast.
    pub as_is: Option<AsIs>,
    /// The best first; each holds by the precise forecast. Where the design does it already, only what is clearly surer.
    pub proposals: Vec<Proposal>,
    /// How far levers were let, where nothing that is usual reached it.
    pub beyond: Option<Beyond>,
    /// What the texture of the design is called, where nothing was found that keeps it.
    pub texture_let_go: Option<TextureWord>,
    /// Why there is none.
    pub blocked: Option<Blocked>,
    /// What is being done, and how much of it all is done, 0 to 1.
    pub stage: Stage,
    pub share: f64,
    pub complete: bool,
}

impl Found {
    /// Whether the design does it as it is.
    pub fn does_already(&self) -> bool {
        self.as_is.as_ref().is_some_and(AsIs::does)
    }
}

/// What blocks.
#[derive(Clone, Debug, PartialEq)]
pub enum By {
    /// A rule leaves nothing for a line.
    Rule(Ruled),
    /// A cost cannot be told: what has no price.
    Prices(Want, Vec<String>),
    /// A demand is missed, by its place among those of the nearest setting.
    Demand(usize, How),
    /// What would work would have to be thrown away.
    Caution(Discard),
    /// No combination has a forecast.
    Nothing,
}

/// In which way a demand blocks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Even with nothing else asked.
    Alone,
    /// When all else holds.
    Gives,
    /// Several stand in each other's way.
    Together,
}

/// Why there is no proposal.
#[derive(Clone, Debug, PartialEq)]
pub struct Blocked {
    pub by: By,
    /// The nearest setting, to look at or to take; all else than what blocks holds in it, where that can be.
    pub nearest: Option<Proposal>,
    /// Why that one must not be used: it would have to be thrown away.
    pub discard: Option<Box<Advice>>,
    /// The culture finds nothing to live on there.
    pub starves: bool,
    /// Levers may be let farther than they were.
    pub farther: bool,
    /// What was found without the rule or the price that blocks.
    pub without: Option<Box<Found>>,
}

impl Blocked {
    pub(super) const fn by(by: By) -> Self {
        Self { by, nearest: None, discard: None, starves: false, farther: false, without: None }
    }

    /// By a demand, as the nearest setting that was found stands to it.
    pub(super) fn of(demand: usize, how: How, nearest: Proposal, refused: &[Discard]) -> Self {
        let Some(own) = nearest.standings.get(demand) else { return Self::by(By::Nothing) };
        // What misses by a hair is missed.
        let several = nearest.standings.iter().filter(|s| !s.holds()).count() > 1;
        let by = match refused.first() {
            Some(why) if own.holds() => By::Caution(why.clone()),
            _ if how == How::Gives && several => By::Demand(demand, How::Together),
            _ => By::Demand(demand, how),
        };
        Self { nearest: Some(nearest), ..Self::by(by) }
    }

    /// The same with what the other wants come to when what blocks is given up.
    pub(super) fn without(self, found: Found) -> Self {
        let inner = found.blocked.as_ref().filter(|_| found.proposals.is_empty());
        Self {
            nearest: found.proposals.first().or(inner.and_then(|b| b.nearest.as_ref())).cloned(),
            discard: inner.and_then(|b| b.discard.clone()),
            without: Some(Box::new(found)),
            ..self
        }
    }

    /// How the nearest setting stands to each demand.
    pub fn standings(&self) -> &[GoalResult] {
        self.nearest.as_ref().map_or(&[], |nearest| &nearest.standings)
    }

    /// The setting that comes with it, if there is one to take: one that changes something, and that is not thrown away.
    pub fn to_take(&self) -> Option<&Proposal> {
        self.nearest.as_ref().filter(|nearest| nearest.changes() > 0 && self.discard.is_none())
    }
}
