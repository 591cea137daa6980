//! The texture of the pot at one moment: all parts together, by name.

use super::inputs::{Agent, AgentKind, Handling, TextureInputs};
use super::{activation, emulsion, fat, flow, gel, gelling_agent, gum, sensory, starch, wheying};
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
    /// How far the gel had set when it was stirred or jolted in the hold, 0 to 1; 0 if it never was.
    pub stirred: f64,
}

/// Most thickeners in one pot, a base's own starch among them; `compile` refuses more.
pub const MOST_AGENTS: usize = 16;

/// z-value of the 95 % bound.
const Z95: f64 = 1.644_853_6;

/// The texture of a pot at a moment. Stress adds between the parts, fat multiplies; see each part's own file.
///
/// Limitations: valid for protein 2-12 %, fat 0-30 %, pH 4.0-4.8, 4-45 °C, starch 0-60 g/L.
#[must_use]
pub fn texture(pot: &TextureInputs, at: &Moment, laws: &Laws) -> Texture {
    let agents = Agents::at(pot, at, laws);
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
    let dairy = pot.gel_strength * gel::dairy(&conditions, &laws.gel);
    let soy = gel::soy(&gel::Conditions { protein: pot.soy_protein, ..conditions }, &laws.gel);
    let plant = soy + gel::pea(&gel::Conditions { protein: pot.pea_protein, ..conditions }, &laws.gel);
    let solid = fat::solid(pot.plant_fat, at.c, laws);
    let crowded = gel::excluded(pot.fat_volume, packing.volume, &laws.gel).min(0.74);
    let network = fat::network(crowded, solid, pot.homogenised, &laws.fat);
    let protein_flow = left(pot, at, |h| flow::protein_left(h, &laws.flow)) * (dairy + plant);
    let fat_flow = left(pot, at, |h| flow::fat_left(h, &laws.flow)) * network;
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
            agents.filled * flow::broken_gel(protein_flow, shear, pot.ropy, &laws.flow),
            agents.filled * matrix * packing.paste(shear, at.c, &laws.starch),
            flow::broken_gel(agents.flowing_pa, shear, 0.0, &laws.flow),
            gums(pot, &agents, shear, thickening),
            flow::broken_gel(fat_flow, shear, 0.0, &laws.flow),
            // A power law through its value at 50 1/s.
            agents.filled * thin * 50.0 * (shear / 50.0).powf(index),
        ]
    };
    let parts = parts_at(50.0).map(|tau| pot.left_out * tau);
    let (tau50, tau10) = (parts.iter().sum::<f64>(), pot.left_out * parts_at(10.0).iter().sum::<f64>());
    let starch_pa = packing.stiffness_at(at.c, &laws.starch);
    let gel_pa = dairy + plant + agents.set_pa;
    let viscosity50 = tau50 / 50.0;
    let sigma = sigma(&parts, tau50, pot, laws);
    let cut = undisturbed(pot, at) > 0.5 && pot.set_style && pot.left_out * gel_pa > laws.words.cuts_above_pa;
    let whey = wheying::whey(
        &wheying::Conditions {
            protein: pot.dairy_protein + pot.soy_protein + pot.pea_protein,
            fat: pot.fat,
            made_at_c: at.made_at_c,
            packing: x,
            thickener_efolds: agents.efolds,
            gel_efolds: agents.gel_efolds,
            gel_pa,
            fat_pa: network,
            wept: agents.weeps_per_day * at.days,
            ropy: 1.0 + pot.ropy * (laws.wheying.ropy_whey - 1.0),
            developed: gel::development(
                at.ph,
                gel::start_ph(pot, conditions.denatured, &laws.gel),
                &laws.gel,
            ),
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
        yield_pa: pot.left_out
            * (flow::yield_stress(protein_flow, pot.ropy, &laws.flow)
                + flow::yield_stress(fat_flow + agents.flowing_pa, 0.0, &laws.flow)),
        stiffness_pa: pot.left_out * (gel_pa + starch_pa + network),
        whey,
        parts,
        cut,
        word: word(viscosity50),
        word_low: word(low50),
        word_high: word(high50),
    }
}

