//! Gelling agents: stiffness against dose, dissolving, setting and stirring.

use super::inputs::AgentKind;

/// Stiffness of a wholly dissolved and set gelling agent, Pa; 0 for starches.
///
/// `G' = G_ref (c/c_ref)^n · c⁴/(c⁴ + (0.85 c_least)⁴)`: little of it below the least dose that sets
///
/// - `dose` — g per L of water phase.
/// - Source: from memory for agar and gelatin, see the pantry; how it fades below the least dose assumed.
pub fn stiffness(kind: &AgentKind, dose: f64) -> f64 {
    match *kind {
        AgentKind::Gel { stiffness_pa, reference_g_l, exponent, least_g_l, supplied, .. } => {
            if dose <= 0.0 {
                return 0.0;
            }
            let fade = 1.0 / (1.0 + (0.85 * least_g_l / dose).powi(4));
            supplied * fade * stiffness_pa * (dose / reference_g_l).powf(exponent)
        }
        _ => 0.0,
    }
}

/// Share of the stiffness that acid leaves: 1 down to pH 4.6, then straight to its value at pH 4.0, held below.
///
/// Source: assumed shape; kappa carrageenan loses strength below about pH 4.3 (suppliers' texts).
pub fn left_by_acid(kind: &AgentKind, ph: f64) -> f64 {
    match *kind {
        AgentKind::Gel { left_at_ph4, .. } => 1.0 - (1.0 - left_at_ph4) * ((4.6 - ph) / 0.6).clamp(0.0, 1.0),
        _ => 1.0,
    }
}

/// Share of the stiffness left after stirring a set gel; 1 for starches.
pub fn left_after_stirring(kind: &AgentKind) -> f64 {
    match *kind {
        AgentKind::Gel { after_stirring, .. } => after_stirring,
        _ => 1.0,
    }
}
