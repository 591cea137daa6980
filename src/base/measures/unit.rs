//! The measures themselves: how much each holds, how far it is off in a maker's hand, what to say about it.

use serde::{Deserialize, Serialize};

use super::{Amount, SpoonSet};
use crate::{Cited, SourceKind, Spread, number};

/// What an amount is weighed, poured or spooned in. A spoon is a level one where nothing else is said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    #[default]
    Gram,
    Kilogram,
    Ounce,
    Pound,
    Millilitre,
    Litre,
    Teaspoon,
    HeapedTeaspoon,
    Dessertspoon,
    HeapedDessertspoon,
    Tablespoon,
    HeapedTablespoon,
    Cup,
    FluidOunce,
    Pint,
    Quart,
    Dash,
    Pinch,
    KnifeTip,
    /// What it is sold or eaten from: each has the size that its line says.
    Tin,
    Carton,
    Jar,
    Glass,
    Packet,
}

/// What one of a measure holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    Grams(f64),
    Ml(f64),
}

/// Level spoons in a heaped one (common practice: a German reference page counts a heaped teaspoon as two level ones).
const HEAPED: f64 = 2.0;

impl Measure {
    pub const ALL: [Self; 24] = [
        Self::Gram,
        Self::Kilogram,
        Self::Ounce,
        Self::Pound,
        Self::Millilitre,
        Self::Litre,
        Self::Teaspoon,
        Self::HeapedTeaspoon,
        Self::Dessertspoon,
        Self::HeapedDessertspoon,
        Self::Tablespoon,
        Self::HeapedTablespoon,
        Self::Cup,
        Self::FluidOunce,
        Self::Pint,
        Self::Quart,
        Self::Dash,
        Self::Pinch,
        Self::KnifeTip,
        Self::Tin,
        Self::Carton,
        Self::Jar,
        Self::Glass,
        Self::Packet,
    ];

    /// What holds a base, in the order in which they are offered.
    pub const PACKS: [Self; 4] = [Self::Tin, Self::Carton, Self::Jar, Self::Glass];

    /// Whether its size is that of a line, and no custom's.
    pub const fn is_pack(self) -> bool {
        matches!(self, Self::Tin | Self::Carton | Self::Jar | Self::Glass | Self::Packet)
    }

    /// Whether an amount can be said in it where spoons are of a set.
    pub fn in_set(self, set: SpoonSet) -> bool {
        self.is_pack() || self.size(set).is_some()
    }

    /// What one of it holds; nothing where the set does not have it.
    ///
    /// Sources: ounce and pound published (NIST Handbook 44 appendix C); dessertspoon 10 mL from memory; pint and quart
    /// 16 and 32 US fluid ounces, 20 and 40 imperial ones (as the fluid ounce); dash and pinch 1/8 and 1/16 teaspoon,
    /// knife tip 0.25 g, common practice.
    pub fn size(self, set: SpoonSet) -> Option<Size> {
        let tsp = set.teaspoon_ml();
        let ounces = |us: f64, imperial: f64| {
            let count = if set == SpoonSet::UnitedStates { us } else { imperial };
            set.fluid_ounce_ml().map(|ml| Size::Ml(ml * count))
        };
        let dessert = (set != SpoonSet::UnitedStates).then_some(10.0);
        match self {
            Self::Gram => Some(Size::Grams(1.0)),
            Self::Kilogram => Some(Size::Grams(1000.0)),
            Self::Ounce => Some(Size::Grams(28.349_523_125)),
            Self::Pound => Some(Size::Grams(453.592_37)),
            Self::KnifeTip => Some(Size::Grams(0.25)),
            Self::Millilitre => Some(Size::Ml(1.0)),
            Self::Litre => Some(Size::Ml(1000.0)),
            Self::Teaspoon => Some(Size::Ml(tsp)),
            Self::HeapedTeaspoon => Some(Size::Ml(HEAPED * tsp)),
            Self::Dessertspoon => dessert.map(Size::Ml),
            Self::HeapedDessertspoon => dessert.map(|ml| Size::Ml(HEAPED * ml)),
            Self::Tablespoon => Some(Size::Ml(set.tablespoon_ml())),
            Self::HeapedTablespoon => Some(Size::Ml(HEAPED * set.tablespoon_ml())),
            Self::Cup => Some(Size::Ml(set.cup_ml())),
            Self::FluidOunce => ounces(1.0, 1.0),
            Self::Pint => ounces(16.0, 20.0),
            Self::Quart => ounces(32.0, 40.0),
            Self::Dash => Some(Size::Ml(tsp / 8.0)),
            Self::Pinch => Some(Size::Ml(tsp / 16.0)),
            Self::Tin | Self::Carton | Self::Jar | Self::Glass | Self::Packet => None,
        }
    }

