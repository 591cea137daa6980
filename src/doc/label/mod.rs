//! What a food label says: its figures, its ingredients and the lines that were not understood, out of plain text.

pub mod additives;
mod amounts;
mod check;
mod claims;
mod figures;
mod heading;
mod ingredients;
pub mod meaning;
mod pieces;
mod read;
mod roles;
mod run_on;
mod tokens;
mod vocabulary;
mod write;

use serde::Deserialize;

use potset_base::measures::{Measure, Size, SpoonSet};
use potset_base::{choices, number};

pub use check::{doubts, impossible};
pub use read::read;
pub use write::{ingredient as ingredient_words, write};

/// Most that a label may hold, bytes; more is no label.
pub const MOST_BYTES: usize = 64 << 10;

/// A weight or a volume, for a serving.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Portion {
    Grams(f64),
    Millilitres(f64),
    /// So many cups or spoons; which country's is not told.
    Household(f64, Measure),
}

impl Portion {
    /// g or mL; cups and spoons as the metric ones.
    pub fn size(self) -> f64 {
        match self {
            Self::Grams(v) | Self::Millilitres(v) => v,
            Self::Household(count, measure) => count * household_ml(measure, SpoonSet::Metric),
        }
    }

    /// The smallest and the largest that it can mean: customs of spoons and cups differ.
    pub fn bounds(self) -> (f64, f64) {
        let Self::Household(count, measure) = self else { return (self.size(), self.size()) };
        SpoonSet::ALL
            .into_iter()
            .map(|set| count * household_ml(measure, set))
            .fold((f64::INFINITY, 0.0), |(low, high), v| (low.min(v), v.max(high)))
    }

    /// "80 mL", "1 cup".
    pub fn words(self) -> String {
        match self {
            Self::Grams(v) => format!("{v} g"),
            Self::Millilitres(v) => format!("{v} mL"),
            Self::Household(v, measure) => format!("{v} {}", measure.word(v > 1.0)),
        }
    }
}

/// mL of a cup or spoon; nothing for what is none.
fn household_ml(measure: Measure, set: SpoonSet) -> f64 {
    match measure.size(set) {
        Some(Size::Ml(ml)) => ml,
        _ => 0.0,
    }
}

/// What the figures are for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Basis {
    Per100G,
    Per100Ml,
    /// A serving; empty: its size is not told, so nothing can be worked out from it.
    Serving(Option<Portion>),
    /// Not told: read as per 100 g, with a doubt.
    #[default]
    NotSaid,
}

impl Basis {
    /// In words, as a heading of a label.
    pub fn words(self) -> String {
        match self {
            Self::Per100G => "per 100 g".to_owned(),
            Self::Per100Ml => "per 100 mL".to_owned(),
            Self::Serving(None) => "per serving".to_owned(),
            Self::Serving(Some(size)) => format!("per serving ({})", size.words()),
            Self::NotSaid => "not told".to_owned(),
        }
    }
}

choices! {
    /// A figure of a label. The order is the order of writing.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
    pub enum Nutrient: words {
        /// kJ.
        EnergyKj => "energy",
        /// kcal.
        EnergyKcal => "energy",
        /// g, as all that follow but sodium and calcium.
        Fat => "fat",
        Saturates => "saturates",
        Carbohydrate => "carbohydrate",
        Sugars => "sugars",
        AddedSugars => "added sugars",
        Fibre => "fibre",
        Protein => "protein",
        Salt => "salt",
        /// mg.
        Sodium => "sodium",
        /// mg.
        Calcium => "calcium",
    }
}

impl Nutrient {
    /// Place in [`Nutrient::ALL`].
    pub const fn index(self) -> usize {
        self as usize
    }

    pub const fn unit(self) -> &'static str {
        match self {
            Self::EnergyKj => "kJ",
            Self::EnergyKcal => "kcal",
            Self::Sodium | Self::Calcium => "mg",
            _ => "g",
        }
    }
}

/// An amount as a label gives it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    Exactly(f64),
    /// "< 0.5 g".
    LessThan(f64),
    Trace,
}

impl Amount {
    /// In words: "less than 0.5 g".
    pub fn words(self, unit: &str) -> String {
        match self {
            Self::Exactly(v) => format!("{} {unit}", number::plain(v)),
            Self::LessThan(v) => format!("less than {} {unit}", number::plain(v)),
            Self::Trace => "a trace".to_owned(),
        }
    }

    /// The likely amount: half of an upper bound (assumed), nothing for a trace.
    pub const fn likely(self) -> f64 {
        match self {
            Self::Exactly(v) => v,
            Self::LessThan(v) => 0.5 * v,
            Self::Trace => 0.0,
        }
    }
}

