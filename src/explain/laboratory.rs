//! What a laboratory would report of a pot at one time, beside what the chart shows.

use potset_base::acidity::AcidityUnit::{Dornic, SoxhletHenkel, Thorner};
use potset_science::forecast::Forecast;
use potset_science::texture::Texture;
use potset_science::texture::laboratory::{PowerLaw, firmness_n, power_law};

/// How a pot flows and resists.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// Apparent viscosity at 10 1/s, Pa·s.
    pub viscosity10: f64,
    /// Power law through 10 and 50 1/s: K, Pa·s^n, and n.
    pub law: PowerLaw,
    /// Force on a flat cylinder of 25 mm, pressed 2 mm into the pot as it set, N; derived from the stiffness.
    pub firmness_n: f64,
}

impl Flow {
    /// The flow of a texture.
    pub fn of(texture: &Texture) -> Self {
        Self {
            viscosity10: texture.viscosity10,
            law: power_law(texture.viscosity10, texture.viscosity50),
            firmness_n: firmness_n(texture.stiffness_pa),
        }
    }
}

/// The report.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Report {
    /// In the pot, and chilled as it is eaten.
    pub warm: Flow,
    pub chilled: Flow,
    /// Whey that a centrifuge draws of the chilled pot, %.
    pub whey_centrifuged: f64,
    /// Titratable acidity in °D, °SH and °Th.
    pub degrees: [f64; 3],
}

/// A titratable acidity in % as lactic acid, in °D, °SH and °Th.
pub fn scales(percent: f64) -> [f64; 3] {
    [Dornic, SoxhletHenkel, Thorner].map(|unit| unit.of(percent))
}

/// The report at a time; nothing where there is no forecast.
pub fn report(f: &Forecast, t_h: f64) -> Option<Report> {
    let (warm, chilled) = f.textures(t_h)?;
    Some(Report {
        warm: Flow::of(&warm),
        chilled: Flow::of(&chilled),
        whey_centrifuged: chilled.whey.centrifuged,
        degrees: scales(f.value(&f.titratable, t_h)),
    })
}
