//! The texture of the pot at one moment: all parts together, by name.

use super::inputs::{AgentKind, Handling, TextureInputs};
use super::{activation, emulsion, fat, flow, gel, gelling_agent, sensory, starch, wheying};
use crate::base::words::TextureWord;
use crate::science::params::Laws;

/// What carries load in a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    Protein,
    Starch,
    GellingAgent,
    SolidFat,
    Emulsion,
}

impl Part {
    pub const ALL: [Self; 5] =
        [Self::Protein, Self::Starch, Self::GellingAgent, Self::SolidFat, Self::Emulsion];

    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Protein => "protein gel",
            Self::Starch => "starch, swollen",
            Self::GellingAgent => "gelling agent",
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
    /// Stress at 50 1/s that each part carries, Pa, in the order of [`Part::ALL`].
    pub parts: [f64; 5],
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
            parts: std::array::from_fn(|i| between(self.parts[i], other.parts[i])),
            ..*near
        }
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
}

/// z-value of the 95 % bound.
const Z95: f64 = 1.644_853_6;

/// The texture of a pot at a moment. Stress adds between the parts, fat multiplies; see each part's own file.
///
/// Limitations: valid for protein 2-12 %, fat 0-30 %, pH 4.0-4.8, 4-45 °C, starch 0-60 g/L.
#[must_use]
pub fn texture(pot: &TextureInputs, at: &Moment, laws: &Laws) -> Texture {
    let agents = Agents::at(pot, at);
    let packing = agents.starch;
    let x = packing.effective();
    let conditions = gel::Conditions {
        protein: pot.dairy_protein,
        packing: packing.volume,
        denatured: gel::denatured(pot.heat.whey_integral + at.whey_integral),
        hottest_c: pot.heat.hottest_c.max(at.hottest_c),
        ph: at.ph,
        made_at_c: at.made_at_c,
        now_c: at.c,
        set_style: pot.set_style,
        days: at.days,
        filler: gel::filler(pot.fat_volume, pot.homogenised, &laws.gel),
    };
    let dairy = gel::dairy(&conditions, &laws.gel);
    let soy = gel::soy(&gel::Conditions { protein: pot.soy_protein, ..conditions }, &laws.gel);
    let stirred = pot.stirred_at.is_some_and(|s| at.t_h >= s);
    let handling =
        if stirred && pot.handling == Handling::Spooned { Handling::Stirred } else { pot.handling };
    let solid = fat::solid(pot.plant_fat, at.c, laws);
    let crowded = gel::excluded(pot.fat_volume, packing.volume, &laws.gel).min(0.74);
    let network = fat::network(crowded, solid, pot.homogenised, &laws.fat);
    let protein_flow = flow::protein_left(handling, &laws.flow) * (dairy + soy);
    let fat_flow = flow::fat_left(handling, &laws.flow) * network;
    let thickening = emulsion::thickening(pot.fat, &laws.fat);
    let matrix = emulsion::on_matrix(thickening, pot.fat_volume, laws.starch.flow_index);
    let clustering = 1.0 + pot.plant_fat * pot.homogenised * (laws.fat.flocculation_homogenised - 1.0);
    let thin = emulsion::serum(pot.dairy, at.c, &laws.fat)
        * thickening
        * clustering
        * packing.suspension(&laws.starch);
    let index = emulsion::index(pot.fat, pot.plant_fat, &laws.fat);
    let parts_at = |shear: f64| {
        [
            flow::broken_gel(protein_flow, shear, &laws.flow),
            matrix * packing.paste(shear, at.c, &laws.starch),
            flow::broken_gel(agents.flowing_pa, shear, &laws.flow),
            flow::broken_gel(fat_flow, shear, &laws.flow),
            // A power law through its value at 50 1/s.
            thin * 50.0 * (shear / 50.0).powf(index),
        ]
    };
    let parts = parts_at(50.0);
    let (tau50, tau10) = (parts.iter().sum::<f64>(), parts_at(10.0).iter().sum::<f64>());
    let starch_pa = packing.stiffness_at(at.c, &laws.starch);
    let gel_pa = dairy + soy + agents.set_pa;
    let viscosity50 = tau50 / 50.0;
    let sigma = sigma(&parts, tau50, pot, laws);
    let cut =
        pot.handling == Handling::Spooned && pot.set_style && !stirred && gel_pa > laws.words.cuts_above_pa;
    let whey = wheying::whey(
        &wheying::Conditions {
            protein: pot.dairy_protein + pot.soy_protein,
            fat: pot.fat,
            made_at_c: at.made_at_c,
            packing: x,
            thickener_efolds: agents.efolds,
            gel_efolds: agents.gel_efolds,
            gel_pa,
            fat_pa: network,
            developed: developed(pot, at, conditions.denatured, laws),
        },
        &laws.wheying,
    );
    let word = |v: f64| sensory::word(v, cut, &laws.words);
    let (low50, high50) = (viscosity50 / sigma.powf(Z95), viscosity50 * sigma.powf(Z95));
    Texture {
        viscosity50,
        viscosity10: tau10 / 10.0,
        low50,
        high50,
        yield_pa: laws.flow.yield_share * (protein_flow + fat_flow + agents.flowing_pa),
        stiffness_pa: gel_pa + starch_pa + network,
        whey,
        parts,
        cut,
        word: word(viscosity50),
        word_low: word(low50),
        word_high: word(high50),
    }
}

