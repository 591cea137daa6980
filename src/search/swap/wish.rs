//! What a swap is asked for.

use potset_doc::edit::LineKind;

/// What is to be swapped, and what is to stay.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SwapAsk {
    /// All but additives.
    pub shelf: LineKind,
    pub line: usize,
    /// Key of the new entry.
    pub entry: String,
    /// The chilled pot is to be as thick: the dose of a thickener is solved.
    pub equal_thickness: bool,
    /// The pot is to be as sour to the tongue: the stop line is solved.
    pub equal_tang: bool,
}
