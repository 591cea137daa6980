//! The lines of a design: what goes in, how much, when, and the measure that its amount is said in.

use serde::{Deserialize, Serialize};

use super::parts::parts;
use super::readings::{BaseMeasured, CultureMeasured};
use potset_base::choices;
use potset_base::measures::Measure;

parts! {
    /// What the label says, per 100 g; what is empty comes from the pantry entry.
    #[derive(Default)]
    pub struct LabelFigures {
        pub fat: Option<f64>,
        pub protein: Option<f64>,
        pub sugars: Option<f64>,
        /// Declared extract, %.
        pub extract: Option<f64>,
        /// Without fibre.
        pub carbohydrate: Option<f64> = default,
        pub fibre: Option<f64> = default,
        pub saturates: Option<f64> = default,
        /// mg.
        pub sodium: Option<f64> = default,
        /// mg.
        pub calcium: Option<f64> = default,
    }

    /// What a base is sold in.
    #[derive(Copy)]
    pub struct Pack {
        /// Tin, carton, jar or glass.
        pub of: Measure,
        pub ml: f64,
    }

    /// What a label says besides its figures.
    #[derive(Default, Eq)]
    pub struct Packed {
        /// The name on the packet; empty where it has none.
        pub name: String = default,
        /// Keys of the allergens in it.
        pub contains: Vec<String> = default,
        /// Allergens that it may contain, as the label says them.
        pub may_contain: Vec<String> = default,
        /// Names of what its maker put in: thickeners, salts, vitamins. Their amounts are not told.
        pub additives: Vec<String> = default,
    }

    /// A packet of culture, as it says of itself.
    #[derive(Copy)]
    pub struct Packet {
        pub grams: f64,
        /// The litres that all of it is meant for.
        pub litres: f64,
    }

    /// A base and how much of it.
    pub struct BaseLine {
        pub entry: String,
        pub litres: f64,
        #[serde(default)]
        pub label: LabelFigures,
        /// What was measured of it.
        pub measured: BaseMeasured = default,
        /// Its share stays while the share of another base is moved.
        pub locked: bool = default,
        /// The measure that its amount is said in.
        #[serde(default = "Measure::litre", skip_serializing_if = "Measure::is_litre")]
        #[serde(rename = "by")]
        pub measure: Measure,
        /// What it comes in; nothing: as its entry says.
        pub pack: Option<Pack> = default,
        /// What its label says besides figures.
        pub packed: Option<Packed> = default,
    }
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
            measure: Measure::Litre,
            pack: None,
            packed: None,
        }
    }
}

parts! {
    /// A sugar and its dose.
    pub struct SugarLine {
        pub entry: String,
        pub g_per_l: f64,
        /// For the culture to eat, or for the tongue.
        pub when: SweetWhen = default,
        /// The measure that its amount is said in; grams: as a dose.
        #[serde(rename = "by")]
        pub measure: Measure = default,
    }
}

impl SugarLine {
    /// A sugar for the culture.
    pub const fn new(entry: String, g_per_l: f64) -> Self {
        Self { entry, g_per_l, when: SweetWhen::BeforeTheCulture, measure: Measure::Gram }
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

parts! {
    /// An additive and its dose.
    pub struct AdditiveLine {
        pub entry: String,
        pub g_per_l: f64,
        #[serde(default)]
        pub when: AddedWhen,
        /// The measure that its amount is said in; grams: as a dose.
        #[serde(rename = "by")]
        pub measure: Measure = default,
    }
}

impl AdditiveLine {
    /// An additive, said as a dose.
    pub const fn new(entry: String, g_per_l: f64, when: AddedWhen) -> Self {
        Self { entry, g_per_l, when, measure: Measure::Gram }
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

parts! {
    /// A thickener, its dose and how it goes in.
    pub struct ThickenerLine {
        pub entry: String,
        pub g_per_l: f64,
        /// Rubbed into the sugar, slurried or blended first, so that it does not clump.
        #[serde(default)]
        pub mixed_first: bool,
        #[serde(default)]
        pub goes_in: GoesIn,
        /// The measure that its amount is said in; grams: as a dose.
        #[serde(rename = "by")]
        pub measure: Measure = default,
    }
}

impl ThickenerLine {
    /// A thickener that goes in with the base, said as a dose.
    pub const fn new(entry: String, g_per_l: f64, mixed_first: bool) -> Self {
        Self { entry, g_per_l, mixed_first, goes_in: GoesIn::WithTheBase, measure: Measure::Gram }
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

parts! {
    /// A culture and its rate.
    pub struct CultureLine {
        pub entry: String,
        /// × the packet's rate.
        pub rate: f64,
        /// What was measured of it.
        pub measured: CultureMeasured = default,
        #[serde(default)]
        pub powder: Powder,
        /// Age since it was made or opened, days.
        pub age_days: f64 = default,
        /// Where it was kept, °C; empty: in the freezer if dry, in the fridge if not.
        pub kept_c: Option<f64> = default,
        /// The packet was open meanwhile, or kept damp.
        pub opened: bool = default,
        /// The measure that its amount is said in; grams: as a share of the packet's rate.
        #[serde(rename = "by")]
        pub measure: Measure = default,
        /// What its packet says; nothing: as its entry says.
        pub packet: Option<Packet> = default,
    }
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
            measure: Measure::Gram,
            packet: None,
        }
    }
}
