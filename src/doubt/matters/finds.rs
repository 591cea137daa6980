//! What can be found out: the unknowns of a pot by what a maker could do about them.

use super::doubts::Doubts;
use crate::spread::{Spreader, Unknown, UnknownKind, amount_bounds};
use potset_base::Cited;
use potset_base::measures::Measure;
use potset_doc::design::Powder;
use potset_doc::measured::Kind;
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

/// A doubt as a maker would ask about it; what stands in one is asked about by its name.
#[derive(Clone, Debug, PartialEq)]
pub enum Doubt {
    /// How much goes in by a measure: any weight stands as a gram, any volume of the jug as a millilitre.
    Amount(String, Measure),
    Thermometer,
    /// What is in a base against its label.
    AgainstLabel(String),
    Age,
    Measured(Kind),
    /// The warmth of one pot against the next.
    PotToPot,
    /// What the laws of texture leave out.
    LeftOut,
    /// How a base takes up acid, and how that differs from one pH to another.
    AcidOf(String),
    AcidShape,
    /// What is in an entry.
    Content(EntryKind, String),
    Thickening(String),
    Cells(String),
    Strains,
    WarmerPace(String),
    /// How fast a flask cools: by its entry, and as it was read.
    FlaskLoses(String),
    FlaskRead(String),
    WarmerReach(String),
    Vessel,
    /// How firmly gels, starch and fat set.
    Setting,
    Souring,
}

/// How an amount could be measured better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighing {
    OnTheScale,
    /// In a 1:10 powder.
    Powder,
    FinerScale,
}

/// A doubt, and what finding out would leave of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    pub doubt: Doubt,
    /// Of amounts alone.
    pub weighing: Option<Weighing>,
    /// Share of its variance that is left afterwards; nothing where only pots of one's own tell.
    pub left: Option<f64>,
}

/// A doubt that can be found out about, and what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Find {
    pub remedy: Remedy,
    /// Share of the variance of each watched outcome, 0 to 1.
    pub shares: Vec<f64>,
}

impl Find {
    /// By which factor the band of a watched outcome becomes narrower.
    pub fn narrows(&self, i: usize) -> Option<f64> {
        let gone = self.shares.get(i)? * (1.0 - self.remedy.left?);
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
        let remedy = sorted.remedy(unknown);
        match all.iter_mut().find(|(f, _)| f.remedy.doubt == remedy.doubt) {
            Some((find, n)) => {
                find.shares.iter_mut().zip(&mine).for_each(|(all, one)| *all += one);
                *n += 1;
            }
            None => all.push((Find { remedy, shares: mine }, 1)),
        }
    }
    let telling = |(find, n): &(Find, usize)| {
        find.shares.iter().zip(doubts).any(|(share, d)| *share >= LEAST.max(SIGMAS * d.off(*n)))
    };
    let mut all: Vec<Find> = all.into_iter().filter(telling).map(|(find, _)| find).collect();
    all.iter_mut().for_each(|find| find.shares.iter_mut().for_each(|s| *s = s.clamp(0.0, 1.0)));
    all.sort_by(|a, b| b.most().total_cmp(&a.most()));
    all
}

/// What an unknown is to a maker, and what finding out would leave of it.
pub fn remedy(scenario: &Scenario<'_>, own: &Pantry, unknown: &Unknown) -> Remedy {
    Sorted { scenario, own }.remedy(unknown)
}

struct Sorted<'a> {
    scenario: &'a Scenario<'a>,
    /// Every entry in use.
    own: &'a Pantry,
}

