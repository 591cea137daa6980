//! The lines of a design: what goes in, how much, when, and the measure that its amount is said in.

use serde::{Deserialize, Serialize};

use super::readings::{BaseMeasured, CultureMeasured};
use potset_base::choices;
use potset_base::measures::Measure;

/// What the label says, per 100 g; what is empty comes from the pantry entry.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LabelFigures {
    pub fat: Option<f64>,
    pub protein: Option<f64>,
    pub sugars: Option<f64>,
    /// Declared extract, %.
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

/// What a base is sold in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pack {
    /// Tin, carton, jar or glass.
    pub of: Measure,
    pub ml: f64,
}

/// What a label says besides its figures.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Packed {
    /// The name on the packet; empty where it has none.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Keys of the allergens in it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub contains: Vec<String>,
    /// Allergens that it may contain, as the label says them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub may_contain: Vec<String>,
    /// Names of what its maker put in: thickeners, salts, vitamins. Their amounts are not told.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub additives: Vec<String>,
}

/// A packet of culture, as it says of itself.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Packet {
    pub grams: f64,
    /// The litres that all of it is meant for.
    pub litres: f64,
}

/// A base and how much of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BaseLine {
    pub entry: String,
    pub litres: f64,
    #[serde(default)]
    pub label: LabelFigures,
    /// What was measured of it.
    #[serde(default, skip_serializing_if = "BaseMeasured::is_empty")]
    pub measured: BaseMeasured,
    /// Its share stays while the share of another base is moved.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub locked: bool,
    /// The measure that its amount is said in.
    #[serde(default = "Measure::litre", skip_serializing_if = "Measure::is_litre")]
    pub by: Measure,
    /// What it comes in; nothing: as its entry says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack: Option<Pack>,
    /// What its label says besides figures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub packed: Option<Packed>,
}

impl BaseLine {
    /// A base as the pantry has it.
    pub fn new(entry: String, litres: f64) -> Self {
        Self {
            entry,
            litres,
            label: LabelFigures::default(),
            measured: BaseMeasured::default(),
            locked: false,
            by: Measure::Litre,
            pack: None,
            packed: None,
        }
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

choices! {
    /// When an additive goes in.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum AddedWhen: words {
        /// With the base, before any heating.
        #[default]
        WithTheBase => "with the base",
        WithTheCulture => "with the culture",
        AfterTheHold => "after the hold",
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
    pub const fn new(entry: String, g_per_l: f64, mixed_first: bool) -> Self {
        Self { entry, g_per_l, mixed_first, goes_in: GoesIn::WithTheBase, by: Measure::Gram }
    }
}

choices! {
    /// How the culture powder is weighed.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Powder: words {
        #[default]
        Straight => "as it is",
        /// One part of culture in ten parts of a dry mix.
        OneToTen => "as a tenfold mix",
        /// One part of that in ten parts once more.
        OneToHundred => "as a hundredfold mix",
    }
}

impl Powder {
    /// How many times as much is weighed as there is of the culture.
    pub const fn times(self) -> f64 {
        match self {
            Self::Straight => 1.0,
            Self::OneToTen => 10.0,
            Self::OneToHundred => 100.0,
        }
    }
}

/// A culture and its rate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CultureLine {
    pub entry: String,
    /// × the packet's rate.
    pub rate: f64,
    /// What was measured of it.
    #[serde(default, skip_serializing_if = "CultureMeasured::is_empty")]
    pub measured: CultureMeasured,
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
    /// What its packet says; nothing: as its entry says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub packet: Option<Packet>,
}

impl CultureLine {
    /// A fresh culture, weighed straight.
    pub const fn new(entry: String, rate: f64) -> Self {
        Self {
            entry,
            rate,
            measured: CultureMeasured { count: None, pace: None, lag: None },
            powder: Powder::Straight,
            age_days: 0.0,
            kept_c: None,
            opened: false,
            by: Measure::Gram,
            packet: None,
        }
    }
}

fn is_zero(v: &f64) -> bool {
    *v == 0.0
}
