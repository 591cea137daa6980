//! What the texture laws need to know of a pot.

/// Handling after the set, from gentle to rough.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Handling {
    #[default]
    Spooned,
    Stirred,
    Worked,
    Blended,
}

/// How a thickener works, in plain numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AgentKind {
    /// Cold-swelling starch: time constant of swelling, h.
    ColdStarch { swelling_h: f64 },
    /// Cook-up starch: onset, peak, end and full swelling, °C.
    CookStarch {
        onset_c: f64,
        peak_c: f64,
        end_c: f64,
        full_c: f64,
        /// Granules break above this; infinite if they never do.
        overcooks_c: f64,
    },
    /// Gum in the water phase: `τ = consistency c^exponent γ^n`, `n = index c^−index_fall`.
    Gum { consistency: f64, exponent: f64, index: f64, index_fall: f64, dissolve_c: f64 },
    /// Fibre: consistency of all else grows by this share per g/L.
    Filler { per_g_l: f64 },
    /// Gelling agent.
    Gel {
        stiffness_pa: f64,
        reference_g_l: f64,
        exponent: f64,
        least_g_l: f64,
        dissolve_c: f64,
        set_c: f64,
        melt_c: f64,
        after_stirring: f64,
        /// Share of the stiffness that the base's calcium or milk protein allows.
        supplied: f64,
        left_at_ph4: f64,
    },
}

/// State of a thickener.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Activated {
    /// Share that is cooked, dissolved or swollen, 0 to 1.
    pub share: f64,
    /// Share that was set already when it was stirred, 0 to 1.
    pub broken: f64,
    /// Hottest that it has been, °C.
    pub hottest_c: f64,
    /// Hours of swelling in the warm.
    pub swelling_h: f64,
}

/// A thickener in the pot.
#[derive(Clone, Debug, PartialEq)]
pub struct Agent {
    pub key: String,
    pub name: String,
    pub kind: AgentKind,
    /// g per L of finished mix that is not lost in lumps.
    pub dose: f64,
    /// g swollen per g dry (starches).
    pub swelling: f64,
    /// Consistency at full packing, Pa·s^n (starches).
    pub consistency: f64,
    /// Stiffness at full packing, Pa (starches).
    pub stiffness: f64,
    pub whey_efold: f64,
    /// Water that it gives back, % of the pot per day in the cold.
    pub weeps_per_day: f64,
    /// What heat and time before the culture did to it.
    pub before: Activated,
}

/// What heat did before the culture went in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Heat {
    /// Denaturation integral `∫ k dt` of whey protein, from the base as bought and the heat treatment.
    pub whey_integral: f64,
    /// Hottest that the whole base has been, °C.
    pub hottest_c: f64,
}

/// The pot as the texture laws see it. Shares in g per 100 g of mix.
#[derive(Clone, Debug, PartialEq)]
pub struct TextureInputs {
    pub dairy_protein: f64,
    pub soy_protein: f64,
    pub pea_protein: f64,
    pub nut_protein: f64,
    /// Strength of the dairy gel against cow's milk.
    pub gel_strength: f64,
    /// mg per 100 g.
    pub calcium: f64,
    /// Share of the cells that make slime, 0 to 1.
    pub ropy: f64,
    pub fat: f64,
    /// Volume share of fat, 0 to 1.
    pub fat_volume: f64,
    /// Share of the fat that is plant fat, and that is coconut fat, 0 to 1.
    pub plant_fat: f64,
    pub coconut_fat: f64,
    /// Share of the fat that is finely homogenised, 0 to 1.
    pub homogenised: f64,
    /// Share of the serum that is dairy, 0 to 1.
    pub dairy: f64,
    pub droplet_um: f64,
    /// Height of the mix in its vessel, mm.
    pub height_mm: f64,
    pub agents: Vec<Agent>,
    /// Pairs of agents that do more together, and the factor at equal parts.
    pub synergies: Vec<(usize, usize, f64)>,
    pub heat: Heat,
    pub handling: Handling,
    /// What straining or stirring in does on top, and how far, 0 to 1.
    pub rougher: (Handling, f64),
    /// Set in the pot and not stirred on purpose.
    pub set_style: bool,
    /// When the pot is stirred or jolted during the hold, h.
    pub stirred_at: Vec<f64>,
    /// Factor on thickness and stiffness for what the laws leave out: 1, but for the pots of a spread.
    pub left_out: f64,
    /// Days in the cold at which the chilled texture is stated.
    pub cold_days: f64,
    pub chilled_c: f64,
}

impl TextureInputs {
    /// Protein that makes a gel, g/100 g.
    pub fn gelling_protein(&self) -> f64 {
        self.dairy_protein + self.soy_protein + self.pea_protein + self.nut_protein
    }
}
