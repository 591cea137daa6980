//! Fat droplets: what they do to the flow of the serum around them, alone and in clusters.

use crate::params::FatLaw;
use potset_numerics::interpolate::smooth_step;

/// What decides how far droplets hang together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Droplets {
    /// Share of the fat that is plant fat, and that is finely homogenised, 0 to 1.
    pub plant: f64,
    pub homogenised: f64,
    /// Solid share of the plant fat, 0 to 1.
    pub solid: f64,
    pub ph: f64,
}

/// How far plant droplets have clustered by souring, 0 to 1.
///
/// Source: coconut milk is least stable at pH 3.5-6.0 (Monera and del Rosario, Ann Trop Res) and its protein least
/// soluble at pH 3-4; the smooth rise between two pH assumed.
pub fn soured(ph: f64, law: &FatLaw) -> f64 {
    smooth_step(0.0, law.sour_from_ph - law.sour_full_ph, law.sour_from_ph - ph)
}

/// Clustering k: a cluster takes up `1 + k` times the room of its droplets.
///
/// `k = k_dairy` for milk fat; for plant fat `k_plant + k_hom h + k_sour s (1 + h) + k_solid · SFC`
///
/// - Source: milk fat fitted with [`thickening`]; plant fat assumed, its directions published (homogenised and heated
///   coconut droplets cluster, soured ones too).
pub fn clustering(d: &Droplets, law: &FatLaw) -> f64 {
    let sour = law.cluster_soured * soured(d.ph, law) * (1.0 + d.homogenised);
    let plant =
        law.cluster_plant + law.cluster_homogenised * d.homogenised + sour + law.cluster_solid * d.solid;
    d.plant * plant + (1.0 - d.plant) * law.cluster_dairy
}

/// Thickening by droplets: `r = (1 − φ/φ_m)^(−2.5 φ_m (1 + k))`.
///
/// - `phi` — volume share of fat, 0 to 1; `clustering` — k of [`clustering`].
/// - Limitations: held from 98 % of φ_m on (fat above some 90 % by volume), where droplets no longer flow as such; far
///   beyond the 30 % of fat that the program says is known.
/// - Source: derived, Krieger and Dougherty 1959 (published) with the room of clusters in the exponent; φ_m and k of milk fat
///   fitted to ten cream viscosities at 30-50 % fat, 5 and 20 °C, within 6 %.
pub fn thickening(phi: f64, clustering: f64, law: &FatLaw) -> f64 {
    (crowding(phi, law) * (1.0 + clustering)).exp()
}

/// Logarithm of [`thickening`] without clusters: `−2.5 φ_m ln(1 − φ/φ_m)`.
pub fn crowding(phi: f64, law: &FatLaw) -> f64 {
    let most = law.droplet_packing;
    -2.5 * most * (1.0 - (phi / most).min(0.98)).ln()
}

/// Factor of droplets on a power-law matrix: `r^((n+1)/2) (1 − φ)^((1−n)/2)`, from `ln r` and `ln(1 − φ)`.
///
/// Source: from memory, homogenisation estimate for suspensions in power-law fluids.
pub fn on_matrix(ln_thickening: f64, ln_free: f64, index: f64) -> f64 {
    (0.5 * (index + 1.0) * ln_thickening + 0.5 * (1.0 - index) * ln_free).exp()
}

/// Flow index of the emulsion: 1 for thin dairy; for coconut it falls with fat and with souring.
///
/// Source: published ends, homogenised coconut milk (Peamprasart and Chiewchan) and soured coconut milk (Mepba and
/// Ademiluyi 2007, 0.78); straight lines between them derived.
pub fn index(fat: f64, plant_fat: f64, soured: f64, law: &FatLaw) -> f64 {
    let coconut = law.index_at_15 - law.index_fall * (fat - 15.0) - law.index_soured * soured;
    1.0 + plant_fat * (coconut.clamp(law.index_least, 1.0) - 1.0)
}
