//! A mend for a plan that works in some of its possible pots only: each is tried on possible pots of its own.

use crate::spread::{SEED, Spread, Spreader, TOO_MANY};
use potset_doc::{Edit, edit};
use potset_forecast::scenario::Scenario;
use potset_judge::hygiene::mends::sooner;
use potset_judge::mends::Mend;

/// Pots on which a mend is tried. Source: assumed; a share of a tenth is known to two in a hundred then.
const TRIED: usize = 200;

/// Share of pots to be thrown away that a mend may leave: half of what is watched for. Source: assumed.
const LEFT: f64 = 0.5 * TOO_MANY;

/// What may bring down the number of pots to be thrown away, the smallest change first; nothing where it is not too many, or
/// where the likely pot is one of them: then the judge of hygiene has its own mend.
pub fn candidates(scenario: &Scenario<'_>, spread: &Spread) -> Vec<Mend> {
    let watched = spread.cautions.iter().any(|c| !c.discard && c.chance.share() >= TOO_MANY);
    if !watched {
        return Vec::new();
    }
    let mut all = sooner(scenario);
    // What the maker has at hand comes before another warmer.
    all.sort_by_key(|mend| mend.edits.iter().any(|edit| matches!(edit, Edit::Warmer(_))));
    all
}

/// Whether few of the possible pots would have to be thrown away with a mend.
pub fn helps(scenario: &Scenario<'_>, mend: &Mend) -> bool {
    let Ok(design) = edit::apply(scenario.design, &mend.edit(), scenario.pantry) else { return false };
    let with = Scenario { design: &design, ..*scenario };
    let Ok(mut spreader) = Spreader::new(&with, SEED, TRIED) else { return false };
    while spreader.more(TRIED) {}
    spreader.lost().share() <= LEFT
}
