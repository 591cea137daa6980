//! `potset matters`: what matters most for a design.

use std::ffi::OsString;

use super::args::Args;
use super::{CliContext, Exit};
use potset_base::Note;
use potset_doubt::matters::matters;
use potset_doubt::spread::{POTS, SEED, Spreader};
use potset_report::{hygiene, matters as say};

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read_with(arguments, &["spread", "seed"], &[], ("spread", POTS))?;
    let pots = args.whole("spread", 100, 20_000)?.unwrap_or(POTS);
    let seed = args.whole("seed", 0, usize::MAX)?.and_then(|s| u64::try_from(s).ok()).unwrap_or(SEED);
    let context = CliContext::open(&args)?;
    let scenario = context.ask();
    let mut spreader = Spreader::new(&scenario, seed, pots).map_err(|notes| context.fault(notes))?;
    while spreader.more(pots) {}
    if let Some(exit) = context.none_made(&spreader.spread()) {
        return Ok((String::new(), exit));
    }
    let lost = hygiene::lost_words(spreader.sampler().likely())
        .map_or_else(String::new, |line| format!("{line}.\n"));
    Ok((lost + &say::text(&matters(&scenario, &spreader)), Exit::Done))
}