/// One sigma of the viscosity as a factor: the two published sizes, weighted by who carries the stress.
fn sigma(parts: &[f64; 5], total: f64, pot: &TextureInputs, laws: &Laws) -> f64 {
    let dairy = if total > 0.0 { (parts[0] + pot.dairy * parts[4]) / total } else { 1.0 };
    (dairy * laws.flow.sigma_dairy.ln() + (1.0 - dairy) * laws.flow.sigma_plant.ln()).exp()
}

/// How far anything has set: the dairy or soy gel by pH; a pot without them counts as set by its acid alone.
fn developed(pot: &TextureInputs, at: &Moment, denatured: f64, laws: &Laws) -> f64 {
    let start = if pot.dairy_protein >= pot.soy_protein {
        gel::dairy_start_ph(denatured, &laws.gel)
    } else {
        laws.gel.soy_start_ph
    };
    gel::development(at.ph, start, &laws.gel)
}

/// All thickeners at a moment.
#[derive(Default)]
struct Agents {
    starch: starch::Packing,
    /// Stiffness of the set gelling agents, undisturbed and as it flows, Pa.
    set_pa: f64,
    flowing_pa: f64,
    efolds: f64,
    /// The same of the gelling agents alone.
    gel_efolds: f64,
}

impl Agents {
    fn at(pot: &TextureInputs, at: &Moment) -> Self {
        let mut all = Self::default();
        let water = (1.0 - pot.fat_volume).max(0.05);
        for agent in &pot.agents {
            let dose = agent.dose / water;
            let mut share = agent.before.share.max(activation::kept_at(&agent.kind, at.hottest_c));
            match agent.kind {
                AgentKind::ColdStarch { swelling_h } => {
                    let hours = agent.before.swelling_h + at.t_h;
                    share = 1.0 - (-hours / swelling_h).exp();
                    all.starch.add(dose * 1e-3 * agent.swelling * share, agent.consistency, agent.stiffness);
                }
                AgentKind::CookStarch { .. } => {
                    all.starch.add(dose * 1e-3 * agent.swelling * share, agent.consistency, agent.stiffness);
                }
                AgentKind::Gel { .. } => {
                    let left = gelling_agent::left_after_stirring(&agent.kind);
                    let whole = 1.0 - agent.before.broken * (1.0 - left);
                    let set = activation::set_at(&agent.kind, at.c, at.coldest_c);
                    let stiff = gelling_agent::stiffness(&agent.kind, dose * share) * set * whole;
                    let stirred =
                        pot.handling != Handling::Spooned || pot.stirred_at.is_some_and(|s| at.t_h >= s);
                    all.set_pa += stiff;
                    all.flowing_pa += if stirred { stiff * left } else { stiff };
                }
            }
            let efolds = share * agent.dose / agent.whey_efold;
            all.efolds += efolds;
            if matches!(agent.kind, AgentKind::Gel { .. }) {
                all.gel_efolds += efolds;
            }
        }
        all
    }
}
