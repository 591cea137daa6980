//! Spread: many possible pots of one design, what most of them do, and how likely the goals are.

mod draw;
mod left_out;
mod made;
mod pot;
mod sampler;
mod spreader;
mod summary;
mod unknowns;
mod words;

pub use draw::Place;
pub use draw::stream;
pub use left_out::left_of;
pub(crate) use pot::place_of;
pub use sampler::{FIRST, Hand, STEPS, Sampler, TOLERANCE};
pub use spreader::Spreader;
pub use unknowns::{Of, Unknown, Unknowns, amount_bounds};
pub use words::span_words;

use potset_base::Note;
use potset_forecast::outcome::Outcome;
use potset_judge::chance::{Chance, WINDOW_CHANCE};
use potset_judge::keeping::DayRange;
use potset_judge::readiness;
use potset_judge::readiness::{Goal, Window};
use potset_judge::ready::ReadyTime;
use potset_numerics::Error;
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
    pub outcome: Outcome,
    /// In the order of [`EDGES`]; infinite where so many pots never come there.
    pub edges: [f64; 5],
    pub never: Chance,
}

/// How many pots are to be thrown away.
#[derive(Clone, Debug, PartialEq)]
pub struct CautionChance {
    /// The likely pot is one of them; otherwise they are watched for.
    pub discard: bool,
    pub chance: Chance,
    pub sentence: String,
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
    #[must_use]
    pub fn made(&self) -> usize {
        self.tried - self.failed.iter().map(|(_, n)| n).sum::<usize>()
    }

    /// Whether all pots are done.
    #[must_use]
    pub const fn complete(&self) -> bool {
        self.tried >= self.wanted
    }

    /// The band of a curve.
    #[must_use]
    pub fn band(&self, curve: Curve) -> Option<&Band> {
        self.bands.iter().find(|b| b.curve == curve)
    }

    /// A list that goes with the times of the spread, at a time.
    #[must_use]
    pub fn value(&self, ys: &[f64], t_h: f64) -> f64 {
        curve(&self.t, ys, t_h)
    }

    /// Edges of a curve's band at a time.
    #[must_use]
    pub fn at(&self, what: Curve, t_h: f64) -> Option<[f64; 5]> {
        let band = self.band(what)?;
        Some(std::array::from_fn(|k| curve(&self.t, &band.edges[k], t_h)))
    }

    /// What the pots come to.
    #[must_use]
    pub fn outcome(&self, outcome: Outcome) -> Option<&OutcomeSpread> {
        self.outcomes.iter().find(|o| o.outcome == outcome)
    }

    /// The span in which all goals hold in at least a share of the pots, about the stop line if it can be. What opens it is
    /// the goal that comes to hold in most more pots there, and what closes it the one that is lost in most.
    #[must_use]
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

fn trouble(e: &Error) -> Note {
    Note::error(
        "design",
        format!("The forecast could not be computed: {e}"),
        "Change what was changed last, and send the design to the makers of the program",
    )
}
