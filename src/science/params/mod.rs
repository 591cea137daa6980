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

/// All parameters.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Params {
    pub acids: Acids,
    pub growth: Growth,
    pub lactase: Lactase,
    pub ageing: Ageing,
    pub paces: Paces,
    pub strain: Strain,
    pub whey: Whey,
    pub gel: Gel,
    pub starch: Starch,
    pub fat: Fat,
    pub separation: Separation,
    pub flow: Flow,
    pub wheying: Wheying,
    pub words: Words,
    pub ready: Ready,
    pub hygiene: Hygiene,
    pub ways: Ways,
    pub coconut: Coconut,
    pub mixing: Mixing,
    pub maker: Maker,
    pub solid_fat: SolidFat,
    /// Decades of dry culture lost a month, against temperature.
    pub dry_loss: Curve,
    pub cautions: Vec<CautionRow>,
}

impl Params {
    /// Every single-number parameter with its name, in the order of the file.
    pub fn list(&self) -> Vec<(String, &Cited)> {
        let mut out = Vec::new();
        self.acids.list("acids", &mut out);
        self.growth.list("growth", &mut out);
        self.lactase.list("lactase", &mut out);
        self.ageing.list("ageing", &mut out);
        self.paces.list("paces", &mut out);
        self.strain.list("strain", &mut out);
        self.whey.list("whey", &mut out);
        self.gel.list("gel", &mut out);
        self.starch.list("starch", &mut out);
        self.fat.list("fat", &mut out);
        self.separation.list("separation", &mut out);
        self.flow.list("flow", &mut out);
        self.wheying.list("wheying", &mut out);
        self.words.list("words", &mut out);
        self.ready.list("ready", &mut out);
        self.hygiene.list("hygiene", &mut out);
        self.ways.list("ways", &mut out);
        self.coconut.list("coconut", &mut out);
        self.mixing.list("mixing", &mut out);
        self.maker.list("maker", &mut out);
        out
    }

    /// Shows every single-number parameter with its name, to change it.
    pub fn each(&mut self, see: &mut dyn FnMut(&str, &mut Cited)) {
        self.acids.each("acids", see);
        self.growth.each("growth", see);
        self.lactase.each("lactase", see);
        self.ageing.each("ageing", see);
        self.paces.each("paces", see);
        self.strain.each("strain", see);
        self.whey.each("whey", see);
        self.gel.each("gel", see);
        self.starch.each("starch", see);
        self.fat.each("fat", see);
        self.separation.each("separation", see);
        self.flow.each("flow", see);
        self.wheying.each("wheying", see);
        self.words.each("words", see);
        self.ready.each("ready", see);
        self.hygiene.each("hygiene", see);
        self.ways.each("ways", see);
        self.coconut.each("coconut", see);
        self.mixing.each("mixing", see);
        self.maker.each("maker", see);
    }

    /// The plain values.
    pub fn laws(&self) -> Laws {
        Laws {
            acids: self.acids.plain(),
            growth: self.growth.plain(),
            lactase: self.lactase.plain(),
            ageing: self.ageing.plain(),
            paces: self.paces.plain(),
            strain: self.strain.plain(),
            whey: self.whey.plain(),
            gel: self.gel.plain(),
            starch: self.starch.plain(),
            fat: self.fat.plain(),
            separation: self.separation.plain(),
            flow: self.flow.plain(),
            wheying: self.wheying.plain(),
            words: self.words.plain(),
            ready: self.ready.plain(),
            hygiene: self.hygiene.plain(),
            ways: self.ways.plain(),
            coconut: self.coconut.plain(),
            mixing: self.mixing.plain(),
            maker: self.maker.plain(),
            coconut_solid: self.solid_fat.coconut.points.clone(),
            milk_solid: self.solid_fat.milk.points.clone(),
            dry_loss: self.dry_loss.points.clone(),
            cautions: self.cautions.clone(),
        }
    }
}

/// All plain values, ready for the laws.
#[derive(Clone, Debug, PartialEq)]
pub struct Laws {
    pub acids: AcidLaw,
    pub growth: GrowthLaw,
    pub lactase: LactaseLaw,
    pub ageing: AgeingLaw,
    pub paces: PaceLaw,
    pub strain: StrainLaw,
    pub whey: WheyLaw,
    pub gel: GelLaw,
    pub starch: StarchLaw,
    pub fat: FatLaw,
    pub separation: SeparationLaw,
    pub flow: FlowLaw,
    pub wheying: WheyingLaw,
    pub words: WordLaw,
    pub ready: ReadyLaw,
    pub hygiene: HygieneLaw,
    pub ways: WayLaw,
    pub coconut: CoconutLaw,
    pub mixing: MixingLaw,
    pub maker: MakerLaw,
    pub coconut_solid: Vec<(f64, f64)>,
    pub milk_solid: Vec<(f64, f64)>,
    pub dry_loss: Vec<(f64, f64)>,
    pub cautions: Vec<CautionRow>,
}

impl Laws {
    /// Every single number, in the order of [`Params::list`], to change it.
    pub fn each(&mut self, see: &mut dyn FnMut(&mut f64)) {
        self.acids.each(see);
        self.growth.each(see);
        self.lactase.each(see);
        self.ageing.each(see);
        self.paces.each(see);
        self.strain.each(see);
        self.whey.each(see);
        self.gel.each(see);
        self.starch.each(see);
        self.fat.each(see);
        self.separation.each(see);
        self.flow.each(see);
        self.wheying.each(see);
        self.words.each(see);
        self.ready.each(see);
        self.hygiene.each(see);
        self.ways.each(see);
        self.coconut.each(see);
        self.mixing.each(see);
        self.maker.each(see);
    }

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
