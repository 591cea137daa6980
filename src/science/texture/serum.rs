//! The serum: water with sugars, what is dissolved in it, and swollen granules between the droplets.

use crate::params::{FatLaw, StarchLaw};

/// Viscosity of the serum without fat or thickener, Pa·s.
///
/// - `dairy` — share of the serum that is dairy, 0 to 1; `c` — °C.
pub fn plain(dairy: f64, c: f64, law: &FatLaw) -> f64 {
    let mixed = |of_dairy: f64, of_plants: f64| dairy * of_dairy + (1.0 - dairy) * of_plants;
    let ln_at_5 = mixed(law.dairy_serum.ln(), law.plant_serum.ln());
    (ln_at_5 - mixed(law.dairy_serum_fall, law.plant_serum_fall) * (c - 5.0)).exp()
}

/// Thickening by dissolved starch: `1 + [η]c + 0.4 ([η]c)²`.
///
/// - `g_l` — dissolved starch, g per L of water phase.
/// - Source: published form, Huggins 1942, J Am Chem Soc 64:2716; intrinsic viscosity of starch from memory.
pub fn dissolved(g_l: f64, law: &StarchLaw) -> f64 {
    let filled = law.intrinsic_ml_g * g_l * 1e-3;
    1.0 + filled + law.huggins * filled * filled
}

/// Thickening by swollen granules that flow past each other: `(1 − y)^−2`, y = x/x_m, held below its pole.
///
/// - `x` — packing `cQ`, swollen volume over water volume.
/// - Hold: `y/(1 + (y/0.65)⁴)^¼`. Granules are soft: where they touch, [`super::starch::Packing::paste`] takes over.
/// - Source: published form, Quemada 1977, for heated starch Rao and Tattiyakul 1999; largest packing and hold assumed.
pub fn granules(x: f64, law: &StarchLaw) -> f64 {
    if x <= 0.0 {
        return 1.0;
    }
    let y = x / law.packing_most;
    let held = y / (1.0 + (y / law.packing_held).powi(4)).sqrt().sqrt();
    (1.0 - held).powf(-law.packing_exponent)
}
