//! An organism in plain numbers, ready for the rate laws.

/// A preservative acid: only its undissociated part acts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Preservative {
    pub pka: f64,
    /// mg/kg in all.
    pub amount: f64,
    /// mg/kg undissociated at which the rates are halved.
    pub half: f64,
    pub steepness: f64,
}

/// One organism of the pot. Units as in the pantry: 1/h, °C, mmol/kg, pmol/cfu, min.
#[derive(Clone, Debug, PartialEq)]
pub struct Organism {
    pub key: String,
    pub name: String,
    pub growth_rate: f64,
    /// Lowest, best and highest temperature of growth, °C.
    pub temperature: [f64; 3],
    /// Lowest, best and highest pH of growth.
    pub ph: [f64; 3],
    pub acid_ceiling: f64,
    pub acid_exponent: f64,
    pub acid_per_cell: f64,
    pub acid_per_cell_hour: f64,
    pub lactic_per_hexose: f64,
    pub acetic_per_hexose: f64,
    pub galactose_released: f64,
    pub half_saturation: f64,
    pub d60_min: f64,
    pub z_c: f64,
    /// Living cells that it loses in the cold, decades a week.
    pub cold_loss: f64,
    /// Readiness to eat each of the eight sugars, 0 to 1.
    pub eats: [f64; 8],
    /// (place of the helping organism in the pot, share of the rate that hangs on it, count at half the help).
    pub helpers: Vec<(Option<usize>, f64, f64)>,
    /// Living cells at the start, cfu/g.
    pub count: f64,
    /// Pace: a factor on growth and upkeep.
    pub speed: f64,
    /// Lag as work to be done, growth rate × lag.
    pub lag_work: f64,
    /// Factor on its rates by salt, much sugar and residues, 0 to 1.
    pub held_back: f64,
    pub preservatives: Vec<Preservative>,
    /// Factor on acid made per cell in the cold.
    pub cold_factor: f64,
}
