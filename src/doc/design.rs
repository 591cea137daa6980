//! A design: one recipe with its steps, goals and notes, and a copy of the pantry entries that it uses.

use serde::{Deserialize, Serialize};

use super::goals::Goals;
use super::pantry::{self, Pantry};
use super::steps::{Happening, Hold, Step};
use crate::base::clock::Moment;
use crate::base::measures::{Measure, SpoonSet};
use crate::base::words::Style;

/// What the label says, per 100 g; what is empty comes from the pantry entry.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LabelFigures {
    #[serde(default)]
    pub fat: Option<f64>,
    #[serde(default)]
    pub protein: Option<f64>,
    #[serde(default)]
    pub sugars: Option<f64>,
    /// Declared extract, %.
    #[serde(default)]
    pub extract: Option<f64>,
    /// Without fibre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carbohydrate: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fibre: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub saturates: Option<f64>,
    /// mg.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sodium: Option<f64>,
    /// mg.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calcium: Option<f64>,
}

/// A base and how much of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BaseLine {
    pub entry: String,
    pub litres: f64,
    #[serde(default)]
    pub label: LabelFigures,
    /// Its share stays while the share of another base is moved.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub locked: bool,
    /// The measure that its amount is said in.
    #[serde(default = "Measure::litre", skip_serializing_if = "Measure::is_litre")]
    pub by: Measure,
}

impl BaseLine {
    /// A base as the pantry has it.
    #[must_use]
    pub fn new(entry: String, litres: f64) -> Self {
        Self { entry, litres, label: LabelFigures::default(), locked: false, by: Measure::Litre }
    }
}

/// A sugar and its dose.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SugarLine {
    pub entry: String,
    pub g_per_l: f64,
    /// For the culture to eat, or for the tongue.
    #[serde(default, skip_serializing_if = "SweetWhen::is_default")]
    pub when: SweetWhen,
    /// The measure that its amount is said in; grams: as a dose.
    #[serde(default, skip_serializing_if = "Measure::is_gram")]
    pub by: Measure,
}

impl SugarLine {
    /// A sugar for the culture.
    #[must_use]
    pub const fn new(entry: String, g_per_l: f64) -> Self {
        Self { entry, g_per_l, when: SweetWhen::BeforeTheCulture, by: Measure::Gram }
    }
}

/// When a sugar goes in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SweetWhen {
    #[default]
    BeforeTheCulture,
    /// Stirred in after the hold: nothing eats it.
    AfterTheHold,
}

impl SweetWhen {
    fn is_default(&self) -> bool {
        *self == Self::default()
    }
}

/// When an additive goes in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AddedWhen {
    /// With the base, before any heating.
    #[default]
    WithTheBase,
    WithTheCulture,
    AfterTheHold,
}

impl AddedWhen {
    pub const ALL: [Self; 3] = [Self::WithTheBase, Self::WithTheCulture, Self::AfterTheHold];

    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::WithTheBase => "with the base",
            Self::WithTheCulture => "with the culture",
            Self::AfterTheHold => "after the hold",
        }
    }
}

/// An additive and its dose.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdditiveLine {
    pub entry: String,
    pub g_per_l: f64,
    #[serde(default)]
    pub when: AddedWhen,
    /// The measure that its amount is said in; grams: as a dose.
    #[serde(default, skip_serializing_if = "Measure::is_gram")]
    pub by: Measure,
}

impl AdditiveLine {
    /// An additive, said as a dose.
    #[must_use]
    pub const fn new(entry: String, g_per_l: f64, when: AddedWhen) -> Self {
        Self { entry, g_per_l, when, by: Measure::Gram }
    }
}

/// When a thickener goes in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GoesIn {
    /// With the base, before any heating: it sees all the heat.
    #[default]
    WithTheBase,
    /// With the culture: it sees only the hold.
    WithTheCulture,
}

/// A thickener, its dose and how it goes in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThickenerLine {
    pub entry: String,
    pub g_per_l: f64,
    /// Rubbed into the sugar, slurried or blended first, so that it does not clump.
    #[serde(default)]
    pub mixed_first: bool,
    #[serde(default)]
    pub goes_in: GoesIn,
    /// The measure that its amount is said in; grams: as a dose.
    #[serde(default, skip_serializing_if = "Measure::is_gram")]
    pub by: Measure,
}

