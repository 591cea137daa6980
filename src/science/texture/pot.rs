//! The texture of the pot at one moment: all parts together, by name.

use super::agents::{Agents, gums};
use super::inputs::{Handling, TextureInputs};
use super::separation::{self, Clearing};
use super::{emulsion, fat, flow, gel, sensory, serum, wheying};
use crate::base::words::TextureWord;
use crate::science::params::Laws;

/// What carries load in a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    Protein,
    Starch,
    GellingAgent,
    Gum,
    SolidFat,
    Emulsion,
}

impl Part {
    pub const ALL: [Self; 6] =
        [Self::Protein, Self::Starch, Self::GellingAgent, Self::Gum, Self::SolidFat, Self::Emulsion];

    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Protein => "protein gel",
            Self::Starch => "starch, swollen",
            Self::GellingAgent => "gelling agent",
            Self::Gum => "gum",
            Self::SolidFat => "solid fat",
            Self::Emulsion => "emulsion",
        }
    }
}

/// Texture at one moment and temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Texture {
    /// Apparent viscosity at 50 and 10 1/s, Pa·s.
    pub viscosity50: f64,
    pub viscosity10: f64,
    /// 5 % and 95 % bounds of the first.
    pub low50: f64,
    pub high50: f64,
    pub yield_pa: f64,
    /// G' of the undisturbed pot, Pa.
    pub stiffness_pa: f64,
    pub whey: wheying::Whey,
    /// Thin layer below, % of the pot, by [`Texture::separated`].
    pub thin_layer: f64,
    pub clearing: Clearing,
    /// Stress at 50 1/s that each part carries, Pa, in the order of [`Part::ALL`].
    pub parts: [f64; 6],
    /// Stiff enough and undisturbed, so that it is cut.
    pub cut: bool,
    pub word: TextureWord,
    pub word_low: TextureWord,
    pub word_high: TextureWord,
}

impl Texture {
    /// The texture a share of the way to another one. Words and `cut` are those of the nearer end.
    #[must_use]
    pub fn towards(&self, other: &Self, share: f64) -> Self {
        let between = |a: f64, b: f64| a + share * (b - a);
        let near = if share < 0.5 { self } else { other };
        Self {
            viscosity50: between(self.viscosity50, other.viscosity50),
            viscosity10: between(self.viscosity10, other.viscosity10),
            low50: between(self.low50, other.low50),
            high50: between(self.high50, other.high50),
            yield_pa: between(self.yield_pa, other.yield_pa),
            stiffness_pa: between(self.stiffness_pa, other.stiffness_pa),
            whey: wheying::Whey {
                centrifuged: between(self.whey.centrifuged, other.whey.centrifuged),
                standing: between(self.whey.standing, other.whey.standing),
                cut: between(self.whey.cut, other.whey.cut),
            },
            thin_layer: between(self.thin_layer, other.thin_layer),
            parts: std::array::from_fn(|i| between(self.parts[i], other.parts[i])),
            ..*near
        }
    }

    /// The same with the thin layer that a rise has left: mm that a droplet of 1 µm has risen.
    #[must_use]
    pub fn separated(self, risen: f64, pot: &TextureInputs, laws: &Laws) -> Self {
        let thin_layer = self.clearing.thin_layer(risen, pot.droplet_um, pot.height_mm, &laws.separation);
        Self { thin_layer, ..self }
    }
}

/// The moment that a texture is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Hours since the culture went in.
    pub t_h: f64,
    pub ph: f64,
    pub c: f64,
    /// Hottest and coldest of the hold so far, °C.
    pub hottest_c: f64,
    pub coldest_c: f64,
    /// Temperature in which the gel was made, °C.
    pub made_at_c: f64,
    /// `∫ k dt` of whey protein during the hold.
    pub whey_integral: f64,
    pub days: f64,
    /// How far the gel had set when it was stirred or jolted in the hold, 0 to 1; 0 if it never was.
    pub stirred: f64,
}

/// Most thickeners in one pot, a base's own starch among them; `compile` refuses more.
pub const MOST_AGENTS: usize = 16;

/// z-value of the 95 % bound.
const Z95: f64 = 1.644_853_6;

/// Shear rate around a droplet that rises, 1/s: what the pot's viscosity at rest is read at. Source: assumed, a droplet of
/// 10 µm that rises some mm in an hour.
const AT_REST: f64 = 0.1;

