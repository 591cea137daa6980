//! What can be found out: the unknowns of a pot by what a maker could do about them.

use super::doubts::Doubts;
use crate::spread::{Spreader, Unknown, UnknownKind, amount_bounds};
use potset_base::Cited;
use potset_base::measures::Measure;
use potset_doc::design::Powder;
use potset_doc::pantry::{EntryKind, Warmer, Warming};
use potset_doc::{Kitchen, Pantry};
use potset_forecast::lever::LeverId;
use potset_forecast::scenario::Scenario;
use potset_forecast::{flask, params};
use potset_numerics::moments;

/// Below this share of every watched outcome a doubt is not listed. Source: assumed.
const LEAST: f64 = 0.03;

/// Nor below so many sigmas of what chance makes of such a share. Source: assumed.
const SIGMAS: f64 = 3.0;

/// Shares of the variance of a doubt that are left when one has found out. Source: assumed, all of them.
///
/// - `CHECKED` — a thermometer checked at two known points keeps a fifth of its error.
/// - `LOGGED` — a night's log leaves what differs from day to day.
/// - `LABEL` — what a label may be off by; `TITRATED` — two good readings of pH and acidity.
/// - `THICKENED` — one spoon or line-spread test; `TIMED` — one log of a vessel or a warmer that is heated.
/// - `AGAIN` — the mean of two readings.
/// - `FINER` — a scale of a tenth of the error.
const CHECKED: f64 = 0.04;
const LOGGED: f64 = 0.25;
const LABEL: f64 = 0.25;
const TITRATED: f64 = 0.1;
const THICKENED: f64 = 0.2;
const TIMED: f64 = 0.1;
const AGAIN: f64 = 0.5;
const FINER: f64 = 0.01;

/// Weighing is told before a powder where it leaves less than this of the doubt. Source: assumed.
const WEIGHING_DOES: f64 = 0.5;

/// Ways to measure a culture.
pub const WEIGH: &str = "weigh it on your scale";
pub const POWDER: &str = "make a 1:10 powder of it, and weigh that";

/// A doubt, how one finds out, and what that would leave of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Find {
    /// "How much Plant culture goes in, by the knife tip".
    pub what: String,
    /// What to do: "weigh it on your scale".
    pub how: String,
    /// Share of the variance of each watched outcome, 0 to 1.
    pub shares: Vec<f64>,
    /// Share of this doubt that is left afterwards; nothing where only pots of one's own tell.
    pub left: Option<f64>,
}

impl Find {
    /// By which factor the band of a watched outcome becomes narrower.
    pub fn narrows(&self, i: usize) -> Option<f64> {
        let gone = self.shares.get(i)? * (1.0 - self.left?);
        Some((1.0 - gone).max(0.0).sqrt())
    }

    /// The largest of its shares.
    pub fn most(&self) -> f64 {
        self.shares.iter().copied().fold(0.0, f64::max)
    }
}

/// All doubts, the largest first.
pub fn finds(scenario: &Scenario<'_>, spreader: &Spreader, doubts: &[Doubts]) -> Vec<Find> {
    let mut design = scenario.design.clone();
    design.refresh_snapshot(scenario.pantry);
    let sorted = Sorted { scenario, own: &design.snapshot };
    // Each with how many unknowns it is made of.
    let mut all: Vec<(Find, usize)> = Vec::new();
    for (i, unknown) in spreader.sampler().unknowns().list.iter().enumerate() {
        let spread: Vec<f64> =
            (0..spreader.sampler().pots()).map(|k| spreader.sampler().place(i, k).z).collect();
        // An unknown that is drawn at one place only tells nothing.
        if moments::variance(&spread) <= 0.0 {
            continue;
        }
        let mine: Vec<f64> = doubts.iter().map(|d| d.shares.get(i).copied().unwrap_or(0.0)).collect();
        let DoubtInWords { what, how, left } = sorted.told(unknown);
        match all.iter_mut().find(|(f, _)| f.what == what) {
            Some((find, n)) => {
                find.shares.iter_mut().zip(&mine).for_each(|(all, one)| *all += one);
                *n += 1;
            }
            None => all.push((Find { what, how, shares: mine, left }, 1)),
        }
    }
    let told = |(find, n): &(Find, usize)| {
        find.shares.iter().zip(doubts).any(|(share, d)| *share >= LEAST.max(SIGMAS * d.off(*n)))
    };
    let mut all: Vec<Find> = all.into_iter().filter(told).map(|(find, _)| find).collect();
    all.iter_mut().for_each(|find| find.shares.iter_mut().for_each(|s| *s = s.clamp(0.0, 1.0)));
    all.sort_by(|a, b| b.most().total_cmp(&a.most()).then_with(|| a.what.cmp(&b.what)));
    all
}

