//! What a search has found so far, and what is to be said of it.

use crate::aim::as_is::AsIs;
use crate::aim::blocked::Blocked;
use crate::aim::moves::Beyond;
use crate::aim::pots::Chance;
use crate::aim::proposal::Proposal;
use potset_base::words::TextureWord;

/// What was found so far.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The design as it is; nothing where it has no forecast.
    pub as_is: Option<AsIs>,
    /// The best first; each holds by the precise forecast. Where the design does it already, only what is clearly surer.
    pub proposals: Vec<Proposal>,
    /// How far levers were let, where nothing that is usual reached it.
    pub beyond: Beyond,
    /// What the texture of the design is called, where nothing was found that keeps it.
    pub texture_let_go: Option<TextureWord>,
    /// Why there is none.
    pub blocked: Option<Blocked>,
    /// What is being done, and how much of it all is done, 0 to 1.
    pub doing: &'static str,
    pub share: f64,
    pub complete: bool,
}

impl Default for Found {
    fn default() -> Self {
        Self {
            as_is: None,
            proposals: Vec::new(),
            beyond: Beyond::Never,
            texture_let_go: None,
            blocked: None,
            doing: "",
            share: 0.0,
            complete: false,
        }
    }
}

impl Found {
    /// Whether the design does it as it is.
    #[must_use]
    pub fn does_already(&self) -> bool {
        self.as_is.as_ref().is_some_and(AsIs::does)
    }

    /// Whether nothing that is usual reached it, so that it was looked for beyond that.
    #[must_use]
    pub fn wide(&self) -> bool {
        self.beyond != Beyond::Never
    }

    /// Name of the row of chances in the table of trade-offs.
    #[must_use]
    pub const fn chance_name(&self) -> &'static str {
        if self.blocked.is_some() { "pots where all other goals hold" } else { "pots where all goals hold" }
    }

    /// What is to be said before the settings, a sentence each.
    #[must_use]
    pub fn told(&self) -> Vec<String> {
        let mut told: Vec<String> = self.as_is.as_ref().and_then(AsIs::line).into_iter().collect();
        if !told.is_empty() && self.complete {
            told.push(self.more_often());
        }
        let beyond = match self.beyond {
            Beyond::Never => None,
            Beyond::ALittle => Some("Nothing usual reaches it, so a little more than is usual was tried"),
            Beyond::Far => Some("Nothing usual reaches it, so unusual amounts were tried"),
        };
        let texture = self.texture_let_go.filter(|_| !self.proposals.is_empty());
        told.extend(
            texture
                .map(|word| format!("Nothing was found that keeps your design's texture ({})", word.word())),
        );
        told.extend(beyond.map(str::to_owned));
        told
    }

    /// By how much the settings work more often than the design that does it already: the counts decide how that is said.
    fn more_often(&self) -> String {
        let own = self.as_is.as_ref().and_then(|own| own.chance.as_ref());
        let best = self.proposals.iter().map(|p| &p.chance).max_by_key(|c| c.pots.of);
        let (Some(own), Some(best)) = (own, best) else {
            return "Nothing that was found works more often: there is nothing to change".to_owned();
        };
        let these = if self.proposals.len() == 1 { "This works" } else { "These work" };
        format!("{these} {}", compared(best, own))
    }
}

/// "a little more often: 79 of 200 pots against 70".
fn compared(best: &Chance, own: &Chance) -> String {
    let how = if best.far_above(own) { "clearly" } else { "a little" };
    format!("{how} more often: {} of {} pots against {}", best.pots.of, best.pots.among, own.pots.of)
}
