//! Spread: many possible pots of one design, what most of them do, and how likely the goals are.
//!
//! **Something that is not known.** `doubt/spread/`. A figure with a spread is drawn by itself, with those of its `group`
//! together; nothing is to be done for a new one. The maker's own scatter is a variant of `UnknownKind` (`unknowns.rs`), put into
//! the drawn design in `sampler.rs`, its size cited in the group `maker` of the parameters or in `Measure::real_share`;
//! `doubt/matters/finds.rs` says which doubt of a maker it is, and `report/matters/doubts.rs` how one finds out about it.
//! `forecast/place.rs` has the rule by which a place becomes a value. `Sampler` draws
//! the pots of a design (nested Latin hypercube, a stream of numbers for each unknown by its name, so that two designs share what
//! they have in common), `Spreader` works in slices, `summary.rs` makes bands and chances. A curve with a band is a variant of
//! `spread::Curve`. What the laws of texture leave out is drawn as one factor whose size is what is left of their stated scatter
//! after that of the drawn figures is taken off (`left_out.rs`). Thresholds of words and of readiness are not drawn: they are what is meant.
//!
//! # Doubt
//!
//! `doubt::spread` draws pots of a design: every cited spread, the maker's own scatter (`maker` of the parameters, scale,
//! spoons, thermometer), and what the laws of texture leave out. A spread is a claim, and it is checked.
//!
//! - **One doubt, one draw.** Figures that say the same doubt share a `group`, or only one of them is drawn:
//!   the pace of a culture is what its pots needed with the organisms' rates as they stand, so the growth rate of the organism
//!   that it has most of is not drawn beside it (`spread/unknowns.rs`, `paced`); lowest pH and acid ceiling of
//!   *S. thermophilus* were both set by the same 0.9 % of acid, so they move together and keep it; figures of one fit (the
//!   emulsion law) have together the scatter of the fit, not each of them.
//! - **What the laws of texture leave out**: their stated scatter is of a pot whose make-up is known, so only what the drawn
//!   figures of model and pantry scatter is taken off it. The first 64 pots are drawn once more for that with the hand as
//!   planned (`spread::Hand`), up to the stop; half the distance of the logarithms at 16 and 84 % counts, so that a few pots
//!   that have not set do not. In milk the figures alone scatter more than the laws state, and nothing is left.
//! - **The pace** of milk cultures (0.66-1.52) is pooled from five fitted cultures and twelve published times; before, its bounds
//!   (0.45-1.2) with the growth rate beside them made every seventh pot of milk never sour in time, and still left out cultures
//!   that published pots needed.
//! - **Against what was published**: `potset evidence --spread [POTS]` draws each case as a pot in a laboratory
//!   (`forecast::evidence::laboratory`), nothing fitted, and tells by kind the share of readings inside 5 to 95 %, the mean place
//!   of the readings among the draws, and the deviation of the places (0.29 if the bands are just right, less if too wide).
//!   What a source tells is `Exact`; what its case assumes says so in the case: `cells_within`, `sugars_within` (factors),
//!   `hold_within_c`. A reading that a stop was chosen to meet is not counted. `tests/reference/coverage.txt` fixes the
//!   shares with few pots; `UPDATE_EXPECT=1 cargo test --test it coverage` writes it anew. No share may fall under 80 %.
//! - **Against itself and against another model**: `tests/it/spread.rs` (draws of another seed, 90 ± 3 %) and
//!   `tests/it/spread/changed.rs` (other growth laws, a fixed delay, other buffers, a warmer that drifts: at least 80 %).
//! - **Cautions as chances**: each pot is judged by itself (`spread::pot::Pot::lost`); where the likely one is not to be thrown
//!   away, it is told from two pots in ten on.
//! - **What is drawn is not what is typed**: `forecast::compile_drawn` does not hold a drawn pot against the limits of fields, or
//!   pots above one would drop out and those below stay. What cannot be a pot (a label over 100 %) is counted with its reason.
//! - **What matters** (`doubt::matters`): shares of variance keep what is less than nothing until they are summed, or the noise
//!   of a hundred unknowns adds up to a doubt; a share must stand three sigmas above that noise to be told. Times that some pots
//!   never reach are taken as 1/h there, so that nothing hangs on where the sheet ends; a span that the end of the sheet cuts
//!   off is never "narrowed"; what more than half of the pots never reach is left out, and that is said.
//! - What is said of it agrees with it: a chance under the 8 in 10 of the ready window is never rounded up to it; the goal that
//!   comes last is the one that comes to hold in most more pots there; a share is what a straight line through a doubt explains.
//! - Levers are ranked by a tenth of the usual span of each, and told in handy steps; small changes that hardly matter are
//!   named. A lever that stands off its usual is also put back to it (`matters/usual.rs`; dose, warmth, culture in and stop from
//!   inside of their spans too, where that betters the verdict); what betters the verdict stands first.
//! - A thermometer's error moves all steps that bring the base to the culture's temperature (`doc/culture_in.rs`), as the lever
//!   *Add culture at* does.
//! - The measured loss of a warmer that only keeps warmth stands in for the entry's, and is drawn by what the thermometer may
//!   err by in its readings (`spread::UnknownKind::Flask`); the room in them stays as it was read.
//! - **Never of another pot**: the worker makes the first picture of a spread before sweeps and Aim, so that its successor is soon
//!   there; until then card and sheet say "as it was", in the room of the words that they replace. A design without a spread
//!   answers with `NoSpread` and its reason.
//! - An even spread (`Uniform`) may have its likely value at an end: then half of the pots lie at it, as those of a coconut drink
//!   whose label rounds its sugar to nought.

