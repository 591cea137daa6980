//! What a search has found so far.

use super::stage::Stage;
use crate::aim::as_is::AsIs;
use crate::aim::blocked::Blocked;
use crate::aim::moves::Beyond;
use crate::aim::proposal::Proposal;
use potset_base::words::TextureWord;

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