/// One sigma of the viscosity as a factor: the two published sizes, weighted by who carries the stress.
fn sigma(parts: &[f64; 6], total: f64, pot: &TextureInputs, laws: &Laws) -> f64 {
    let dairy = if total > 0.0 { (parts[0] + pot.dairy * parts[5]) / total } else { 1.0 };
    (dairy * laws.flow.sigma_dairy.ln() + (1.0 - dairy) * laws.flow.sigma_plant.ln()).exp()
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

/// Stress of all gums at a shear rate, Pa, with the fat and with what they do together.
fn gums(pot: &TextureInputs, agents: &Agents, shear: f64, thickening: f64) -> f64 {
    let mut total = 0.0;
    for (i, agent) in pot.agents.iter().enumerate().take(MOST_AGENTS) {
        let (stress, index) = gum::stress(&agent.kind, agents.doses[i], shear);
        if stress > 0.0 {
            total += agents.helped[i] * stress * emulsion::on_matrix(thickening, pot.fat_volume, index);
        }
    }
    total
}

/// All thickeners at a moment.
#[derive(Default)]
struct Agents {
    starch: starch::Packing,
    /// Working dose of each agent, g per L of water phase, and the factor of what helps it.
    doses: [f64; MOST_AGENTS],
    helped: [f64; MOST_AGENTS],
    /// Stiffness of the set gelling agents, undisturbed and as it flows, Pa.
    set_pa: f64,
    flowing_pa: f64,
    efolds: f64,
    /// The same of the gelling agents alone.
    gel_efolds: f64,
    weeps_per_day: f64,
    /// Factor of fillers on the consistency of all else.
    filled: f64,
}

impl Agents {
    fn at(pot: &TextureInputs, at: &Moment, laws: &Laws) -> Self {
        let mut all = Self { filled: 1.0, helped: [1.0; MOST_AGENTS], ..Self::default() };
        let water = (1.0 - pot.fat_volume).max(0.05);
        let mut shares = [0.0; MOST_AGENTS];
        for (i, agent) in pot.agents.iter().enumerate().take(MOST_AGENTS) {
            shares[i] = share(agent, at);
            all.doses[i] = agent.dose / water * shares[i];
        }
        for (a, b, factor) in &pot.synergies {
            let factor = gum::together(all.doses[*a], all.doses[*b], *factor);
            all.helped[*a] *= factor;
            all.helped[*b] *= factor;
        }
        for (i, agent) in pot.agents.iter().enumerate().take(MOST_AGENTS) {
            all.add(agent, i, shares[i], (pot, at, laws));
        }
        all
    }

    fn add(
        &mut self,
        agent: &Agent,
        i: usize,
        share: f64,
        (pot, at, laws): (&TextureInputs, &Moment, &Laws),
    ) {
        let dose = self.doses[i];
        match agent.kind {
            AgentKind::ColdStarch { .. } | AgentKind::CookStarch { .. } => {
                let hottest = agent.before.hottest_c.max(at.hottest_c);
                let left = activation::unbroken(&agent.kind, hottest, &laws.starch);
                let volume = dose * 1e-3 * agent.swelling * left;
                self.starch.add(volume, agent.consistency, agent.stiffness);
                self.weeps_per_day += agent.weeps_per_day * share;
            }
            AgentKind::Gum { .. } => {}
            AgentKind::Filler { per_g_l } => self.filled *= 1.0 + per_g_l * dose,
            AgentKind::Gel { .. } => {
                let left = gelling_agent::left_after_stirring(&agent.kind);
                let whole = 1.0 - agent.before.broken * (1.0 - left);
                let stiff = gelling_agent::stiffness(&agent.kind, dose)
                    * gelling_agent::left_by_acid(&agent.kind, at.ph)
                    * activation::set_at(&agent.kind, at.c, at.coldest_c)
                    * self.helped[i]
                    * whole;
                // A stir in the hold breaks only what is set there; handling after the chill breaks all.
                let in_hold = if pot.stirred_at.iter().any(|s| *s <= at.t_h) {
                    activation::set_at(&agent.kind, at.made_at_c, at.made_at_c)
                } else {
                    0.0
                };
                let after = if pot.handling == Handling::Spooned { pot.rougher.1 } else { 1.0 };
                let jolted = after.max(in_hold);
                self.set_pa += stiff;
                self.flowing_pa += stiff * (1.0 - jolted * (1.0 - left));
            }
        }
        let efolds = share * agent.dose / agent.whey_efold;
        self.efolds += efolds;
        if matches!(agent.kind, AgentKind::Gel { .. }) {
            self.gel_efolds += efolds;
        }
    }
}

/// Share of an agent that is swollen, cooked or dissolved at a moment.
fn share(agent: &Agent, at: &Moment) -> f64 {
    if let AgentKind::ColdStarch { swelling_h } = agent.kind {
        1.0 - (-(agent.before.swelling_h + at.t_h) / swelling_h).exp()
    } else {
        agent.before.share.max(activation::kept_at(&agent.kind, at.hottest_c))
    }
}