/// A doubt in words.
struct DoubtInWords {
    what: String,
    how: String,
    left: Option<f64>,
}

fn told(what: impl Into<String>, how: &str, left: Option<f64>) -> DoubtInWords {
    DoubtInWords { what: what.into(), how: how.to_owned(), left }
}

/// What to do about an unknown, and which share of its variance that leaves.
pub fn remedy(scenario: &Scenario<'_>, own: &Pantry, unknown: &Unknown) -> (String, Option<f64>) {
    let DoubtInWords { how, left, .. } = Sorted { scenario, own }.told(unknown);
    (how, left)
}

struct Sorted<'a> {
    scenario: &'a Scenario<'a>,
    /// Every entry in use.
    own: &'a Pantry,
}

impl Sorted<'_> {
    fn told(&self, unknown: &Unknown) -> DoubtInWords {
        match &unknown.of {
            UnknownKind::Amount { lever_id, measure, grams, bounds } => {
                self.amount(*lever_id, *measure, *grams, *bounds)
            }
            UnknownKind::Thermometer(_) => told(
                "What your thermometer is off by",
                "check it in melting ice and in boiling water",
                Some(CHECKED),
            ),
            UnknownKind::Label(i) => told(
                format!("What is in {} against its label", self.base(*i)),
                "use tins of one lot, and note how a pot of it came out",
                None,
            ),
            UnknownKind::Age(_) => told("How old the culture is", "write the date on the packet", Some(0.0)),
            UnknownKind::Measured { taken, .. } => told(
                format!("How exactly {} was measured", taken.kind.words()),
                "measure it again, and take the mean",
                Some(AGAIN),
            ),
            // The mean of all readings and one more.
            UnknownKind::Flask { warmer, readings, .. } => told(
                format!("How exactly the loss of {} was measured", self.name(EntryKind::Warmer, warmer)),
                "read it once more, and add the reading under Kitchen",
                Some(share_left(*readings)),
            ),
            UnknownKind::Room | UnknownKind::Warmth => told(
                "The warmth of one pot against the next",
                "leave a thermometer in a pot of water through a whole hold",
                Some(LOGGED),
            ),
            UnknownKind::LeftOut => {
                told("What the laws of texture leave out", "note the texture of the pots that you make", None)
            }
            UnknownKind::Figures(paths) => self.figures(paths.first().map_or("", String::as_str)),
        }
    }

    fn base(&self, i: usize) -> String {
        let key = self.scenario.design.bases.get(i).map_or("", |b| b.entry.as_str());
        self.name(EntryKind::Base, key)
    }

    fn amount(&self, lever_id: LeverId, measure: Measure, grams: f64, bounds: (f64, f64)) -> DoubtInWords {
        let design = self.scenario.design;
        let called = match lever_id {
            LeverId::BaseLitres(i) => self.base(i),
            LeverId::SugarDose(i) => self.name(EntryKind::Sugar, &design.sugars[i].entry),
            LeverId::ThickenerDose(i) => self.name(EntryKind::Thickener, &design.thickeners[i].entry),
            LeverId::AdditiveDose(i) => self.name(EntryKind::Additive, &design.additives[i].entry),
            LeverId::CultureRate(i) => self.name(EntryKind::Culture, &design.cultures[i].entry),
            _ => String::new(),
        };
        let straight = match lever_id {
            LeverId::CultureRate(i) => design.cultures[i].powder == Powder::Straight,
            _ => false,
        };
        let what = format!("How much {called} goes in, by {}", by(measure));
        let width = |(low, high): (f64, f64)| (high / low).ln();
        let left = |grams: f64| {
            let weighed = amount_bounds(self.scenario.kitchen, Measure::Gram, grams);
            (width(weighed) / width(bounds)).powi(2).min(1.0)
        };
        let household = measure.real_share().spread.bounds().is_some();
        if household && (!straight || left(grams) < WEIGHING_DOES) {
            return told(what, WEIGH, Some(left(grams)));
        }
        // What the scale cannot show by itself it shows ten times as large; what is weighed so already needs a finer one.
        if straight {
            return told(what, POWDER, Some(left(10.0 * grams)));
        }
        told(what, "use a finer scale", Some(FINER))
    }

    /// The name of an entry of the design; of one that it has not, its key.
    fn name(&self, kind: EntryKind, key: &str) -> String {
        self.own.entry(kind, key).map_or(key, |entry| entry.name()).to_owned()
    }

    /// What a warmer reaches, or how soon. A difference given under Kitchen tells only the first, and only of a heated one.
    fn warmer(&self, key: &str, reaches: bool) -> DoubtInWords {
        let called = self.name(EntryKind::Warmer, key);
        let warming = self.own.get::<Warmer>(key).map(|w| &w.warming);
        if let Some(Warming::Insulated { cooling_h }) = warming {
            return told(
                format!("How fast a pot in {called} cools"),
                "read a pot of water in it after some hours, and give what it reads under Kitchen",
                Some(self.one_reading(key, cooling_h)),
            );
        }
        if !reaches {
            return told(
                format!("How fast a pot in {called} warms or cools"),
                "log a pot of water in it, and give what you read as measured temperatures of the hold",
                Some(TIMED),
            );
        }
        let error = self.scenario.kitchen.thermometer_c;
        let offset = match warming {
            Some(Warming::Heated { offset_c, .. }) => offset_c.spread.bounds(),
            _ => None,
        };
        let left = offset.map_or(TIMED, |(low, high)| (2.0 * error / (high - low)).powi(2).min(1.0));
        told(
            format!("What {called} really reaches"),
            "measure a pot of water in it, and give the difference under Kitchen",
            Some(left),
        )
    }

    /// Share of the variance of an entry's loss of warmth that one reading leaves with the kitchen's thermometer.
    fn one_reading(&self, key: &str, cooling_h: &Cited) -> f64 {
        let (Ok(params), Some((low, high))) = (params::shipped(), cooling_h.spread.bounds()) else {
            return TIMED;
        };
        let ways = params.laws().ways;
        let reading = flask::likely_reading(self.scenario.kitchen, key, cooling_h.v, &ways);
        let read = Kitchen { flasks: vec![reading], ..self.scenario.kitchen.clone() };
        match flask::loss(&read, key, &ways) {
            Ok(Some(loss)) => (2.0 * loss.times.ln() / (high / low).ln()).powi(2).min(1.0),
            _ => TIMED,
        }
    }

    fn figures(&self, path: &str) -> DoubtInWords {
        let mut steps = path.split('.');
        let (shelf, key, field) =
            (steps.next().unwrap_or(""), steps.next().unwrap_or(""), steps.next().unwrap_or(""));
        let name = |kind| self.name(kind, key);
        match shelf {
            "bases" if matches!(field, "ph" | "mean_buffer" | "start_acidity" | "ionic_strength") => told(
                format!("How {} takes up acid", name(EntryKind::Base)),
                "read its pH, titrate it once, and give both under Measured",
                Some(TITRATED),
            ),
            "buffer_shapes" => {
                told("How the base takes up acid between one pH and another", "titrate it", None)
            }
            "bases" => told(
                format!("What is in {}", name(EntryKind::Base)),
                "read its label into the design",
                Some(LABEL),
            ),
            "sugars" => told(format!("What is in {}", name(EntryKind::Sugar)), "read its label", Some(LABEL)),
            "additives" => {
                told(format!("What is in {}", name(EntryKind::Additive)), "read its label", Some(LABEL))
            }
            "thickeners" => told(
                format!("How strongly {} works", name(EntryKind::Thickener)),
                "thicken a cup of the base with it, and do a spoon or line-spread test",
                Some(THICKENED),
            ),
            "cultures" => told(
                format!("How many living cells {} brings, and how soon they work", name(EntryKind::Culture)),
                "read the pH of a pot while it sours",
                None,
            ),
            "organisms" => {
                told("How fast these strains grow and sour", "read the pH of a pot while it sours", None)
            }
            "warmers" => self.warmer(key, path.ends_with("offset_c")),
            "vessels" => told("How fast the vessel warms and cools", "log a pot of water once", Some(TIMED)),
            "gel" | "starch" | "fat" | "flow" | "wheying" | "solid_fat" | "whey" => told(
                "How firmly gels, starch and fat of such a pot set",
                "note the texture of the pots that you make",
                None,
            ),
            _ => told("The laws of souring", "read the pH of a pot while it sours", None),
        }
    }
}

/// Share of the variance of a mean of some readings that is left with one reading more: `n/(n + 1)`.
#[allow(clippy::cast_precision_loss, reason = "a few readings")]
fn share_left(readings: usize) -> f64 {
    let n = readings as f64;
    n / (n + 1.0)
}

/// How an amount is measured.
fn by(measure: Measure) -> String {
    match measure {
        Measure::Gram | Measure::Kilogram | Measure::Ounce | Measure::Pound => "your scale".to_owned(),
        Measure::Millilitre | Measure::Litre | Measure::FluidOunce | Measure::Pint | Measure::Quart => {
            "the jug".to_owned()
        }
        other => format!("the {}", other.word(false)),
    }
}
