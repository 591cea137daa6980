//! Separation: droplets rise, the pot clears from below, and a plug of cream packs on top.

use crate::params::SeparationLaw;
use potset_base::constants::GRAVITY;

/// What decides the rise at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Volume share of fat, 0 to 1.
    pub phi: f64,
    /// Clustering k of the droplets.
    pub clustering: f64,
    /// Solid share of the fat, 0 to 1.
    pub solid: f64,
    /// Viscosity of the serum at rest, Pa·s.
    pub at_rest: f64,
    /// Yield stress of what stands around the droplets, Pa.
    pub yield_pa: f64,
    /// Gums, g per L of water phase.
    pub gum_g_l: f64,
    /// Mean diameter of the droplets, µm.
    pub droplet_um: f64,
}

/// Rise of a droplet per square of its diameter, mm/h per µm².
///
/// `v/d² = Δρ g (1 + k) (1 − φ)^(5 (1 + k)) (1 + dep) / (18 η) · 1/(1 + (τ_y/(Y Δρ g d))⁴)`
///
/// A cluster of fractal dimension 2 is `1 + k` times as wide and as much lighter per volume, so it rises `1 + k` times as
/// fast, is held by the same yield stress as its droplets, and hinders its neighbours by the room that it takes up. Little gum draws droplets together (`dep`, largest at
/// half a gram in a litre); much gum holds them by its viscosity.
///
/// - Source: derived, Stokes 1851 with the hindrance of Richardson and Zaki 1954 (both published), on clusters; held by a
///   yield stress `τ_y/(Δρ g d)` of 0.048, Beris et al. 1985; depletion assumed in size (direction: J Agric Food Chem
///   2003, 51:265).
pub fn rate(c: &Conditions, law: &SeparationLaw) -> f64 {
    // A pot without fat has no droplets.
    if c.droplet_um <= 0.0 {
        return 0.0;
    }
    let gap = law.density_gap - law.density_gap_solid * c.solid;
    let room = 1.0 + c.clustering;
    let hindered = (1.0 - c.phi).max(0.0).powf(law.hindrance_exponent * room);
    let little = c.gum_g_l / law.depletion_g_l;
    let drawn = if little > 0.0 { 1.0 + law.depletion * little * (1.0 - little).exp() } else { 1.0 };
    let free = gap * GRAVITY * 1e-12 * room * hindered * drawn / (18.0 * c.at_rest) * 3.6e6;
    let needed = law.held_by * gap * GRAVITY * c.droplet_um * 1e-6;
    free / (1.0 + (c.yield_pa / needed).powi(4))
}

/// How a pot clears at one moment.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Clearing {
    /// Rise, mm/h per µm² of droplet.
    pub rate: f64,
    /// Most of the height that can clear, 0 to 1.
    pub most: f64,
    /// How far what has cleared counts as thin, 0 to 1.
    pub told: f64,
}

impl Clearing {
    /// Of a pot of which a gel holds a share, 0 to 1.
    ///
    /// At most `1 − φ/φ_plug` clears, since the plug packs; clusters pack loosely. It counts as thin as far as the fat had
    /// thickened the pot, `1 − e^(−φ/0.05)`, and as no gel holds it.
    ///
    /// Source: packing of the plug and what counts as thin assumed; heated coconut leaves a larger cream (Tangsuphoom and
    /// Coupland 2005).
    pub fn of(c: &Conditions, held: f64, law: &SeparationLaw) -> Self {
        let loose = c.clustering / (1.0 + c.clustering);
        let plug = law.plug_packing + loose * (law.plug_packing_clusters - law.plug_packing);
        Self {
            rate: rate(c, law),
            most: (1.0 - c.phi / plug).max(0.0),
            told: (1.0 - (-c.phi / law.thin_phi).exp()) * (1.0 - held),
        }
    }

    /// Thin layer below, % of the pot, after droplets of 1 µm have risen by so many mm.
    ///
    /// Sizes spread by a log-normal (five of equal share). Each clears `L (1 − e^(−d² s/(H L)))` of the height, at most `L`.
    ///
    /// - `risen` — s, mm/µm²; `droplet_um` — mean diameter, µm; `height_mm` — H, height of the pot; `sizes` — [`sizes`].
    /// - Source: derived from [`rate`]; spread of sizes assumed.
    pub fn thin_layer(&self, risen: f64, droplet_um: f64, height_mm: f64, sizes: &[f64; 5]) -> f64 {
        if self.most <= 0.0 || self.told <= 0.0 || height_mm <= 0.0 || risen <= 0.0 {
            return 0.0;
        }
        let reach = droplet_um * droplet_um * risen / (height_mm * self.most);
        let cleared: f64 = sizes.iter().map(|square| 1.0 - (-reach * square).exp()).sum();
        100.0 * self.most * cleared / 5.0 * self.told
    }
}

/// Squares of five diameters over the square of the mean: middles of five equal shares of a normal distribution, which lie
/// at 0, ±0.5244 and ±1.2816 sigma.
pub fn sizes(law: &SeparationLaw) -> [f64; 5] {
    let (near, far) = ((1.0488 * law.size_spread).exp(), (2.5632 * law.size_spread).exp());
    [1.0 / far, 1.0 / near, 1.0, near, far]
}