impl Sorted<'_> {
    fn remedy(&self, unknown: &Unknown) -> Remedy {
        let (doubt, left) = match &unknown.of {
            UnknownKind::Amount { lever_id, measure, grams, bounds } => {
                return self.amount(*lever_id, *measure, *grams, *bounds);
            }
            UnknownKind::Thermometer(_) => (Doubt::Thermometer, Some(CHECKED)),
            UnknownKind::Label(i) => (Doubt::AgainstLabel(self.base(*i)), None),
            UnknownKind::Age(_) => (Doubt::Age, Some(0.0)),
            UnknownKind::Measured { taken, .. } => (Doubt::Measured(taken.kind), Some(AGAIN)),
            // The mean of all readings and one more.
            UnknownKind::Flask { warmer, readings, .. } => {
                (Doubt::FlaskRead(self.name(EntryKind::Warmer, warmer)), Some(share_left(*readings)))
            }
            UnknownKind::Room | UnknownKind::Warmth | UnknownKind::Warmer(_) => {
                (Doubt::PotToPot, Some(LOGGED))
            }
            UnknownKind::LeftOut => (Doubt::LeftOut, None),
            UnknownKind::Figures(paths) => self.figures(paths.first().map_or("", String::as_str)),
        };
        Remedy { doubt, weighing: None, left }
    }

    fn base(&self, i: usize) -> String {
        let key = self.scenario.design.bases.get(i).map_or("", |b| b.entry.as_str());
        self.name(EntryKind::Base, key)
    }

    fn amount(&self, lever_id: LeverId, measure: Measure, grams: f64, bounds: (f64, f64)) -> Remedy {
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
        let width = |(low, high): (f64, f64)| (high / low).ln();
        let left = |grams: f64| {
            let weighed = amount_bounds(self.scenario.kitchen, Measure::Gram, grams);
            (width(weighed) / width(bounds)).powi(2).min(1.0)
        };
        let household = measure.real_share().spread.bounds().is_some();
        let (weighing, left) = if household && (!straight || left(grams) < WEIGHING_DOES) {
            (Weighing::OnTheScale, left(grams))
        } else if straight {
            // What the scale cannot show by itself it shows ten times as large; what is weighed so already needs a finer one.
            (Weighing::Powder, left(10.0 * grams))
        } else {
            (Weighing::FinerScale, FINER)
        };
        let by = match measure {
            Measure::Gram | Measure::Kilogram | Measure::Ounce | Measure::Pound => Measure::Gram,
            Measure::Millilitre | Measure::Litre | Measure::FluidOunce | Measure::Pint | Measure::Quart => {
                Measure::Millilitre
            }
            other => other,
        };
        Remedy { doubt: Doubt::Amount(called, by), weighing: Some(weighing), left: Some(left) }
    }

    /// The name of an entry of the design; of one that it has not, its key.
    fn name(&self, kind: EntryKind, key: &str) -> String {
        self.own.entry(kind, key).map_or(key, |entry| entry.name()).to_owned()
    }

    /// What a warmer reaches, or how soon. A difference given under Kitchen tells only the first, and only of a heated one.
    fn warmer(&self, key: &str, reaches: bool) -> (Doubt, Option<f64>) {
        let called = self.name(EntryKind::Warmer, key);
        let warming = self.own.get::<Warmer>(key).map(|w| &w.warming);
        if let Some(Warming::Insulated { cooling_h }) = warming {
            let left = self.one_reading(key, cooling_h);
            return (Doubt::FlaskLoses(called), Some(left));
        }
        if !reaches {
            return (Doubt::WarmerPace(called), Some(TIMED));
        }
        let error = self.scenario.kitchen.thermometer_c;
        let offset = match warming {
            Some(Warming::Heated { offset_c, .. }) => offset_c.spread.bounds(),
            _ => None,
        };
        let left = offset.map_or(TIMED, |(low, high)| (2.0 * error / (high - low)).powi(2).min(1.0));
        (Doubt::WarmerReach(called), Some(left))
    }

    /// Share of the variance of an entry's loss of warmth that one reading leaves with the kitchen's thermometer.
    fn one_reading(&self, key: &str, cooling_h: &Cited) -> f64 {
        let (Ok(params), Some((low, high))) = (params::shipped(), cooling_h.spread.bounds()) else {
            return TIMED;
        };
        let ways = params.laws().ways;
        let reading = flask::likely_reading(self.scenario.kitchen, key, cooling_h.value, &ways);
        let read = Kitchen { flasks: vec![reading], ..self.scenario.kitchen.clone() };
        match flask::loss(&read, key, &ways) {
            Ok(Some(loss)) => (2.0 * loss.times.ln() / (high / low).ln()).powi(2).min(1.0),
            _ => TIMED,
        }
    }

    fn figures(&self, path: &str) -> (Doubt, Option<f64>) {
        let mut steps = path.split('.');
        let (shelf, key, field) =
            (steps.next().unwrap_or(""), steps.next().unwrap_or(""), steps.next().unwrap_or(""));
        let name = |kind| self.name(kind, key);
        let content = |kind| (Doubt::Content(kind, name(kind)), Some(LABEL));
        match shelf {
            "bases" if matches!(field, "ph" | "mean_buffer" | "start_acidity" | "ionic_strength") => {
                (Doubt::AcidOf(name(EntryKind::Base)), Some(TITRATED))
            }
            "buffer_shapes" => (Doubt::AcidShape, None),
            "bases" => content(EntryKind::Base),
            "sugars" => content(EntryKind::Sugar),
            "additives" => content(EntryKind::Additive),
            "thickeners" => (Doubt::Thickening(name(EntryKind::Thickener)), Some(THICKENED)),
            "cultures" => (Doubt::Cells(name(EntryKind::Culture)), None),
            "organisms" => (Doubt::Strains, None),
            "warmers" => self.warmer(key, path.ends_with("offset_c")),
            "vessels" => (Doubt::Vessel, Some(TIMED)),
            "gel" | "starch" | "fat" | "flow" | "wheying" | "solid_fat" | "whey" => (Doubt::Setting, None),
            _ => (Doubt::Souring, None),
        }
    }
}

/// Share of the variance of a mean of some readings that is left with one reading more: `n/(n + 1)`.
fn share_left(readings: usize) -> f64 {
    let n = readings as f64;
    n / (n + 1.0)
}
