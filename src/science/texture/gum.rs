//! Gums: thickening of the water phase without a gel.

use super::inputs::AgentKind;

/// A gum's consistency, Pa·s^n, and flow index; `None` for other agents.
///
/// `τ = K c^a γ^n`, `n = index · c^−fall` between 0.15 and 1, c in g per L of water phase
///
/// - Valid 0.1-5 g/L. Source: power laws from memory or derived, each in the pantry.
pub fn power_law(kind: &AgentKind, dose: f64) -> Option<(f64, f64)> {
    match *kind {
        AgentKind::Gum { consistency, exponent, index, index_fall, .. } if dose > 0.0 => {
            let n = (index * dose.powf(-index_fall)).clamp(0.15, 1.0);
            Some((consistency * dose.powf(exponent), n))
        }
        _ => None,
    }
}

/// How much two amounts that help each other do: the full factor at equal parts, nothing when one is missing.
///
/// `1 + (factor − 1) · 4 a b/(a + b)²`
///
/// Source: assumed shape; equal parts published for xanthan with guar gum (Casas et al. 2000, abstract).
pub fn together(a: f64, b: f64, factor: f64) -> f64 {
    let sum = a + b;
    if sum <= 0.0 { 1.0 } else { 1.0 + (factor - 1.0) * 4.0 * a * b / (sum * sum) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gram_of_xanthan_thins_under_shear() {
        // Source: from memory, K = 0.18 c^1.7 and n = 0.45 c^-0.37 .
        let xanthan = AgentKind::Gum {
            consistency: 0.18,
            exponent: 1.7,
            index: 0.45,
            index_fall: 0.37,
            dissolve_c: 0.0,
        };
        let (consistency, index) = power_law(&xanthan, 1.0).unwrap();
        let viscosity = |shear: f64| consistency * shear.powf(index - 1.0);
        assert!((viscosity(1.0) - 0.18).abs() < 1e-12);
        assert!(viscosity(50.0) < 0.2 * viscosity(1.0));
    }

    #[test]
    fn helping_needs_both() {
        assert_eq!(together(1.0, 0.0, 2.0), 1.0);
        assert_eq!(together(1.0, 1.0, 2.0), 2.0);
    }
}