impl ThickenerLine {
    /// A thickener that goes in with the base, said as a dose.
    #[must_use]
    pub const fn new(entry: String, g_per_l: f64, mixed_first: bool) -> Self {
        Self { entry, g_per_l, mixed_first, goes_in: GoesIn::WithTheBase, by: Measure::Gram }
    }
}

/// How the culture powder is weighed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Powder {
    #[default]
    Straight,
    /// One part culture in ten parts of dry carrier.
    OneToTen,
}

/// A culture and its rate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CultureLine {
    pub entry: String,
    /// × the packet's rate.
    pub rate: f64,
    #[serde(default)]
    pub powder: Powder,
    /// Age since it was made or opened, days.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub age_days: f64,
    /// Where it was kept, °C; empty: in the freezer if dry, in the fridge if not.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kept_c: Option<f64>,
    /// The packet was open meanwhile, or kept damp.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub opened: bool,
    /// The measure that its amount is said in; grams: as a share of the packet's rate.
    #[serde(default, skip_serializing_if = "Measure::is_gram")]
    pub by: Measure,
}

impl CultureLine {
    /// A fresh culture, weighed straight.
    #[must_use]
    pub const fn new(entry: String, rate: f64) -> Self {
        Self {
            entry,
            rate,
            powder: Powder::Straight,
            age_days: 0.0,
            kept_c: None,
            opened: false,
            by: Measure::Gram,
        }
    }
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands the field by reference")]
fn is_zero(v: &f64) -> bool {
    *v == 0.0
}

/// The pots.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pots {
    pub vessel: String,
    pub count: u32,
    /// One serving, g.
    #[serde(default = "serving", skip_serializing_if = "is_serving")]
    pub serving_g: f64,
}

/// The usual serving, g (common practice: a pot of yogurt of 125 g).
pub const SERVING_G: f64 = 125.0;

const fn serving() -> f64 {
    SERVING_G
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands the field by reference")]
fn is_serving(grams: &f64) -> bool {
    (*grams - SERVING_G).abs() < 1e-9
}

/// What is done to the pot after it has set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Disturbed {
    /// Only by the spoon that eats it.
    #[default]
    SpoonOnly,
    StirredByHand,
    /// Strained, pumped or filled.
    Worked,
    /// Blended or homogenised.
    Blended,
}

impl Disturbed {
    pub const ALL: [Self; 4] = [Self::SpoonOnly, Self::StirredByHand, Self::Worked, Self::Blended];

    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::SpoonOnly => "only by the spoon",
            Self::StirredByHand => "stirred by hand",
            Self::Worked => "strained or filled",
            Self::Blended => "blended smooth",
        }
    }
}

/// When the culture goes in, or by when the pot must be ready. Local time as "2026-11-26 18:30".
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Clock {
    #[default]
    Open,
    StartsAt(String),
    ReadyBy(String),
}

/// One recipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Design {
    pub name: String,
    pub bases: Vec<BaseLine>,
    #[serde(default)]
    pub sugars: Vec<SugarLine>,
    #[serde(default)]
    pub thickeners: Vec<ThickenerLine>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub additives: Vec<AdditiveLine>,
    #[serde(default)]
    pub cultures: Vec<CultureLine>,
    pub steps: Vec<Step>,
    pub style: Style,
    #[serde(default)]
    pub disturbed: Disturbed,
    pub pots: Pots,
    #[serde(default)]
    pub goals: Goals,
    #[serde(default)]
    pub clock: Clock,
    #[serde(default)]
    pub spoons: SpoonSet,
    #[serde(default)]
    pub tags: Vec<String>,
    #[serde(default)]
    pub notes: String,
    /// The pantry entries in use, so that the design opens anywhere.
    #[serde(default)]
    pub snapshot: Pantry,
}

