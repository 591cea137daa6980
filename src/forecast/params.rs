//! The shipped parameters, read once.

use std::sync::OnceLock;

use potset_base::Note;
use potset_doc::format;
use potset_science::params::Params;

/// The text of the shipped parameters.
pub const TEXT: &str = include_str!("../../assets/parameters.ron");

/// The shipped parameters.
///
/// # Errors
/// A note if the file in the program was damaged when it was built; a test keeps this from happening.
pub fn shipped() -> Result<&'static Params, &'static Note> {
    static PARAMS: OnceLock<Result<Params, Note>> = OnceLock::new();
    PARAMS.get_or_init(|| format::asset(TEXT)).as_ref()
}
