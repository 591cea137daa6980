//! All parts of a texture together: droplets in a serum, gels beside them.

use super::agents::{Agents, gums};
use super::inputs::{Handling, TextureInputs};
use super::pot::{Moment, Texture};
use super::separation::{self, Clearing};
use super::{emulsion, fat, flow, gel, sensory, serum, wheying};
use crate::params::Laws;

/// z-value of the 95 % bound.
const Z95: f64 = 1.644_853_6;

/// Shear rates that a stirred pot is told at, 1/s.
const STIRRED: [f64; 2] = [50.0, 10.0];

/// Shear rate around a droplet that rises, 1/s: what the pot's viscosity at rest is read at. Source: assumed, a droplet of
/// 10 µm that rises some mm in an hour.
const AT_REST: f64 = 0.1;

/// The texture of one pot, asked for at many moments. What no moment changes is worked out once.
///
/// Droplets stand in a serum. What thickens the serum is multiplied by the droplets; gels and the yield stress of solid fat
/// add to it; see each part's own file.
///
/// Limitations: valid for protein 2-12 %, fat 0-30 %, pH 4.0-4.8, 4-45 °C, starch 0-60 g/L.
pub struct PotTexture<'a> {
    pot: &'a TextureInputs,
    laws: &'a Laws,
    /// `ln r` of droplets without clusters, and `ln(1 − φ)`.
    crowding: f64,
    ln_free: f64,
    /// Stress of a broken protein gel, and of broken gelling agents, per Pa of stiffness, at [`STIRRED`].
    broken: [f64; 2],
    broken_agents: [f64; 2],
    /// `γ^n` of touching granules at [`STIRRED`] and at rest.
    paste: [f64; 2],
    paste_at_rest: f64,
    /// One sigma of the viscosity as logarithms: gels, cream, all else.
    ln_sigmas: [f64; 3],
    /// Squares of the droplets' diameters over that of the mean.
    sizes: [f64; 5],
    /// Factor of fat in a dairy gel.
    filler: f64,
    /// Share of the protein gel's flow, and of the fat network, that handling leaves in an undisturbed pot and in one that was stirred
    /// in the hold.
    protein_left: (f64, f64),
    fat_left: (f64, f64),
}

impl<'a> PotTexture<'a> {
    pub fn new(pot: &'a TextureInputs, laws: &'a Laws) -> Self {
        let flow = &laws.flow;
        Self {
            pot,
            laws,
            crowding: emulsion::crowding(pot.fat_volume, &laws.fat),
            // Keeps the logarithm a number in a pot of fat alone, far beyond what the laws are known for (`validity` says so).
            ln_free: (1.0 - pot.fat_volume).max(1e-9).ln(),
            broken: STIRRED.map(|shear| flow::broken_gel(shear, pot.ropy, flow)),
            broken_agents: STIRRED.map(|shear| flow::broken_gel(shear, 0.0, flow)),
            paste: STIRRED.map(|shear| shear.powf(laws.starch.flow_index)),
            paste_at_rest: AT_REST.powf(laws.starch.flow_index),
            ln_sigmas: [flow.sigma_dairy, flow.sigma_emulsion, flow.sigma_plant].map(f64::ln),
            sizes: separation::sizes(&laws.separation),
            filler: gel::filler(pot.fat_volume, pot.homogenised, &laws.gel),
            protein_left: left(pot, |h| flow::protein_left(h, flow)),
            fat_left: left(pot, |h| flow::fat_left(h, flow)),
        }
    }