mod hand;
mod learnt;
mod left_out;
mod made;
mod pot;
mod sampler;
mod spreader;
mod summary;
mod unknowns;

pub use left_out::left_of;
pub use made::{STEPS, TOLERANCE};
pub use pot::Pot;
pub(crate) use pot::place_of;
pub use pot::values as curve_of;
pub use sampler::{FIRST, MakerScatter, Sampler};
pub use spreader::Spreader;
pub use unknowns::{Unknown, UnknownKind, Unknowns, amount_bounds};

use potset_base::chance::{Chance, WINDOW_CHANCE};
use potset_forecast::observable::Observable;
use potset_judge::keeping::DayRange;
use potset_judge::mends::Mend;
use potset_judge::readiness::{self, Goal, Window};
use potset_judge::ready::ReadyTime;
use potset_numerics::interpolate::curve;

/// Pots of a whole spread.
pub const POTS: usize = 1000;

/// The seed where none is given.
pub const SEED: u64 = 1;

/// Shares of pots that lie below the edges of the bands, and below the middle.
pub const EDGES: [f64; 5] = [0.05, 0.25, 0.5, 0.75, 0.95];

/// A curve that has a band.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Curve {
    /// °C.
    Warmth,
    Ph,
    /// % as lactic acid.
    AcidMade,
    /// Undissociated lactic acid, mmol/kg.
    Tang,
    /// All sugar left, g/L.
    Sugar,
    /// Pa·s at 50 1/s: chilled, and in the pot.
    Chilled,
    InPot,
    /// Chilled, Pa.
    Stiffness,
    /// On standing, %.
    Whey,
    /// After the chill, % of the pot.
    ThinLayer,
    /// log10 cfu/g of an organism of the pot.
    Count(usize),
}

/// What most pots do on one curve, at the times of the spread.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    pub curve: Curve,
    /// The edges in the order of [`EDGES`].
    pub edges: [Vec<f64>; 5],
}

/// The chance that a goal holds, at the times of the spread.
#[derive(Clone, Debug, PartialEq)]
pub struct GoalChance {
    pub name: String,
    pub share: Vec<f64>,
    /// At the stop line.
    pub at_stop: Chance,
}

/// What comes of the pots at the stop line, or when.
#[derive(Clone, Debug, PartialEq)]
pub struct OutcomeSpread {
    pub outcome: Observable,
    /// In the order of [`EDGES`]; infinite where so many pots never come there.
    pub edges: [f64; 5],
    pub never: Chance,
}

/// Share of the possible pots that would have to be thrown away from which on a plan is watched, and a setting is none.
/// Source: the model's rule for the judge of hygiene, 2 in 10.
pub const TOO_MANY: f64 = 0.2;

/// How many pots are to be thrown away.
#[derive(Clone, Debug, PartialEq)]
pub struct CautionChance {
    /// The likely pot is one of them; otherwise they are watched for.
    pub discard: bool,
    pub chance: Chance,
    /// What brings it down, tried on possible pots of its own ([`crate::surer`]), once that is known.
    pub mend: Option<Mend>,
    /// Whether all that may bring it down was tried.
    pub tried: bool,
}

