//! What a search has found so far, and what is to be said of it.

use crate::study::aim::as_is::AsIs;
use crate::study::aim::blocked::Blocked;
use crate::study::aim::proposal::Proposal;

/// What was found so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// The design as it is; nothing where it has no forecast.
    pub as_is: Option<AsIs>,
    /// The best first; each holds by the precise forecast. Where the design does it already, only what is clearly surer.
    pub proposals: Vec<Proposal>,
    /// Nothing that is usual reached it, so that levers were let farther.
    pub wide: bool,
    /// Why there is none.
    pub blocked: Option<Blocked>,
    /// What is being done, and how much of it all is done, 0 to 1.
    pub doing: &'static str,
    pub share: f64,
    pub complete: bool,
}

impl Found {
    /// Whether the design does it as it is.
    #[must_use]
    pub fn does_already(&self) -> bool {
        self.as_is.as_ref().is_some_and(AsIs::does)
    }

    /// Name of the row of chances in the table of trade-offs.
    #[must_use]
    pub const fn chance_name(&self) -> &'static str {
        if self.blocked.is_some() { "chance that all else holds" } else { "chance that all holds" }
    }

    /// What is to be said before the proposals, a sentence each.
    #[must_use]
    pub fn told(&self) -> Vec<String> {
        let mut told: Vec<String> = self.as_is.as_ref().and_then(AsIs::line).into_iter().collect();
        if !told.is_empty() && self.complete {
            let more = if self.proposals.is_empty() {
                "Nothing that was found is clearly surer, so that there is nothing to change"
            } else {
                "What follows is clearly surer"
            };
            told.push(more.to_owned());
        }
        if self.wide {
            let said =
                "Nothing within the usual spans was found to reach it, so it was looked for beyond them";
            told.push(said.to_owned());
        }
        told
    }
}