    /// The texture at a moment, without a thin layer ([`PotTexture::separated`] adds it).
    pub fn at(&self, at: &Moment) -> Texture {
        let (pot, laws) = (self.pot, self.laws);
        let agents = Agents::at(pot, at, laws);
        let gels = Gels::at(self, at, agents.starch.volume);
        let drops = Drops::at(self, at, agents.starch.volume);
        let paste = agents.starch.paste(at.c, &laws.starch);
        let serum = Serum::at(self, at, &agents, &drops);
        let protein_flow = left_at(self.protein_left, at) * (gels.dairy + laws.flow.plant_flow * gels.plant);
        let fat_flow = left_at(self.fat_left, at) * drops.network;
        let fat_yield = flow::yield_stress(fat_flow, 0.0, &laws.flow);
        let matrix = if paste.consistency > 0.0 {
            agents.filled
                * paste.consistency
                * emulsion::on_matrix(drops.ln_thickening, self.ln_free, laws.starch.flow_index)
        } else {
            0.0
        };
        let parts_at = |i: usize| {
            // A power law through its value at 50 1/s.
            let emulsion = agents.filled * serum.emulsion[i];
            [
                agents.filled * protein_flow * self.broken[i],
                matrix * self.paste[i] + emulsion * (serum.thickened - 1.0),
                agents.flowing_pa * self.broken_agents[i],
                serum.gums[i],
                fat_yield,
                emulsion,
            ]
        };
        let parts = parts_at(0).map(|tau| pot.left_out * tau);
        let (tau50, tau10) = (parts.iter().sum::<f64>(), pot.left_out * parts_at(1).iter().sum::<f64>());
        let gel_pa = gels.dairy + gels.plant + agents.set_pa;
        let viscosity50 = tau50 / STIRRED[0];
        let factor = (Z95 * self.ln_sigma(&parts, tau50)).exp();
        let cut =
            undisturbed(pot, at) > 0.5 && pot.set_style && pot.left_out * gel_pa > laws.words.cuts_above_pa;
        let rising = separation::Conditions {
            phi: pot.fat_volume,
            clustering: drops.clustering,
            solid: drops.solid,
            at_rest: serum.plain * serum.thickened
                + (paste.consistency * self.paste_at_rest + serum.gums_at_rest) / AT_REST,
            yield_pa: flow::yield_stress(gel_pa + drops.network, 0.0, &laws.flow),
            gum_g_l: agents.gums,
            droplet_um: pot.droplet_um,
        };
        let word = |v: f64| sensory::word(v, cut, &laws.words);
        let (low50, high50) = (viscosity50 / factor, viscosity50 * factor);
        Texture {
            viscosity50,
            viscosity10: tau10 / STIRRED[1],
            low50,
            high50,
            yield_pa: pot.left_out
                * (flow::yield_stress(protein_flow, pot.ropy, &laws.flow)
                    + flow::yield_stress(agents.flowing_pa, 0.0, &laws.flow)
                    + fat_yield),
            stiffness_pa: pot.left_out * (gel_pa + paste.stiffness + drops.network),
            whey: self.whey(at, &agents, &gels, &drops),
            thin_layer: 0.0,
            clearing: Clearing::of(&rising, gel_pa / (gel_pa + laws.wheying.gel_lead_pa), &laws.separation),
            parts,
            cut,
            word: word(viscosity50),
            word_low: word(low50),
            word_high: word(high50),
        }
    }

    /// A texture with the thin layer that a rise has left: mm that a droplet of 1 µm has risen.
    pub fn separated(&self, texture: Texture, risen: f64) -> Texture {
        let thin_layer =
            texture.clearing.thin_layer(risen, self.pot.droplet_um, self.pot.height_mm, &self.sizes);
        Texture { thin_layer, ..texture }
    }

    fn whey(&self, at: &Moment, agents: &Agents, gels: &Gels, drops: &Drops) -> wheying::Whey {
        let (pot, laws) = (self.pot, self.laws);
        wheying::whey(
            &wheying::Conditions {
                protein: pot.gelling_protein(),
                fat: pot.fat,
                made_at_c: at.made_at_c,
                packing: agents.starch.effective(),
                thickener_efolds: agents.efolds,
                gel_efolds: agents.gel_efolds,
                gel_pa: gels.dairy + gels.plant + agents.set_pa,
                fat_pa: drops.network,
                wept: agents.weeps_per_day * at.days,
                ropy: 1.0 + pot.ropy * (laws.wheying.ropy_whey - 1.0),
                developed: gels.developed,
            },
            &laws.wheying,
        )
    }

    /// One sigma of the viscosity as the logarithm of a factor: gels, milk and cream without a gel, and all else, weighted by
    /// who carries the stress.
    fn ln_sigma(&self, parts: &[f64; 6], total: f64) -> f64 {
        let [of_gel, of_cream, of_rest] = self.ln_sigmas;
        if total <= 0.0 {
            return of_gel;
        }
        let (gel, cream) = (parts[0] / total, self.pot.dairy * parts[5] / total);
        gel * of_gel + cream * of_cream + (1.0 - gel - cream) * of_rest
    }
}

/// The serum at a moment, and the droplets in it.
struct Serum {
    /// Viscosity without fat or thickener, Pa·s, and the factor of what is dissolved and swollen in it.
    plain: f64,
    thickened: f64,
    /// Stress of droplets in the plain serum at [`STIRRED`], Pa.
    emulsion: [f64; 2],
    /// Stress of gums at [`STIRRED`] among the droplets, and in the serum at rest, Pa.
    gums: [f64; 2],
    gums_at_rest: f64,
}