/// Places of the likely line among the pots that count as their middle. Source: assumed.
pub const MIDDLE: (f64, f64) = (0.4, 0.6);

/// A figure whose likely line is not in the middle of the pots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aside {
    pub curve: Curve,
    pub at_h: f64,
    /// Pots that lie above the line then.
    pub above: Chance,
}

/// What many pots of a design do.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spread {
    /// h.
    pub t: Vec<f64>,
    pub stop_h: f64,
    pub horizon_h: f64,
    /// Pots that are asked for, and those that are done.
    pub wanted: usize,
    pub tried: usize,
    /// Why some could not be made, and how many: the first reason of each kind.
    pub failed: Vec<(String, usize)>,
    pub bands: Vec<Band>,
    pub goals: Vec<GoalChance>,
    /// The chance that all goals hold.
    pub all: Vec<f64>,
    pub outcomes: Vec<OutcomeSpread>,
    /// Pots in which all goals hold at the stop line.
    pub at_stop: Chance,
    pub cautions: Vec<CautionChance>,
    /// When the pots are ready: the one answer of every view.
    pub ready: ReadyTime,
    /// Where in the hold the likely line is farthest from the middle of the pots, by figure, if that is far.
    pub asides: Vec<Aside>,
    /// How far the pots differ in the cold, by day; empty where the likely one is no yogurt.
    pub kept: Vec<DayRange>,
}

impl Spread {
    /// Pots that were forecast.
    pub fn made(&self) -> usize {
        self.tried - self.failed.iter().map(|(_, n)| n).sum::<usize>()
    }

    /// Whether all pots are done.
    pub const fn complete(&self) -> bool {
        self.tried >= self.wanted
    }

    /// The band of a curve.
    pub fn band(&self, curve: Curve) -> Option<&Band> {
        self.bands.iter().find(|b| b.curve == curve)
    }

    /// A list that goes with the times of the spread, at a time.
    pub fn value(&self, ys: &[f64], t_h: f64) -> f64 {
        curve(&self.t, ys, t_h)
    }

    /// Edges of a curve's band at a time.
    pub fn at(&self, what: Curve, t_h: f64) -> Option<[f64; 5]> {
        let band = self.band(what)?;
        Some(std::array::from_fn(|k| curve(&self.t, &band.edges[k], t_h)))
    }

    /// What the pots come to.
    pub fn outcome(&self, outcome: Observable) -> Option<&OutcomeSpread> {
        self.outcomes.iter().find(|o| o.outcome == outcome)
    }

    /// The span in which all goals hold in at least a share of the pots, about the stop line if it can be. What opens it is
    /// the goal that comes to hold in most more pots there, and what closes it the one that is lost in most.
    pub fn window(&self, share: f64) -> Option<Window> {
        let margin = self.all.iter().map(|p| p - share).collect();
        let all = [Goal { name: String::new(), margin }];
        let mut window = readiness::window(&self.t, &all, self.stop_h)?;
        window.opens = window.opens.and_then(|_| self.decisive(window.from_h, 1.0));
        window.closes = window.closes.and_then(|_| self.decisive(window.to_h, -1.0));
        Some(window)
    }

    /// The goal whose share changes most about a time in one direction, over the step that holds it and one on either side;
    /// of two alike the one that fewer pots have there.
    fn decisive(&self, t_h: f64, direction: f64) -> Option<String> {
        let last = self.t.len().checked_sub(1)?;
        let after = self.t.partition_point(|t| *t < t_h).clamp(1, last.max(1));
        let (from, to) = (after.saturating_sub(2), (after + 1).min(last));
        let change = |g: &GoalChance| Some(direction * (g.share.get(to)? - g.share.get(from)?));
        let rank = |g: &&GoalChance| (change(g).unwrap_or(0.0), -curve(&self.t, &g.share, t_h));
        let order = |a: (f64, f64), b: (f64, f64)| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1));
        self.goals.iter().max_by(|a, b| order(rank(a), rank(b))).map(|g| g.name.clone())
    }

    /// The goal that holds in fewest pots at the stop.
    fn rarest_at_stop(&self) -> Option<String> {
        let rarest = self.goals.iter().min_by(|a, b| a.at_stop.share().total_cmp(&b.at_stop.share()))?;
        (rarest.at_stop.share() < WINDOW_CHANCE).then(|| rarest.name.clone())
    }
}