    /// Grams in one of it, for what weighs `g_per_ml` as it lies in the spoon or jug. A volume needs that density.
    pub fn grams(self, set: SpoonSet, g_per_ml: Option<f64>) -> Option<f64> {
        match self.size(set)? {
            Size::Grams(grams) => Some(grams),
            Size::Ml(ml) => g_per_ml.filter(|d| *d > 0.0).map(|d| d * ml),
        }
    }

    /// How much one of it really holds, as a share of what is meant: bounds of the middle 90 %, with their source.
    pub fn real_share(self) -> Cited {
        let (low, high, kind, text) = match self {
            Self::Gram | Self::Kilogram | Self::Ounce | Self::Pound => {
                (1.0, 1.0, SourceKind::Assumed, "weighing: the scale's own error is counted elsewhere")
            }
            Self::Millilitre | Self::Litre | Self::FluidOunce | Self::Pint | Self::Quart => {
                (0.95, 1.05, SourceKind::Assumed, "a kitchen jug, read at its line")
            }
            Self::Teaspoon | Self::Dessertspoon | Self::Tablespoon | Self::Cup => {
                (0.85, 1.15, SourceKind::Assumed, "a level spoon or cup of powder is within 15 %")
            }
            Self::HeapedTeaspoon | Self::HeapedDessertspoon | Self::HeapedTablespoon => (
                0.75,
                1.25,
                SourceKind::Assumed,
                "a heaped spoon is one and a half to two and a half level ones",
            ),
            Self::Tin | Self::Carton => (0.98, 1.02, SourceKind::Assumed, "a pack is filled to within 2 %"),
            Self::Jar | Self::Glass => (0.9, 1.1, SourceKind::Assumed, "a jar or glass is filled by eye"),
            Self::Packet => {
                (0.7, 1.4, SourceKind::Assumed, "a part of a packet taken by eye; a whole one is within less")
            }
            Self::Dash | Self::Pinch => {
                (0.5, 2.0, SourceKind::Assumed, "a pinch or a dash is half or double from hand to hand")
            }
            Self::KnifeTip => {
                (0.4, 2.0, SourceKind::CommonPractice, "German reference pages: 0.1 to 0.5 g of powder")
            }
        };
        let spread = if low < high { Spread::LogNormal(low, high) } else { Spread::Exact };
        Cited { spread, ..Cited::new(1.0, "", kind, text) }
    }

    /// Whether a person would say an amount in it: neither a hundredth of one nor thousands.
    ///
    /// Source: assumed.
    pub fn sensible(self, amount: Amount) -> bool {
        let Amount::Total(count, _) = amount else { return true };
        let least = match self {
            Self::Gram => 0.0,
            Self::Millilitre | Self::Packet => 0.02,
            _ => 0.1,
        };
        count == 0.0 || (least..5000.0).contains(&count)
    }

    /// What a maker should know before measuring so; nothing for scales, jugs and level spoons.
    pub const fn advice(self) -> Option<&'static str> {
        match self {
            Self::KnifeTip => {
                Some("A knife tip is 0.1 to 0.5 g. Weigh it, or mix 1 g with 9 g of sugar and weigh that")
            }
            Self::Pinch => Some(
                "A pinch is half or double from hand to hand. Weigh it, or mix 1 g with 9 g of sugar and weigh that",
            ),
            Self::Dash => Some(
                "A dash is half or double from hand to hand. Weigh it, or mix 1 g with 9 g of sugar and weigh that",
            ),
            Self::HeapedTeaspoon | Self::HeapedDessertspoon | Self::HeapedTablespoon => {
                Some("A heaped spoon holds 1½ to 2½ level ones: level it, or weigh it")
            }
            _ => None,
        }
    }

    /// The short word, for one or for several.
    pub const fn word(self, several: bool) -> &'static str {
        match (self, several) {
            (Self::Gram, _) => "g",
            (Self::Kilogram, _) => "kg",
            (Self::Ounce, _) => "oz",
            (Self::Pound, _) => "lb",
            (Self::Millilitre, _) => "mL",
            (Self::Litre, _) => "L",
            (Self::Teaspoon, _) => "tsp",
            (Self::HeapedTeaspoon, _) => "heaped tsp",
            (Self::Dessertspoon, _) => "dsp",
            (Self::HeapedDessertspoon, _) => "heaped dsp",
            (Self::Tablespoon, _) => "tbsp",
            (Self::HeapedTablespoon, _) => "heaped tbsp",
            (Self::Cup, false) => "cup",
            (Self::Cup, true) => "cups",
            (Self::FluidOunce, _) => "fl oz",
            (Self::Pint, false) => "pint",
            (Self::Pint, true) => "pints",
            (Self::Quart, false) => "quart",
            (Self::Quart, true) => "quarts",
            (Self::Dash, false) => "dash",
            (Self::Dash, true) => "dashes",
            (Self::Pinch, false) => "pinch",
            (Self::Pinch, true) => "pinches",
            (Self::Tin, false) => "tin",
            (Self::Tin, true) => "tins",
            (Self::Carton, false) => "carton",
            (Self::Carton, true) => "cartons",
            (Self::Jar, false) => "jar",
            (Self::Jar, true) => "jars",
            (Self::Glass, false) => "glass",
            (Self::Glass, true) => "glasses",
            (Self::Packet, false) => "packet",
            (Self::Packet, true) => "packets",
            (Self::KnifeTip, false) => "knife tip",
            (Self::KnifeTip, true) => "knife tips",
        }
    }

    /// Counted in halves and quarters, and told apart by custom: spoons, cups and what is smaller.
    pub const fn household(self) -> bool {
        !matches!(
            self,
            Self::Gram | Self::Kilogram | Self::Ounce | Self::Pound | Self::Millilitre | Self::Litre
        )
    }

    /// What one household measure holds, "15 mL"; nothing for weights and litres. It stands wherever the word does: two
    /// customs, and two historic meanings of the imperial spoons, share one word.
    pub fn of(self, set: SpoonSet) -> Option<String> {
        Some(match self.size(set).filter(|_| self.household())? {
            Size::Ml(ml) => ml_words(ml),
            Size::Grams(_) => format!("0.1–0.5{}g", number::NBSP),
        })
    }

    /// For data files: what a base is said in where nothing is told.
    pub const fn litre() -> Self {
        Self::Litre
    }

    pub fn is_litre(&self) -> bool {
        *self == Self::Litre
    }
}

