//! A bath of finite heat: the water cools as the tin in it warms.

/// Specific heat of water, kJ/(kg K). Source: published, Choi and Okos 1986, at 40-60 °C.
const WATER: f64 = 4.18;

/// The bath as surroundings of one temperature: where both meet, and the time constant on the way there.
///
/// `T∞ = (T2 + r T1)/(1 + r)`, `τ' = τ/(1 + r)`, `r = m1 c1/(m2 c2)`
///
/// - `from_c` — the tin, `bath_c` — the water at first, °C; `tau_h` — time constant in a bath without end, h;
///   `heat_per_kg` — specific heat of the base times its mass over the mass of the water, kJ/(kg K).
/// - Source: published, Heat Transfer Handbook (Bejan and Kraus), eq. 3.287-3.288.
pub fn finite(from_c: f64, bath_c: f64, tau_h: f64, heat_per_kg: f64) -> (f64, f64) {
    let ratio = heat_per_kg / WATER;
    ((bath_c + ratio * from_c) / (1.0 + ratio), tau_h / (1.0 + ratio))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_kilograms_of_water_warm_a_tin() {
        // Source: derived, heat balance worked by hand: 400 g of coconut cream from 20 °C in 2 kg at 60 °C end at 54.8 °C.
        let (end, tau) = finite(20.0, 60.0, 0.1, 3.15 * 0.4 / 2.0);
        assert!((end - 54.8).abs() < 0.1, "{end}");
        assert!(tau < 0.1);
    }
}