impl Serum {
    fn at(whole: &PotTexture<'_>, at: &Moment, agents: &Agents, drops: &Drops) -> Self {
        let (pot, laws) = (whole.pot, whole.laws);
        let plain = serum::plain(pot.dairy, at.c, &laws.fat);
        let thickened = serum::dissolved(agents.dissolved, &laws.starch)
            * serum::granules(agents.starch.effective(), &laws.starch);
        let emulsion = plain * drops.ln_thickening.exp() * STIRRED[0];
        let thinner = (drops.index * (STIRRED[1] / STIRRED[0]).ln()).exp();
        let (gums, gums_at_rest) =
            gums(pot, agents, (STIRRED, AT_REST), (drops.ln_thickening, whole.ln_free));
        Self { plain, thickened, emulsion: [emulsion, emulsion * thinner], gums, gums_at_rest }
    }
}

/// The protein gels at a moment, Pa, and how far the leading one has developed.
struct Gels {
    dairy: f64,
    plant: f64,
    developed: f64,
}

impl Gels {
    fn at(whole: &PotTexture<'_>, at: &Moment, packing: f64) -> Self {
        let (pot, laws) = (whole.pot, whole.laws);
        let conditions = gel::Conditions {
            protein: pot.dairy_protein,
            packing,
            denatured: gel::denatured(pot.heat.whey_integral + at.whey_integral),
            hottest_c: pot.heat.hottest_c.max(at.hottest_c),
            ph: at.ph,
            made_at_c: at.made_at_c,
            now_c: at.c,
            set_style: pot.set_style,
            days: at.days,
            filler: whole.filler,
        };
        let of = |protein: f64| gel::Conditions { protein, ..conditions };
        let start_ph = gel::start_ph(pot, conditions.denatured, &laws.gel);
        Self {
            dairy: pot.gel_strength * gel::dairy(&conditions, &laws.gel),
            plant: gel::soy(&of(pot.soy_protein), &laws.gel)
                + gel::pea(&of(pot.pea_protein), &laws.gel)
                + gel::nut(&of(pot.nut_protein), &laws.gel),
            developed: gel::development(at.ph, start_ph, &laws.gel),
        }
    }
}

/// The droplets at a moment.
struct Drops {
    clustering: f64,
    /// `ln r`, thickening by the droplets.
    ln_thickening: f64,
    index: f64,
    /// Solid share of all the fat, 0 to 1.
    solid: f64,
    /// Stiffness of the network of solid droplets, Pa.
    network: f64,
}

impl Drops {
    fn at(whole: &PotTexture<'_>, at: &Moment, packing: f64) -> Self {
        let (pot, laws) = (whole.pot, whole.laws);
        let law = &laws.fat;
        let (of_plants, solid) = fat::solid(pot.plant_fat, pot.coconut_fat, at.c, laws);
        let drops = emulsion::Droplets {
            plant: pot.plant_fat,
            homogenised: pot.homogenised,
            solid: of_plants,
            ph: at.ph,
        };
        let clustering = emulsion::clustering(&drops, law);
        let soured = emulsion::soured(at.ph, law);
        let crowded = gel::excluded(pot.fat_volume, packing, &laws.gel).min(0.74);
        let clustered = pot.plant_fat * law.cluster_soured * soured;
        Self {
            clustering,
            ln_thickening: whole.crowding * (1.0 + clustering),
            index: emulsion::index(pot.fat, pot.plant_fat, soured, law),
            solid,
            network: fat::network(crowded, solid, pot.homogenised, clustered, law),
        }
    }
}

/// Share of a gel's flow that handling leaves, what was done to the pot on the way taken in; and the same if the set gel was
/// stirred in the hold.
fn left(pot: &TextureInputs, law: impl Fn(Handling) -> f64) -> (f64, f64) {
    let handled = law(pot.handling);
    let (rougher, share) = pot.rougher;
    let worked = handled + share * (law(pot.handling.max(rougher)) - handled);
    (worked, law(pot.handling.max(Handling::Stirred)).min(worked))
}

fn left_at((worked, stirred): (f64, f64), at: &Moment) -> f64 {
    worked + at.stirred * (stirred - worked)
}

/// How far the pot is as it set, 0 to 1.
fn undisturbed(pot: &TextureInputs, at: &Moment) -> f64 {
    if pot.handling == Handling::Spooned { (1.0 - pot.rougher.1) * (1.0 - at.stirred) } else { 0.0 }
}
