//! The parameters of the model that belong to no pantry entry, each cited; and their plain values for the laws.

#[macro_use]
mod laws;
mod droplets;
mod groups;
mod hygiene;

use serde::Deserialize;

pub use droplets::*;
pub use groups::*;
pub use hygiene::*;

use potset_base::constants::{GAS_CONSTANT, ZERO_CELSIUS_K};
use potset_base::{Cited, Source};

/// A measured curve given by points.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Curve {
    /// (temperature °C, value), rising.
    pub points: Vec<(f64, f64)>,
    pub unit: String,
    /// 5-95 % half-width of every value.
    pub half_width: f64,
    pub from: Source,
}

/// Share of the fat that is solid, 0 to 1, against temperature.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SolidFat {
    pub coconut: Curve,
    pub milk: Curve,
}

/// One row of the cautions on souring: when to look and when to throw away.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CautionRow {
    pub key: String,
    /// Who it is for, in words.
    pub about: String,
    pub watch_ph: f64,
    pub watch_h: f64,
    pub discard_ph: f64,
    pub discard_h: f64,
    pub from: Source,
}

/// Declares [`Params`] and [`Laws`]: each group once, with its cited and its plain type.
macro_rules! groups {
    ($($group:ident: $cited:ident => $plain:ident,)+) => {
        /// All parameters.
        #[derive(Clone, Debug, PartialEq, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct Params {
            $(pub $group: $cited,)+
            pub solid_fat: SolidFat,
            /// Decades of dry culture lost a month, against temperature.
            pub dry_loss: Curve,
            pub cautions: Vec<CautionRow>,
        }

        /// All plain values, ready for the laws.
        #[derive(Clone, Debug, PartialEq)]
        pub struct Laws {
            $(pub $group: $plain,)+
            pub coconut_solid: Vec<(f64, f64)>,
            pub milk_solid: Vec<(f64, f64)>,
            pub dry_loss: Vec<(f64, f64)>,
            pub cautions: Vec<CautionRow>,
        }

        impl Params {
            /// Every single-number parameter with its name, in the order of the file.
            pub fn list(&self) -> Vec<(String, &Cited)> {
                let mut out = Vec::new();
                $(self.$group.list(stringify!($group), &mut out);)+
                out
            }

            /// Shows every single-number parameter with its name, to change it.
            pub fn each(&mut self, see: &mut dyn FnMut(&str, &mut Cited)) {
                $(self.$group.each(stringify!($group), see);)+
            }

            /// The plain values.
            pub fn laws(&self) -> Laws {
                Laws {
                    $($group: self.$group.plain(),)+
                    coconut_solid: self.solid_fat.coconut.points.clone(),
                    milk_solid: self.solid_fat.milk.points.clone(),
                    dry_loss: self.dry_loss.points.clone(),
                    cautions: self.cautions.clone(),
                }
            }
        }

        impl Laws {
            /// Every single number, in the order of [`Params::list`], to change it.
            pub fn each(&mut self, see: &mut dyn FnMut(&mut f64)) {
                $(self.$group.each(see);)+
            }
        }
    };
}

groups! {
    acids: Acids => AcidLaw,
    growth: Growth => GrowthLaw,
    lactase: Lactase => LactaseLaw,
    ageing: Ageing => AgeingLaw,
    paces: Paces => PaceLaw,
    strain: Strain => StrainLaw,
    whey: Whey => WheyLaw,
    gel: Gel => GelLaw,
    starch: Starch => StarchLaw,
    fat: Fat => FatLaw,
    separation: Separation => SeparationLaw,
    flow: Flow => FlowLaw,
    wheying: Wheying => WheyingLaw,
    words: Words => WordLaw,
    ready: Ready => ReadyLaw,
    hygiene: Hygiene => HygieneLaw,
    ways: Ways => WayLaw,
    coconut: Coconut => CoconutLaw,
    mixing: Mixing => MixingLaw,
    maker: Maker => MakerLaw,
    learning: Learning => LearningLaw,
}

impl Laws {
    /// Moves what goes with a figure that was drawn or moved: a whey protein's rate turns about a temperature that was
    /// measured, so its frequency factor follows its energy.
    ///
    /// `ln k0' = ln k0 + (Ea' − Ea)/(R T)`, T in the middle of the lower line (80 °C) and at the start of the upper one
    /// (95 °C). Source: derived, so that the rate there stays; the temperatures are assumed.
    pub fn link(&mut self, likely: &Self) {
        let moved = |now: f64, was: f64, c: f64| (now - was) * 1e3 / (GAS_CONSTANT * (c + ZERO_CELSIUS_K));
        self.whey.low_ln_k0 =
            likely.whey.low_ln_k0 + moved(self.whey.low_energy, likely.whey.low_energy, 80.0);
        self.whey.high_ln_k0 =
            likely.whey.high_ln_k0 + moved(self.whey.high_energy, likely.whey.high_energy, 95.0);
    }
}