/// A figure, as stated in the label's basis, with the line that it came from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    pub amount: Amount,
    /// Whether the label gives a unit; grams are taken where it does not.
    pub unit_said: bool,
    /// One of the last digit that is printed, in the nutrient's unit; 0 where it is said in words.
    pub step: f64,
    pub line: usize,
}

choices! {
    /// What an additive is there for, in the label's words.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
    pub enum Role: words {
        Stabiliser => "stabiliser",
        Thickener => "thickener",
        GellingAgent => "gelling agent",
        Emulsifier => "emulsifier",
        Preservative => "preservative",
        AcidityRegulator => "acidity regulator",
        Antioxidant => "antioxidant",
        Sweetener => "sweetener",
        Colour => "colour",
        Flavouring => "flavouring",
        FirmingAgent => "firming agent",
        BulkingAgent => "bulking agent",
        Mineral => "mineral",
        Vitamin => "vitamin",
        Enzyme => "enzyme",
    }
}

/// An ingredient with what it is made of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ingredient {
    /// In lower case; the usual name where the label gives only a number.
    pub name: String,
    pub percent: Option<f64>,
    pub role: Option<Role>,
    /// Its number in the international numbering system (E number), by number or by name.
    pub number: Option<u16>,
    pub parts: Vec<Self>,
    pub line: usize,
}

/// A line with its number (from 1).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    pub number: usize,
    pub text: String,
}

/// A label as read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LabelReading {
    /// What the product calls itself.
    pub name: Option<String>,
    pub basis: Basis,
    /// Size of a serving, if told.
    pub serving: Option<Portion>,
    /// In the order of [`Nutrient::ALL`].
    pub figures: [Option<Figure>; 12],
    /// Carbohydrate is the total with fibre, as in the United States ("total carbohydrate").
    pub carbohydrate_holds_fibre: bool,
    pub ingredients: Vec<Ingredient>,
    pub contains: Vec<String>,
    pub may_contain: Vec<String>,
    /// Numbers of the lines that were understood, at least in part.
    pub understood: Vec<usize>,
    /// Lines that were not understood, or not wholly.
    pub unread: Vec<Line>,
}

impl LabelReading {
    /// The figure as stated.
    pub const fn figure(&self, nutrient: Nutrient) -> Option<Figure> {
        self.figures[nutrient.index()]
    }

    /// What a stated figure is multiplied by for 100 g or 100 mL; `None` for a serving of unknown size.
    pub fn to_100(&self) -> Option<f64> {
        match self.basis {
            Basis::Per100G | Basis::Per100Ml | Basis::NotSaid => Some(1.0),
            Basis::Serving(Some(size)) if size.size() > 0.0 => Some(100.0 / size.size()),
            Basis::Serving(_) => None,
        }
    }

    /// Whether the figures are for a volume.
    pub const fn by_volume(&self) -> bool {
        matches!(
            self.basis,
            Basis::Per100Ml | Basis::Serving(Some(Portion::Millilitres(_) | Portion::Household(..)))
        )
    }

    /// The likely amount per 100 g or 100 mL.
    pub fn per_100(&self, nutrient: Nutrient) -> Option<f64> {
        Some(self.figure(nutrient)?.amount.likely() * self.to_100()?)
    }

    /// Least and most per 100 g or 100 mL. A figure that is printed for 100 is taken as it stands; one that is worked out from a
    /// serving is off by half of its last digit, and by what a cup or spoon may hold. "Less than" reaches from nothing to all.
    pub fn bounds_per_100(&self, nutrient: Nutrient) -> Option<(f64, f64)> {
        let figure = self.figure(nutrient)?;
        let likely = self.per_100(nutrient)?;
        let Basis::Serving(Some(size)) = self.basis else {
            return Some(match figure.amount {
                Amount::LessThan(_) => (0.0, 2.0 * likely),
                _ => (likely, likely),
            });
        };
        let (least, most) = size.bounds();
        let (low, high) = match figure.amount {
            Amount::Exactly(v) => (v - 0.5 * figure.step, v + 0.5 * figure.step),
            Amount::LessThan(v) => (0.0, v),
            Amount::Trace => (0.0, 0.0),
        };
        Some(((low * 100.0 / most).max(0.0), high * 100.0 / least))
    }

    /// Whether nothing at all was understood.
    pub fn is_empty(&self) -> bool {
        self.ingredients.is_empty() && self.figures.iter().all(Option::is_none) && self.name.is_none()
    }

    /// Every ingredient at every depth, in the label's order.
    pub fn all_ingredients(&self) -> Vec<&Ingredient> {
        fn below<'a>(list: &'a [Ingredient], all: &mut Vec<&'a Ingredient>) {
            for one in list {
                all.push(one);
                below(&one.parts, all);
            }
        }
        let mut all = Vec::new();
        below(&self.ingredients, &mut all);
        all
    }
}