/// The texture of a pot at a moment: droplets in a serum. What thickens the serum is multiplied by the droplets; gels and
/// the yield stress of solid fat add to it; see each part's own file.
///
/// Limitations: valid for protein 2-12 %, fat 0-30 %, pH 4.0-4.8, 4-45 °C, starch 0-60 g/L.
#[must_use]
pub fn texture(pot: &TextureInputs, at: &Moment, laws: &Laws) -> Texture {
    let agents = Agents::at(pot, at, laws);
    let gels = Gels::at(pot, at, agents.starch.volume, laws);
    let drops = Drops::at(pot, at, agents.starch.volume, laws);
    let packing = agents.starch;
    let protein_flow = left(pot, at, |h| flow::protein_left(h, &laws.flow))
        * (gels.dairy + laws.flow.plant_flow * gels.plant);
    let fat_flow = left(pot, at, |h| flow::fat_left(h, &laws.flow)) * drops.network;
    let matrix = emulsion::on_matrix(drops.thickening, pot.fat_volume, laws.starch.flow_index);
    let plain = serum::plain(pot.dairy, at.c, &laws.fat);
    let thickened =
        serum::dissolved(agents.dissolved, &laws.starch) * serum::granules(packing.effective(), &laws.starch);
    let fat_yield = flow::yield_stress(fat_flow, 0.0, &laws.flow);
    let parts_at = |shear: f64| {
        // A power law through its value at 50 1/s.
        let emulsion = agents.filled * plain * drops.thickening * 50.0 * (shear / 50.0).powf(drops.index);
        [
            agents.filled * flow::broken_gel(protein_flow, shear, pot.ropy, &laws.flow),
            agents.filled * matrix * packing.paste(shear, at.c, &laws.starch) + emulsion * (thickened - 1.0),
            flow::broken_gel(agents.flowing_pa, shear, 0.0, &laws.flow),
            gums(pot, &agents, shear, drops.thickening),
            fat_yield,
            emulsion,
        ]
    };
    let parts = parts_at(50.0).map(|tau| pot.left_out * tau);
    let (tau50, tau10) = (parts.iter().sum::<f64>(), pot.left_out * parts_at(10.0).iter().sum::<f64>());
    let starch_pa = packing.stiffness_at(at.c, &laws.starch);
    let gel_pa = gels.dairy + gels.plant + agents.set_pa;
    let viscosity50 = tau50 / 50.0;
    let sigma = sigma(&parts, tau50, pot, laws);
    let cut = undisturbed(pot, at) > 0.5 && pot.set_style && pot.left_out * gel_pa > laws.words.cuts_above_pa;
    let whey = wheying::whey(
        &wheying::Conditions {
            protein: pot.gelling_protein(),
            fat: pot.fat,
            made_at_c: at.made_at_c,
            packing: packing.effective(),
            thickener_efolds: agents.efolds,
            gel_efolds: agents.gel_efolds,
            gel_pa,
            fat_pa: drops.network,
            wept: agents.weeps_per_day * at.days,
            ropy: 1.0 + pot.ropy * (laws.wheying.ropy_whey - 1.0),
            developed: gels.developed,
        },
        &laws.wheying,
    );
    let rising = separation::Conditions {
        phi: pot.fat_volume,
        clustering: drops.clustering,
        solid: drops.solid,
        at_rest: plain * thickened
            + (packing.paste(AT_REST, at.c, &laws.starch) + gums(pot, &agents, AT_REST, 1.0)) / AT_REST,
        yield_pa: flow::yield_stress(gel_pa + drops.network, 0.0, &laws.flow),
        gum_g_l: agents.gums,
        droplet_um: pot.droplet_um,
    };
    let word = |v: f64| sensory::word(v, cut, &laws.words);
    let (low50, high50) = (viscosity50 / sigma.powf(Z95), viscosity50 * sigma.powf(Z95));
    Texture {
        viscosity50,
        viscosity10: tau10 / 10.0,
        low50,
        high50,
        yield_pa: pot.left_out
            * (flow::yield_stress(protein_flow, pot.ropy, &laws.flow)
                + flow::yield_stress(agents.flowing_pa, 0.0, &laws.flow)
                + fat_yield),
        stiffness_pa: pot.left_out * (gel_pa + starch_pa + drops.network),
        whey,
        thin_layer: 0.0,
        clearing: Clearing::of(&rising, gel_pa / (gel_pa + laws.wheying.gel_lead_pa), &laws.separation),
        parts,
        cut,
        word: word(viscosity50),
        word_low: word(low50),
        word_high: word(high50),
    }
}

/// The protein gels at a moment, Pa, and how far the leading one has developed.
struct Gels {
    dairy: f64,
    plant: f64,
    developed: f64,
}

impl Gels {
    fn at(pot: &TextureInputs, at: &Moment, packing: f64, laws: &Laws) -> Self {
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
            filler: gel::filler(pot.fat_volume, pot.homogenised, &laws.gel),
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
    thickening: f64,
    index: f64,
    /// Solid share of all the fat, 0 to 1.
    solid: f64,
    /// Stiffness of the network of solid droplets, Pa.
    network: f64,
}

impl Drops {
    fn at(pot: &TextureInputs, at: &Moment, packing: f64, laws: &Laws) -> Self {
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
            thickening: emulsion::thickening(pot.fat_volume, clustering, law),
            index: emulsion::index(pot.fat, pot.plant_fat, soured, law),
            solid,
            network: fat::network(crowded, solid, pot.homogenised, clustered, law),
        }
    }
}

/// One sigma of the viscosity as a factor: gels, milk and cream without a gel, and all else, weighted by who carries the
/// stress.
fn sigma(parts: &[f64; 6], total: f64, pot: &TextureInputs, laws: &Laws) -> f64 {
    let law = &laws.flow;
    if total <= 0.0 {
        return law.sigma_dairy;
    }
    let (gel, cream) = (parts[0] / total, pot.dairy * parts[5] / total);
    let rest = 1.0 - gel - cream;
    (gel * law.sigma_dairy.ln() + cream * law.sigma_emulsion.ln() + rest * law.sigma_plant.ln()).exp()
}

/// Share of a gel's flow that handling leaves, what was done to the pot on the way taken in.
fn left(pot: &TextureInputs, at: &Moment, law: impl Fn(Handling) -> f64) -> f64 {
    let handled = law(pot.handling);
    let (rougher, share) = pot.rougher;
    let worked = handled + share * (law(pot.handling.max(rougher)) - handled);
    let stirred = law(pot.handling.max(Handling::Stirred)).min(worked);
    worked + at.stirred * (stirred - worked)
}

/// How far the pot is as it set, 0 to 1.
fn undisturbed(pot: &TextureInputs, at: &Moment) -> f64 {
    if pot.handling == Handling::Spooned { (1.0 - pot.rougher.1) * (1.0 - at.stirred) } else { 0.0 }
}