/// "15 mL", "14.8 mL", "237 mL".
pub(super) fn ml_words(ml: f64) -> String {
    let shown = if ml < 100.0 { (ml * 10.0).round() / 10.0 } else { ml.round() };
    format!("{}{}mL", number::plain(shown), number::NBSP)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_of_the_four_customs() {
        let ml = |m: Measure, set| match m.size(set) {
            Some(Size::Ml(ml)) => ml,
            other => panic!("{m:?}: {other:?}"),
        };
        // NIST Handbook 44 appendix C: a US pint is 473.176 mL, a quart 946.353 mL; UK 1985 act: 568.261 and 1136.523 mL.
        assert!((ml(Measure::Pint, SpoonSet::UnitedStates) - 473.176_473).abs() < 1e-6);
        assert!((ml(Measure::Quart, SpoonSet::UnitedStates) - 946.352_946).abs() < 1e-6);
        assert!((ml(Measure::Pint, SpoonSet::Imperial) - 568.261_25).abs() < 1e-9);
        assert!((ml(Measure::Quart, SpoonSet::Imperial) - 1_136.522_5).abs() < 1e-9);
        // Common practice: a US dash is 0.616 mL, a pinch 0.308 mL.
        assert!((ml(Measure::Dash, SpoonSet::UnitedStates) - 0.616).abs() < 5e-4);
        assert!((ml(Measure::Pinch, SpoonSet::UnitedStates) - 0.308).abs() < 5e-4);
        assert!((ml(Measure::HeapedTeaspoon, SpoonSet::Metric) - 10.0).abs() < 1e-12);
        for m in [Measure::FluidOunce, Measure::Pint, Measure::Quart] {
            assert_eq!(m.size(SpoonSet::Metric), None);
            assert_eq!(m.size(SpoonSet::Australian), None);
        }
        assert_eq!(Measure::Dessertspoon.size(SpoonSet::UnitedStates), None);
    }

    #[test]
    fn spreads_are_in_order_and_name_their_source() {
        for m in Measure::ALL {
            assert_eq!(m.real_share().fault(), None, "{m:?}");
        }
        // The published bounds of a knife tip: 0.1 and 0.5 g.
        let (low, high) = Measure::KnifeTip.real_share().spread.bounds().unwrap();
        let grams = Measure::KnifeTip.grams(SpoonSet::Metric, None).unwrap();
        assert!((grams * low - 0.1).abs() < 1e-12 && (grams * high - 0.5).abs() < 1e-12);
    }

    #[test]
    fn a_spoon_says_what_it_holds() {
        assert_eq!(Measure::Tablespoon.of(SpoonSet::Imperial).unwrap(), "15\u{a0}mL");
        assert_eq!(Measure::Teaspoon.of(SpoonSet::UnitedStates).unwrap(), "4.9\u{a0}mL");
        assert_eq!(Measure::Gram.of(SpoonSet::Metric), None);
        assert!(Measure::KnifeTip.advice().unwrap().contains("9 g of sugar"));
    }
}
