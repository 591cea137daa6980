//! The emulsion: fat droplets in serum, warm or cold, without any network; and how fast they rise.

use crate::base::constants::GRAVITY;
use crate::science::params::FatLaw;

/// Viscosity of the serum without fat or thickener, Pa·s.
#[must_use]
pub fn serum(dairy: f64, c: f64, law: &FatLaw) -> f64 {
    let at = |at_5: f64, fall: f64| at_5.ln() - fall * (c - 5.0);
    let dairy_ln = at(law.dairy_serum, law.dairy_serum_fall);
    let plant_ln = at(law.plant_serum, law.plant_serum_fall);
    (dairy * dairy_ln + (1.0 - dairy) * plant_ln).exp()
}

/// Thickening by fat droplets: `r_F = e^(0.055 F + 0.0005 F²)`, F in g/100 g.
///
/// Source: fitted to ten cream viscosities at 30-50 % fat, 5 and 20 °C, within 11 %.
#[must_use]
pub fn thickening(fat: f64, law: &FatLaw) -> f64 {
    (law.emulsion_a * fat + law.emulsion_b * fat * fat).exp()
}

/// Factor of fat on a power-law matrix: `r_F^((n+1)/2) (1 − φ)^((1−n)/2)`.
///
/// Source: from memory, homogenisation estimate for suspensions in power-law fluids.
#[must_use]
pub fn on_matrix(thickening: f64, phi: f64, index: f64) -> f64 {
    thickening.powf(0.5 * (index + 1.0)) * (1.0 - phi).max(0.0).powf(0.5 * (1.0 - index))
}

/// Flow index of the emulsion: 1 for thin dairy, falling with fat for coconut.
#[must_use]
pub fn index(fat: f64, plant_fat: f64, law: &FatLaw) -> f64 {
    let coconut = (law.index_at_15 - law.index_fall * (fat - 15.0)).clamp(law.index_least, 1.0);
    1.0 + plant_fat * (coconut - 1.0)
}

/// How far a droplet rises, mm, in so many hours.
///
/// `v = Δρ g d² (1 − φ)^4.65 / (18 η)`
///
/// - `droplet_um` — µm; `viscosity` — Pa·s at rest.
/// - Source: published, Stokes 1851; hindrance Richardson and Zaki 1954.
#[must_use]
pub fn rise_mm(droplet_um: f64, viscosity: f64, phi: f64, hours: f64, law: &FatLaw) -> f64 {
    let d = droplet_um * 1e-6;
    let speed = law.density_gap * GRAVITY * d * d / (18.0 * viscosity);
    speed * (1.0 - phi).max(0.0).powf(law.hindrance_exponent) * hours * 3600.0 * 1e3
}