impl Design {
    /// The hold, if there is one.
    #[must_use]
    pub fn hold(&self) -> Option<&Hold> {
        self.steps.iter().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })
    }

    /// The hold, to change it.
    pub fn hold_mut(&mut self) -> Option<&mut Hold> {
        self.steps.iter_mut().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })
    }

    /// Target temperature and hours of the chill.
    #[must_use]
    pub fn chill(&self) -> Option<(f64, f64)> {
        self.steps
            .iter()
            .find_map(|s| if let Step::Chill { to_c, hours, .. } = s { Some((*to_c, *hours)) } else { None })
    }

    /// When the hold starts, if the clock says so: at its start, or early enough to be ready.
    #[must_use]
    pub fn start(&self) -> Option<Moment> {
        match &self.clock {
            Clock::Open => None,
            Clock::StartsAt(text) => Moment::parse(text),
            Clock::ReadyBy(text) => {
                let hours = self.hold().map_or(0.0, |hold| hold.hours);
                Moment::parse(text).map(|ready| ready.after(-hours))
            }
        }
    }

    /// Volume of all bases, L.
    #[must_use]
    pub fn litres(&self) -> f64 {
        self.bases.iter().map(|b| b.litres).sum()
    }

    /// Makes the snapshot hold just what the design uses: entries already there stay as they are, new ones come from
    /// the pantry, unused ones go.
    pub fn refresh_snapshot(&mut self, pantry: &Pantry) {
        let old = std::mem::take(&mut self.snapshot);
        let mut new = Pantry::default();
        for line in &self.bases {
            let base =
                pantry::find(&old.bases, &line.entry).or_else(|| pantry::find(&pantry.bases, &line.entry));
            pantry::keep(&mut new.bases, base);
            if let Some(base) = base {
                let shape = pantry::find(&old.buffer_shapes, &base.buffer_shape)
                    .or_else(|| pantry::find(&pantry.buffer_shapes, &base.buffer_shape));
                pantry::keep(&mut new.buffer_shapes, shape);
            }
        }
        for key in self.sugar_keys() {
            pantry::keep(
                &mut new.sugars,
                pantry::find(&old.sugars, key).or_else(|| pantry::find(&pantry.sugars, key)),
            );
        }
        for line in &self.thickeners {
            let entry = pantry::find(&old.thickeners, &line.entry)
                .or_else(|| pantry::find(&pantry.thickeners, &line.entry));
            pantry::keep(&mut new.thickeners, entry);
        }
        let own_starch: Vec<String> = new.bases.iter().filter_map(|b| b.own_starch.clone()).collect();
        for key in &own_starch {
            let entry = pantry::find(&old.thickeners, key).or_else(|| pantry::find(&pantry.thickeners, key));
            pantry::keep(&mut new.thickeners, entry);
        }
        let held: Vec<String> = new.bases.iter().flat_map(|b| &b.holds).map(|h| h.additive.clone()).collect();
        for key in self.additives.iter().map(|line| &line.entry).chain(&held) {
            let entry = pantry::find(&old.additives, key).or_else(|| pantry::find(&pantry.additives, key));
            pantry::keep(&mut new.additives, entry);
        }
        for key in self.culture_keys() {
            let culture = pantry::find(&old.cultures, key).or_else(|| pantry::find(&pantry.cultures, key));
            pantry::keep(&mut new.cultures, culture);
            for dose in culture.into_iter().flat_map(|c| &c.doses) {
                let organism = pantry::find(&old.organisms, &dose.organism)
                    .or_else(|| pantry::find(&pantry.organisms, &dose.organism));
                pantry::keep(&mut new.organisms, organism);
            }
        }
        let vessel = pantry::find(&old.vessels, &self.pots.vessel)
            .or_else(|| pantry::find(&pantry.vessels, &self.pots.vessel));
        pantry::keep(&mut new.vessels, vessel);
        if let Some(hold) = self.hold() {
            let warmer = pantry::find(&old.warmers, &hold.warmer)
                .or_else(|| pantry::find(&pantry.warmers, &hold.warmer));
            pantry::keep(&mut new.warmers, warmer);
        }
        self.snapshot = new;
    }

    fn sugar_keys(&self) -> impl Iterator<Item = &str> {
        let late =
            self.hold().into_iter().flat_map(|hold| &hold.events).filter_map(|event| match &event.what {
                Happening::LateSugar { entry, .. } => Some(entry.as_str()),
                _ => None,
            });
        self.sugars.iter().map(|line| line.entry.as_str()).chain(late)
    }

    fn culture_keys(&self) -> impl Iterator<Item = &str> {
        let late =
            self.hold().into_iter().flat_map(|hold| &hold.events).filter_map(|event| match &event.what {
                Happening::LateCulture { entry, .. } => Some(entry.as_str()),
                _ => None,
            });
        self.cultures.iter().map(|line| line.entry.as_str()).chain(late)
    }
}
